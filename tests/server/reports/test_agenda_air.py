"""A thermometer that falls silent while eggs are in its machine: when Due tells it, of which, and what ends it.

Figures of alarms.json: silent after three times the usual spacing, an hour at least; twelve hours where fewer than
three readings say what is usual. Chickens in forced air are at 37.5 °C; red from 1.94 °C off.
"""

import random
from datetime import datetime, timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import canonical_bytes, read_entry
from broodline.reports.agenda import due, open_tasks
from broodline.reports.notice import notices
from broodline.reports.wishes import Wishes
from tests.book_writer import START, BookWriter
from tests.server.book.phone import phone_book

MINUTE, HOUR, DAY = timedelta(minutes=1), timedelta(hours=1), timedelta(days=1)
BEGIN = START + DAY  # 8:00 on 2 March


def book(eggs: int = 12, temperature: str = "C") -> tuple[BookWriter, str]:
    writer = BookWriter()
    writer.keeper(temperature=temperature)
    place = writer.write("place", {"name": "Loft box", "role": "incubator", "air": "forced"})
    writer.set_eggs(place, [(writer.lot(), writer.family("Rowan"), eggs)])
    return writer, place


def say(writer: BookWriter, place: str, minutes: list[float], dry_c: float = 37.5, by: str = "sensor") -> None:
    """Readings so many minutes after the beginning."""
    for minute in minutes:
        writer.write("air", {"place": place, "dry_c": dry_c, "by": by}, at=BEGIN + minute * MINUTE)


def care(writer: BookWriter, on: str, minute: float, **more: Any) -> None:
    writer.write("care", {"task": "air", "on": on, **more}, at=BEGIN + minute * MINUTE)


def told(writer: BookWriter, minute: float) -> list[dict[str, Any]]:
    found = due(fold(writer.entries()), BEGIN + minute * MINUTE)["tasks"]
    return [task for task in found if task["task"] == "air"]


@pytest.mark.parametrize(
    ("minutes", "silent_after"),
    [
        (range(0, 61, 10), 60),  # every ten minutes: 3 x 10 is less than the hour it has at least
        (range(0, 241, 60), 180),  # hourly
        ((0, 60, 120, 700, 760, 820), 180),  # a gap among them is not the usual spacing
        ((0, 10, 20, 140, 260, 380), 360),  # 10, 10, 120, 120, 120: usual is 120
        ((0, 10, 20, 30, 150, 270, 390), 195),  # 10, 10, 10, 120, 120, 120: the middle of 10 and 120 is 65
        ((0, 60), 720),  # one gap says nothing of what is usual
        ((0,), 720),
    ],
)
def test_it_is_silent_by_what_its_own_spacing_was(minutes: Any, silent_after: int) -> None:
    writer, place = book()
    say(writer, place, list(minutes))
    last = max(minutes)
    assert told(writer, last + silent_after) == []
    assert len(told(writer, last + silent_after + 1)) == 1


def test_it_says_which_machine_since_when_and_for_how_many_eggs() -> None:
    writer, place = book()
    say(writer, place, list(range(0, 61, 10)))
    [task] = told(writer, 61 + 130)
    assert task["words"] == (
        "Nothing from the thermometer of Loft box for 2 hours. Look at the air of the 12 eggs yourself."
    )
    assert (task["at"], task["due"], task["overdue"]) == ("2026-03-02T10:00:00.000Z", "2026-03-02", False)
    assert (task["place"], task["setting"], task["lot"], task["n"], task["day"]) == (place, None, None, 12, 1)
    [late] = told(writer, 60 + 50 * 60)
    assert "for 2 days. Look" in late["words"]
    assert late["overdue"]
    writer, place = book(eggs=1)
    say(writer, place, list(range(0, 61, 10)))
    assert "for 1 hour. Look at the air of the 1 egg yourself." in told(writer, 125)[0]["words"]


@pytest.mark.parametrize(
    ("dry_c", "words"),
    [(39.6, ", after a reading far too warm."), (35.4, ", after a reading far too cold."), (39.0, " hours. Look")],
)
def test_a_last_reading_in_red_is_said_with_it(dry_c: float, words: str) -> None:
    writer, place = book()
    say(writer, place, list(range(0, 51, 10)))
    say(writer, place, [60], dry_c)
    assert words in told(writer, 200)[0]["words"]


@pytest.mark.parametrize(
    "why",
    [
        "nobody but a hand wrote",
        "it spoke before these eggs",
        "elsewhere",
        "all eggs are out",
        "eggs are elsewhere",
        "it speaks again",
    ],
)
def test_nothing_is_told_where(why: str) -> None:
    writer, place = book()
    there = writer.incubator("Shed box") if why == "elsewhere" else place
    ahead = -2 * 24 * 60 if why == "it spoke before these eggs" else 0
    say(writer, there, [ahead + n for n in range(0, 61, 10)], by="hand" if why.startswith("nobody") else "sensor")
    lot, setting = writer.documents[3]["body"]["lots"][0]["lot"], writer.documents[3]["id"]
    if why == "all eggs are out":
        writer.move(lot, "set", "clear", 12, at=BEGIN + HOUR)
    if why == "eggs are elsewhere":
        writer.write("locked", {"setting": setting, "place": writer.incubator("Hatcher")}, at=BEGIN + HOUR)
    assert len(told(writer, 300)) == (why == "it speaks again")
    if why == "it speaks again":
        say(writer, place, [301])
        assert told(writer, 302) == []


def test_a_hatcher_that_was_read_before_is_told_from_lockdown_on() -> None:
    writer, _ = book()
    hatcher = writer.write("place", {"name": "Hatcher", "role": "hatcher"})
    say(writer, hatcher, list(range(0, 61, 10)))
    assert told(writer, 300) == []
    writer.write("locked", {"setting": writer.documents[3]["id"], "place": hatcher}, at=BEGIN + 5 * HOUR)
    assert [task["place"] for task in told(writer, 301)] == [hatcher]


def test_two_settings_in_one_machine_are_one_task() -> None:
    writer, place = book()
    writer.set_eggs(place, [(writer.lot(), writer.family("Hazel"), 5)])
    say(writer, place, list(range(0, 61, 10)))
    assert [task["n"] for task in told(writer, 300)] == [17]


def test_a_reading_by_hand_is_enough_for_its_day() -> None:
    writer, place = book()
    say(writer, place, list(range(0, 61, 10)))
    say(writer, place, [200], by="hand")
    assert told(writer, 201) == []
    assert told(writer, 15 * 60 + 59) == []  # 23:59
    assert len(told(writer, 16 * 60)) == 1, "the next day it is asked for again"


def test_a_care_ends_it_for_its_time_and_no_longer() -> None:
    writer, place = book()
    say(writer, place, list(range(0, 61, 10)))
    care(writer, "2026-03-02", 30, place=place)
    assert len(told(writer, 200)) == 1, "noted before it fell silent"
    care(writer, "2026-03-02", 200, place=writer.incubator("Shed box"))
    assert len(told(writer, 200)) == 1, "of another machine"
    care(writer, "2026-03-02T13:00:00Z", 30, place=place)
    assert told(writer, 299) == []
    assert len(told(writer, 301)) == 1, "the time it was silenced for is over"
    care(writer, "2026-03-02", 302)
    assert told(writer, 303) == []
    assert len(told(writer, 16 * 60)) == 1, "done for a day"
    care(writer, "2026-03-09", 16 * 60, place=place)
    assert told(writer, 7 * 24 * 60) == []
    assert len(told(writer, 8 * 24 * 60)) == 1


def test_it_is_a_matter_of_now_and_in_no_list_of_what_comes() -> None:
    writer, place = book()
    say(writer, place, list(range(0, 61, 10)))
    standing = fold(writer.entries())
    assert "air" not in {task.task for task in open_tasks(standing, BEGIN + DAY)}
    air = Wishes(what=frozenset({"air"}))
    assert notices(standing, BEGIN + DAY, air, BEGIN - 9 * DAY, set()) == []


def strange_book(seed: int) -> list[dict[str, Any]]:
    chance = random.Random(seed)
    writer, place = book(eggs=chance.choice([1, 12]), temperature="C")
    writer.documents[0]["body"]["zone"] = chance.choice(["Europe/Dublin", "Pacific/Kiritimati", "America/St_Johns"])
    places = [place, writer.write("place", {"name": "Hatcher", "role": "hatcher", "air": "still"})]
    writer.set_eggs(chance.choice(places), [(writer.lot(), writer.family("Hazel"), 5)])
    writer.documents[-1]["body"]["species"] = chance.choice(["chicken", "duck", "kiwi"])
    minute = 0.0
    for _ in range(chance.randrange(40)):
        minute += chance.choice([10, 10, 10.5, 60, 300, 1000])
        here = chance.choice(places[: chance.choice([1, 2])])
        say(writer, here, [minute], chance.choice([37.5, 39.7, 35.0, 80.0]), chance.choice(["sensor"] * 4 + ["hand"]))
        if chance.random() < 0.15:
            on = BEGIN + (minute + chance.choice([-2000, 0, 60, 300, 3000])) * MINUTE
            text = on.isoformat().replace("+00:00", "Z")
            care(writer, chance.choice([text, text[:10]]), minute, **({"place": here} if chance.random() < 0.7 else {}))
    if chance.random() < 0.4:
        writer.write(
            "locked", {"setting": writer.documents[3]["id"], "place": places[1]}, at=BEGIN + minute / 2 * MINUTE
        )
    return writer.documents


def test_the_phone_tells_the_same_at_any_moment(tmp_path: Any) -> None:
    silent = grave = 0
    with phone_book(tmp_path) as phone:
        for seed in range(80):
            documents = strange_book(seed)
            standing = fold(map(read_entry, documents))
            moments: list[datetime] = [BEGIN + timedelta(hours=hours + seed % 7) for hours in range(0, 130, 9)]
            expected = [due(standing, now) for now in moments]
            found = [task for one in expected for task in one["tasks"] if task["task"] == "air"]
            silent += len(found)
            grave += sum("far too" in task["words"] for task in found)
            answer = phone.answer("due", entries=documents, moments=[now.isoformat() for now in moments])
            assert answer == canonical_bytes(expected).decode(), f"seed {seed}"
    assert silent > 100
    assert grave > 20
