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
    """Nobody knows since when the first two eggs lay there. After them, four days of three hens and one of two:
    14 hen days; 4 eggs are 28.6 %, of the 15 days of the hens at the start 26.7 %.
    """
    assert laying_by_family(book.standing(), 2026) == {
        book.rowan: {
            "eggs": 4,
            "from": "2026-03-02",
            "to": "2026-03-06",
            "days": 5,
            "hen_days": 14,
            "hen_day_pct": pytest.approx(100 * 4 / 14),
            "hen_housed_pct": pytest.approx(100 * 4 / 15),
        }
    }
    assert laying_by_family(book.standing(), 2025) == {}


def test_a_day_with_no_known_hen_gives_no_rate(book: PenBook) -> None:
    gather(book, "2026-02-26", 1)
    gather(book, "2026-02-27", 1)
    assert laying_by_family(book.standing(), 2026) == {}


def test_a_gathering_after_weeks_without_counts_neither_eggs_nor_hens(book: PenBook) -> None:
    """As above, and 20 eggs on 20 March: of how many days they are nobody knows. The 2 of the next day count."""
    gather(book, "2026-03-20", 20)
    found = laying_by_family(book.standing(), 2026)[book.rowan]
    assert (found["eggs"], found["to"], found["days"], found["hen_days"]) == (4, "2026-03-06", 5, 14)
    gather(book, "2026-03-21", 2)
    found = laying_by_family(book.standing(), 2026)[book.rowan]
    assert (found["eggs"], found["to"], found["days"], found["hen_days"]) == (6, "2026-03-21", 6, 16)


def test_eggs_gathered_once_a_week_give_no_rate() -> None:
    """Twenty a week of four hens are 71 %, were it known that nobody gathered in between; 500 % they are never."""
    book = PenBook()
    book.pen(book.birds("male", 1), book.birds("female", 4), "2026-03-01")
    for on in ("2026-03-01", "2026-03-08", "2026-03-15"):
        gather(book, on, 20)
    assert laying_by_family(book.standing(), 2026) == {}


def test_a_season_begins_amid_laying() -> None:
    """The last gathering of the season before tells how many days the first of this one stands for."""
    book = PenBook()
    book.pen(book.birds("male", 1), book.birds("female", 2), "2025-12-01")
    gather(book, "2025-12-31", 1)
    gather(book, "2026-01-02", 3)
    found = laying_by_family(book.standing(), 2026)[book.rowan]
    assert (found["eggs"], found["from"], found["hen_days"]) == (3, "2026-01-01", 4)
