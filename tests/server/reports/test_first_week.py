"""Chicks alive at seven days, by hand. The oracle that tells eggs one by one is in test_rates."""

from datetime import timedelta

import pytest

from broodline.book.fold import fold
from broodline.book.moments import moment_ms
from broodline.reports.first_week import alive_at_seven_days
from tests.book_writer import START, BookWriter

LATE_MS = moment_ms("2027-01-01T00:00:00Z")


def hatched_ten() -> tuple[BookWriter, str]:
    """14 eggs set, one lost, ten hatched, all on the first day."""
    book = BookWriter()
    lot = book.lot()
    book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 14)])
    book.move(lot, "set", "unaccounted", 1)
    book.move(lot, "set", "hatched", 10)
    return book, lot


def alive(book: BookWriter, lot: str, now_ms: int = LATE_MS) -> tuple[int, int]:
    return alive_at_seven_days(fold(book.entries()).lots[lot].moves, now_ms)


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ([("hatched", "parted", 2, 3)], (8, 8)),
        ([("hatched", "parted", 2, 9)], (10, 10)),
        ([("hatched", "died", 2, 3), ("hatched", "culled", 1, 5)], (7, 10)),
        ([("hatched", "died", 2, 9)], (10, 10)),
        ([("hatched", "unaccounted", 2, 3), ("unaccounted", "brooding", 1, 9)], (9, 10)),
        ([("hatched", "unaccounted", 2, 3), ("unaccounted", "died", 1, 9)], (8, 10)),
        ([("hatched", "died", 2, 3), ("died", "hatched", 1, 4)], (9, 10)),
        ([("hatched", "died", 2, 3), ("died", "set", 1, 4)], (8, 9)),
        ([("hatched", "set", 1, 3)], (9, 9)),
        ([("unaccounted", "hatched", 1, 3)], (11, 11)),
        ([("unaccounted", "died", 1, 3)], (10, 11)),
        ([("unaccounted", "set", 1, 3), ("hatched", "brooding", 3, 4)], (10, 10)),
        ([("set", "died", 1, 1)], (10, 11)),
    ],
)
def test_alive_at_seven_days_by_hand(steps: list[tuple[str, str, int, int]], expected: tuple[int, int]) -> None:
    book, lot = hatched_ten()
    for source, target, n, day in steps:
        book.move(lot, source, target, n, at=START + timedelta(days=day))
    assert alive(book, lot) == expected


def test_chicks_under_a_week_wait() -> None:
    assert alive(*hatched_ten(), moment_ms("2026-03-08T08:00:00Z")) == (0, 0)
