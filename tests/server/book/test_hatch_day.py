"""When the chicks of a lot came out, by hand."""

from datetime import UTC, datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.book.hatch_day import hatched_ms, noon_ms, whole_days
from tests.book_writer import START, BookWriter

OUT = START + timedelta(days=21)


@pytest.fixture
def book() -> BookWriter:
    return BookWriter()


def hatched(book: BookWriter, lot: str) -> datetime | None:
    standing = fold(book.entries())
    found = hatched_ms(standing, standing.lots[lot])
    return None if found is None else datetime.fromtimestamp(found / 1000, UTC)


def two_lots(book: BookWriter) -> tuple[str, str, str]:
    first, second = book.lot(), book.lot()
    family = book.family("Rowan")
    return first, second, book.set_eggs(book.incubator(), [(first, family, 12), (second, family, 12)])


def out(book: BookWriter, lot: str, n: int, minutes: float) -> None:
    book.move(lot, "set", "hatched", n, at=OUT + timedelta(minutes=minutes))


def test_the_look_by_which_half_were_out(book: BookWriter) -> None:
    lot, _, _ = two_lots(book)
    assert hatched(book, lot) is None
    out(book, lot, 2, 0)
    out(book, lot, 3, 300)
    out(book, lot, 3, 600)
    assert hatched(book, lot) == OUT + timedelta(minutes=300)
    out(book, lot, 3, 900)
    assert hatched(book, lot) == OUT + timedelta(minutes=600)


def test_a_look_takes_in_what_is_counted_within_half_an_hour_of_its_beginning(book: BookWriter) -> None:
    lot, other, setting = two_lots(book)
    out(book, lot, 4, 0)
    assert hatched(book, lot) == OUT
    out(book, other, 1, 20)
    assert hatched(book, lot) == OUT + timedelta(minutes=20)
    book.look(setting, other, "hatch", at=OUT + timedelta(minutes=30))
    assert hatched(book, lot) == OUT + timedelta(minutes=30)
    book.look(setting, other, "hatch", at=OUT + timedelta(minutes=31))
    assert hatched(book, lot) == OUT + timedelta(minutes=30)


def test_bought_chicks_hatched_at_noon_of_the_day_that_was_written(book: BookWriter) -> None:
    known, unknown = book.lot(), book.lot()
    family = book.family("Hazel")
    came = {"family": family, "n": 6, "on": "2026-03-25", "how": "bought", "stage": "brooding"}
    book.write("came", {**came, "lot": unknown})
    book.write("came", {**came, "lot": known, "hatched_on": "2026-03-22"})
    assert hatched(book, known) == datetime(2026, 3, 22, 12, tzinfo=UTC)
    assert hatched(book, unknown) is None


def test_a_single_bird_that_came_says_nothing_of_a_lot(book: BookWriter) -> None:
    """A `came` of one bird names no number and says nothing of a hatch."""
    lot = book.lot()
    family = book.family("Hazel")
    bird = book.write("bird", {"sex": "female", "family": family, "tags": [{"kind": "ring", "text": "7"}]})
    book.write("came", {"bird": bird, "on": "2026-03-20", "how": "bought", "hatched_on": "2026-01-05"})
    book.write(
        "came",
        {"family": family, "n": 6, "on": "2026-03-25", "how": "bought", "stage": "brooding", "lot": lot,
         "hatched_on": "2026-03-22"},
    )  # fmt: skip
    assert hatched(book, lot) == datetime(2026, 3, 22, 12, tzinfo=UTC)


def test_whole_days_and_noon() -> None:
    """2026-03-01 is day 20,513 since 1970 by Python's own calendar."""
    noon = noon_ms("2026-03-01")
    assert noon == 20_513 * 86_400_000 + 43_200_000
    assert [whole_days(noon, noon + ms) for ms in (-1, 0, 86_399_999, 86_400_000)] == [-1, 0, 0, 1]
