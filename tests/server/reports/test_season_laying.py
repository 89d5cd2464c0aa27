"""Rates of lay from the eggs gathered and the hens in the pen, added up by hand."""

import pytest

from broodline.reports.season_laying import laying_by_family
from tests.server.reports.pen_book import PenBook


@pytest.fixture
def book() -> PenBook:
    """Three hens from 1 to 10 March; on the 5th one of them is sold. Gathered: 2, 1 and 3 eggs on the 1st, 4th, 6th."""
    book = PenBook()
    (cock,), hens = book.birds("male", 1), book.birds("female", 3)
    book.pen([cock], hens, "2026-03-01")
    book.write("left", {"bird": hens[0], "on": "2026-03-05", "how": "sold"})
    for on, n in (("2026-03-01", 2), ("2026-03-04", 1), ("2026-03-06", 3)):
        gather(book, on, n)
    return book


def gather(book: PenBook, on: str, n: int) -> None:
    book.write("gathered", {"family": book.rowan, "on": on, "n": n, "kept": n})


def test_eggs_are_held_against_the_hens_of_each_day(book: PenBook) -> None:
    """Five days of three hens and one of two: 17 hen days; 6 eggs are 35.3 %, of the 18 at the start 33.3 %."""
    assert laying_by_family(book.standing(), 2026) == {
        book.rowan: {
            "eggs": 6,
            "from": "2026-03-01",
            "to": "2026-03-06",
            "days": 6,
            "hen_days": 17,
            "hen_day_pct": pytest.approx(100 * 6 / 17),
            "hen_housed_pct": pytest.approx(100 * 6 / 18),
        }
    }
    assert laying_by_family(book.standing(), 2025) == {}


def test_a_day_with_no_known_hen_gives_no_rate(book: PenBook) -> None:
    gather(book, "2026-02-27", 1)
    assert laying_by_family(book.standing(), 2026) == {}


def test_weeks_in_which_nobody_gathered_count_neither_eggs_nor_hens(book: PenBook) -> None:
    """As above, and 2 eggs on 20 March: a day of two hens more, 8 eggs of 19 hen days."""
    gather(book, "2026-03-20", 2)
    found = laying_by_family(book.standing(), 2026)[book.rowan]
    assert (found["to"], found["days"], found["hen_days"]) == ("2026-03-20", 7, 19)
    assert found["hen_day_pct"] == pytest.approx(100 * 8 / 19)
