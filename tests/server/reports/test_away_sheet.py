"""The sheet for whoever looks after things: each thing once, on its day, in the order of the day."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.reports.agenda import due
from broodline.reports.away_sheet import away_sheet
from tests.book_writer import START, BookWriter
from tests.server.exchange.told_books import NOW, demo_book

FIRST = date(2026, 3, 1)


def hatched(days_ago: int, *, zone: str = "Europe/Dublin") -> BookWriter:
    """Twelve chicks that came out so many days before START, in a brooder."""
    book = BookWriter()
    book.keeper(zone)
    rowan, box = book.family("Rowan"), book.incubator()
    brooder = book.write("place", {"name": "Box by the stove", "role": "brooder"})
    out = START - timedelta(days=days_ago)
    lot = book.lot()
    book.set_eggs(box, [(lot, rowan, 12)], set_at=out - timedelta(days=21))
    hatch(book, lot, 12, out, brooder)
    return book


def hatch(book: BookWriter, lot: str, n: int, out: datetime, brooder: str) -> None:
    """All eggs of a batch hatch at once and are carried to the brooder."""
    book.move(lot, "set", "hatched", n, at=out)
    book.move(lot, "hatched", "brooding", n, at=out, place=brooder)


def sheet(book: BookWriter, days: int, now: datetime = START) -> dict[str, Any]:
    return away_sheet(fold(book.entries()), FIRST, FIRST + timedelta(days=days - 1), now)


def told(found: dict[str, Any]) -> list[str]:
    return [*(task["words"] for day in found["days"] for task in day["tasks"]), *found["daily"]]


def on_days(found: dict[str, Any], words: str) -> list[str]:
    return [day["on"] for day in found["days"] for task in day["tasks"] if task["words"].startswith(words)]


def test_what_is_done_every_day_is_told_once_whatever_the_days() -> None:
    for days in (2, 8, 20):
        found = sheet(hatched(10), days)
        chores = [words for words in told(found) if words.startswith(("Clean", "Fresh"))]
        assert chores == [
            "Clean the drinkers of 12 chicks in Box by the stove.",
            "Fresh water for 12 chicks in Box by the stove, morning and evening.",
        ], days
        assert set(chores) < set(found["daily"])


def test_on_one_day_alone_it_stands_among_what_is_due() -> None:
    found = sheet(hatched(10), 1)
    assert on_days(found, "Clean the drinkers") == ["2026-03-01"]
    assert not any("drinkers" in words for words in found["daily"])


def test_every_day_goes_from_the_eggs_to_the_young_to_the_others() -> None:
    book = hatched(10)
    hazel = book.family("Hazel")
    hand = book.write("place", {"name": "Kitchen cabinet", "role": "incubator", "turns": "hand"})
    book.set_eggs(hand, [(book.lot(), hazel, 10)], set_at=START - timedelta(days=2))
    assert [words.split()[0] for words in sheet(book, 3)["daily"]] == [
        *("Machines:", "Turn", "Brooder:", "Clean", "Fresh", "Feed", "Count")
    ]


def test_with_no_chicks_and_no_eggs_there_is_water_feed_and_a_look() -> None:
    book = BookWriter()
    book.keeper()
    daily = ["Water and feed for all; look at every bird."]
    assert sheet(book, 3) == {"days": [], "machines": [], "daily": daily, "held": []}


def test_what_comes_anew_for_some_days_says_until_when() -> None:
    """Non-eaters are looked for on days 3 to 6 (Damerow); the morning of 28 February is their day 0."""
    found = sheet(hatched(1), 8)
    assert [task for task in told(found) if "do not eat" in task] == [
        "Look for chicks in Box by the stove that do not eat: empty crops, standing apart. 12 chicks. "
        "Every day until Friday, 6 Mar 2026."
    ]
    assert on_days(found, "Look for chicks in Box by the stove that do not eat") == ["2026-03-03"]


def test_what_waits_all_week_is_told_on_its_first_day_and_again_a_week_later() -> None:
    """Ten days old: the week of age began three days ago and the next begins on 5 March."""
    found = sheet(hatched(10), 13)
    assert on_days(found, "Take wet litter") == ["2026-03-01", "2026-03-05", "2026-03-12"]


def test_what_was_left_undone_waits_for_the_next_week_where_that_is_near() -> None:
    """Twelve days old: the second week began five days ago, the third begins on 3 March."""
    assert on_days(sheet(hatched(12), 8), "Take wet litter") == ["2026-03-03"]
    assert on_days(sheet(hatched(12), 2), "Take wet litter") == ["2026-03-01"]


def test_several_batches_of_a_place_are_one_task_and_why_is_said_once() -> None:
    book = hatched(40)
    box = book.incubator("Other box")
    out = START - timedelta(days=40)
    for name in ("Hazel", "Sedge"):
        lot = book.lot()
        book.set_eggs(box, [(lot, book.family(name), 5)], set_at=out - timedelta(days=21))
        hatch(book, lot, 5, out, book.documents[3]["id"])
        book.write("marked", {"lot": lot, "tag": {"kind": "ring", "colour": "red", "leg": "left"}, "n": 5,
                              "on": "2026-02-25"})  # fmt: skip
    found = sheet(book, 8)
    rings = [task for day in found["days"] for task in day["tasks"] if task["words"].startswith("Look at the rings")]
    assert [task["words"] for task in rings] == [
        "Look at the rings of 10 growing birds in Box by the stove: can each still turn?"
    ]
    why = [task["why"] for day in found["days"] for task in day["tasks"] if task["why"]]
    assert len(set(why)) == len(why) > 2


def by_hand(standing: Standing, first: date, last: date) -> set[tuple[str, str, str]]:
    """Day by day what the list of due things shows late in the evening, by task, place and setting."""
    found: set[tuple[str, str, str]] = set()
    day = first
    while day <= last:
        late = datetime(day.year, day.month, day.day, 23, 59, tzinfo=UTC)
        for task in due(standing, late)["tasks"]:
            if task["due"] <= last.isoformat():
                found.add((task["task"], task["place"], task["setting"] or ""))
        day += timedelta(days=1)
    return found


def test_nothing_that_will_be_due_is_left_out_and_nothing_is_told_twice() -> None:
    """The demo's book: its sheet holds as many different things as asking every day by hand finds kinds of them."""
    standing = demo_book()
    first, last = NOW.date(), NOW.date() + timedelta(days=9)
    found = away_sheet(standing, first, last, NOW)
    weekly = ("Take wet litter", "Raise feeders")
    once = [words for words in told(found) if not words.startswith(weekly)]
    assert len(once) == len(set(once)) > 10
    for task, place, _ in by_hand(standing, first, last):
        name = standing.places[place].name if place in standing.places else ""
        assert any(name in words for words in told(found)), (task, name)
    assert sum("drinkers of 48" in words and words.startswith("Clean") for words in told(found)) == 1
    assert [day["on"] for day in found["days"]] == sorted({day["on"] for day in found["days"]})


def test_chicks_that_come_while_the_keeper_is_away_are_brought_to_feed_and_water() -> None:
    """Chickens set on 13 February hatch on 6 March by the calendar; nothing is in the book of them yet."""
    book = BookWriter()
    book.keeper("UTC")
    box, lot = book.incubator(), book.lot()
    book.set_eggs(box, [(lot, book.family("Rowan"), 12)], set_at=datetime(2026, 2, 13, 8, tzinfo=UTC))
    found = sheet(book, 8)
    (task,) = [task for day in found["days"] for task in day["tasks"] if task["words"].startswith("Chicks may be out")]
    end = "look each day, bring the dry ones to feed and water."
    assert task["words"] == f"Chicks may be out in Loft box from this day on: {end}"
    assert task["why"] == "Feed and water within 24 hours of hatching, 48 at most."
    assert on_days(found, "Chicks may be out") == ["2026-03-06"]
    assert on_days(sheet(book, 5), "Chicks may be out") == [], "they come the day after the last"
    book.move(lot, "set", "hatched", 12, at=datetime(2026, 3, 6, 8, tzinfo=UTC))
    assert on_days(sheet(book, 8), "Chicks may be out") == []


def eggs(*set_days_ago: int) -> BookWriter:
    """Chickens' eggs set in boxes of their own, so many days before START."""
    book = BookWriter()
    book.keeper()
    rowan = book.family("Rowan")
    for i, days in enumerate(set_days_ago):
        book.set_eggs(book.incubator(f"Box {i}"), [(book.lot(), rowan, 10)], set_at=START - timedelta(days=days))
    return book


def test_what_was_due_before_the_days_is_said_as_late_and_a_lockdown_after_the_hatch_not_at_all() -> None:
    """Chickens: lockdown on day 18, opening on day 23 (calendar of the agenda's vectors)."""
    found = sheet(eggs(19, 18, 17, 30), 3)
    late = "Was due 28 Feb 2026: only if it is not done yet."
    locking = [(day["on"], task["words"]) for day in found["days"] for task in day["tasks"] if "Lock" in task["words"]]
    order = "stop turning, raise the humidity, keep the families of 10 eggs apart."
    assert locking == [
        ("2026-03-01", f"Lock down Box 0: {order} {late}"),
        ("2026-03-01", f"Lock down Box 1: {order}"),
        ("2026-03-02", f"Lock down Box 2: {order}"),
    ]
    assert [words for words in told(found) if words.startswith("Open")] == [
        "Open the 10 eggs in Box 3 that did not hatch. Candle and listen first. "
        "Was due 22 Feb 2026: only if it is not done yet."
    ]


def test_a_sheet_made_ahead_tells_what_runs_where_as_of_its_first_day() -> None:
    """Set on 22 February: on 12 March their 18th day, on 1 March their 7th; candled on days 7 and 14."""
    book = eggs(7)
    days = [away_sheet(fold(book.entries()), on, on + timedelta(days=3), START)
            for on in (date(2026, 2, 27), FIRST, date(2026, 3, 12))]  # fmt: skip
    assert [(one["machines"][0]["day"], one["machines"][0]["next"].count("candle")) for one in days] == [
        (7, 2),
        (7, 2),
        (18, 0),
    ]
    assert days[2]["machines"][0]["next"].startswith("lockdown 12 Mar 2026; first chicks")


def test_batches_that_are_late_together_are_late_and_one_in_time_is_not() -> None:
    """The heat of the second week is set a week after the hatch: for one batch on 26 February, for the other later."""
    for other, late in ((9, " Was due 27 Feb 2026: only if it is not done yet."), (7, "")):
        book = hatched(10)
        box, out = book.incubator("Other box"), START - timedelta(days=other)
        lot = book.lot()
        book.set_eggs(box, [(lot, book.family("Hazel"), 5)], set_at=out - timedelta(days=21))
        hatch(book, lot, 5, out, book.documents[3]["id"])
        heat = [words for words in told(sheet(book, 2)) if "°C" in words]
        assert [words.partition(" Was due")[1:] for words in heat] == [late.partition(" Was due")[1:]], heat
        assert "17 chicks" in heat[0]


def test_eggs_and_meat_held_back_name_the_pen_its_birds_and_the_last_day() -> None:
    book = BookWriter()
    book.keeper()
    rowan = book.family("Rowan")
    pond = book.write("place", {"name": "Pond", "role": "pen"})
    cock, hen = (book.write("bird", {"name": name, "sex": sex, "family": rowan})
                 for name, sex in (("Bram", "male"), ("Una", "female")))  # fmt: skip
    book.write("penned", {"family": rowan, "place": pond, "since": "2026-01-10", "sires": [{"bird": cock}],
                          "dams": [{"bird": hen}]})  # fmt: skip
    given = {"product": "Wormer", "from": "2026-02-20", "no_eggs_until": "2026-03-01", "no_meat_until": "2026-03-09"}
    book.write("treated", {"place": pond, **given})
    book.write("treated", {"bird": hen, "product": "Drops", "from": "2026-03-02", "no_eggs_until": "2026-03-05"})
    book.write("treated", {"bird": cock, "product": "Old", "from": "2026-02-01", "no_meat_until": "2026-02-28"})
    book.write("treated", {"bird": cock, "product": "Later", "from": "2026-03-04", "no_meat_until": "2026-04-28"})
    assert sheet(book, 3)["held"] == [
        "Eggs of Una, Pond: not for eating until 5 Mar 2026 (Drops).",
        "Eggs of Pond (Bram, Una): not for eating until 1 Mar 2026 (Wormer).",
        "Meat of Pond (Bram, Una): not for eating until 9 Mar 2026 (Wormer).",
    ]
