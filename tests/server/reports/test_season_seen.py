"""What a season's page shows beside its families: hatch windows, chicks lost by age, the seasons before. Counted by
hand; the interval is scipy's Wilson."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from scipy.stats import binomtest

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, tzinfo=UTC)


def report(book: BookWriter, year: int = 2026, now: datetime = NOW) -> dict[str, Any]:
    return season_report(fold(book.entries()), year, now)


def at(day: float) -> datetime:
    return START + timedelta(days=day)


def hatched(looks: dict[float, int], eggs: int = 40) -> tuple[BookWriter, str]:
    """A setting of one lot whose chicks were seen out on these days; the rest did not hatch."""
    book = BookWriter()
    book.keeper()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), eggs)])
    for day, n in looks.items():
        if n:
            book.move(lot, "set", "hatched", n, at=at(day), why="hatch")
        else:
            book.look(setting, lot, "hatch", at=at(day), day=int(day), none=True)
    if (rest := eggs - sum(looks.values())) > 0:
        book.move(lot, "set", "unhatched", rest, at=at(24), why="hatch")
    return book, lot


def test_a_hatch_has_its_window_beside_the_usual_one() -> None:
    book, _ = hatched({20.0: 0, 20.5: 10, 21.0: 15, 21.5: 5})
    (row,) = report(book)["hatches"]
    assert (row["place_name"], row["set_on"], row["hatched"]) == ("Loft box", "2026-03-01", 30)
    assert (row["first_h"], row["last_h"]) == (20.5 * 24, 21.5 * 24)
    assert row["first_h"] < row["median_h"] < row["last_h"]
    assert row["usual_h"][0] < 21 * 24 < row["usual_h"][1]  # chickens: day 21


def test_a_hatch_that_was_only_counted_has_no_window() -> None:
    book, _ = hatched({22.0: 30})
    found = report(book)
    assert (found["hatches"], found["hatches_left_out"]["once"]) == ([], 1)
    assert found["hatches_left_out"]["words"] == (
        "Left out: 1 setting whose chicks were counted at one look, so that nobody saw when they came."
    )


def test_hatches_without_a_window_are_counted_by_why() -> None:
    book, _ = hatched({20.0: 0, 20.5: 10, 21.0: 15, 21.5: 5})
    assert report(book)["hatches_left_out"]["words"] == ""
    rowan = book.family("Rowan")
    for set_at in (at(40), at(60)):
        lot = book.lot()
        book.set_eggs(book.incubator(), [(lot, rowan, 10)], set_at=set_at)
        book.move(lot, "set", "unhatched", 10, at=set_at + timedelta(days=23), why="hatch")
    book.set_eggs(book.incubator(), [(book.lot(), rowan, 10)], set_at=at(80))
    assert report(book)["hatches_left_out"] == {
        "once": 0,
        "none": 2,
        "running": 1,
        "words": "Left out: 2 settings without a chick; 1 setting still in the machine without a chick.",
    }


def test_chicks_are_lost_at_an_age() -> None:
    """30 out on day 21: 2 dead the day after, 1 missing on their fifth day, 1 culled on their sixth, 4 sold on their
    twentieth, 1 dead on their fortieth. So 2 of 30, 1 of 27 (the culled one is no loss), 0 of 22, 1 of 22."""
    book, lot = hatched({20.9: 0, 21.0: 30})
    book.move(lot, "hatched", "died", 2, at=at(22.2))
    book.move(lot, "hatched", "unaccounted", 1, at=at(26.1))
    book.move(lot, "hatched", "culled", 1, at=at(27.1))
    book.move(lot, "hatched", "parted", 4, at=at(41.2))
    book.move(lot, "hatched", "died", 1, at=at(61.2))
    rows = report(book)["chick_losses"]
    assert [(row["from_days"], row["to_days"]) for row in rows] == [(0, 2), (3, 7), (8, 28), (29, 84)]
    assert [(row["died"], row["missing"], row["culled"]) for row in rows] == [
        (2, 0, 0),
        (0, 1, 1),
        (0, 0, 0),
        (1, 0, 0),
    ]
    assert [(row["lost"]["k"], row["lost"]["n"]) for row in rows] == [(2, 30), (1, 27), (0, 22), (1, 22)]
    wilson = binomtest(2, 30).proportion_ci(method="wilson")
    assert (rows[0]["lost"]["low"], rows[0]["lost"]["high"]) == pytest.approx((wilson.low, wilson.high))


def test_an_age_that_is_not_over_yet_counts_nobody() -> None:
    book, lot = hatched({20.9: 0, 21.0: 30})
    book.move(lot, "hatched", "died", 3, at=at(25.5))
    rows = report(book, now=at(26))["chick_losses"]
    assert [(row["from_days"], row["lost"]["k"], row["lost"]["n"]) for row in rows] == [(0, 0, 30)]
    assert report(book, now=at(22))["chick_losses"] == []


def test_a_season_stands_beside_those_before_it() -> None:
    """2024 Rowan 5 of 10; 2025 Rowan 6 of 10 and Birch 9 of 10; in 2026 eggs that still lie."""
    book = BookWriter()
    book.keeper()
    place, rowan, birch = book.incubator(), book.family("Rowan"), book.family("Birch")
    for years, counts in ((2, {rowan: 5}), (1, {rowan: 6, birch: 9})):
        set_at = START - timedelta(days=365 * years)
        lots = {family: book.lot() for family in counts}
        book.set_eggs(place, [(lot, family, 10) for family, lot in lots.items()], set_at=set_at)
        for family, lot in lots.items():
            book.move(lot, "set", "hatched", counts[family], at=set_at + timedelta(days=21))
            book.move(lot, "set", "unhatched", 10 - counts[family], at=set_at + timedelta(days=23))
    book.set_eggs(place, [(book.lot(), rowan, 10)])
    earlier = report(book)["earlier"]
    told = [(row["year"], row["set"], row["hatch_of_set"]["k"], row["hatch_of_set"]["n"]) for row in earlier]
    assert told == [(2025, 20, 15, 20), (2024, 10, 5, 10)]
    assert {family: (rate["k"], rate["n"]) for family, rate in earlier[0]["families"].items()} == {
        rowan: (6, 10),
        birch: (9, 10),
    }
    assert [row["year"] for row in report(book, year=2025)["earlier"]] == [2024]
    assert report(book, year=2024)["earlier"] == []


def steps_of(found: dict[str, Any]) -> dict[str, tuple[int, int, int]]:
    """Step -> how many came to it, how many were lost before, how many were sold or given."""
    return {row["step"]: (row["n"], row["fewer"], row["sold"]) for row in found["funnel"]}


def test_a_bird_that_has_left_lives_here_no_more_and_only_the_dead_are_lost() -> None:
    """Of 40 set 30 hatch: 3 chicks die, 5 are sold from the basket, 8 join the flock. Of these 2 die, 1 is culled, 2
    are sold, 1 is given, 1 is lent out and is back with nobody yet: 30 less 3, 5 and 6 are 16, of whom 2 are kept."""
    book, lot = hatched({20.9: 0, 21.0: 30})
    book.move(lot, "hatched", "died", 3, at=at(22))
    book.move(lot, "hatched", "parted", 5, at=at(30))
    book.move(lot, "hatched", "flock", 8, at=at(90))
    birds = [book.write("bird", {"sex": "female", "lots": [{"lot": lot, "share": 1}]}, at=at(90)) for _ in range(8)]
    for bird, how in zip(birds, ("died", "died", "culled", "sold", "sold", "given", "lent"), strict=False):
        book.write("left", {"bird": bird, "on": "2026-07-01", "how": how}, at=at(122))
    told = report(book)
    steps = steps_of(told)
    assert steps["hatched"] == (30, 10, 0)
    assert steps["alive"] == (16, 6, 8)
    assert steps["flock"][0] == 2
    assert [row["away"] for row in told["funnel"] if row["step"] == "alive"] == ["6 fewer, 8 sold or given"]
    assert told["titles"]["funnel"] == "Of 40 eggs set 30 hatched; 16 live now, 8 were sold or given"
    before = steps_of(report(book, now=datetime(2026, 6, 30, tzinfo=UTC)))
    assert before["alive"] == (22, 3, 5), "on that day none of the birds had left"


def test_a_bird_of_one_of_two_batches_is_missed_among_both() -> None:
    """Nobody knows which of two batches it is of; that it is dead is known all the same."""
    book = BookWriter()
    book.keeper()
    rowan, birch = book.lot(), book.lot()
    book.set_eggs(book.incubator(), [(rowan, book.family("Rowan"), 4), (birch, book.family("Birch"), 4)])
    for lot in (rowan, birch):
        book.move(lot, "set", "hatched", 4, at=at(21))
    lots = [{"lot": rowan, "share": 0.5}, {"lot": birch, "share": 0.5}]
    bird = book.write("bird", {"sex": "male", "lots": lots}, at=at(60))
    book.write("left", {"bird": bird, "on": "2026-06-01", "how": "died"}, at=at(95))
    assert steps_of(report(book))["alive"] == (7, 1, 0)
