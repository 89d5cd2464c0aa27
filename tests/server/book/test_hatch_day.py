"""When the chicks of a lot came out, by hand."""

from datetime import UTC, datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.book.hatch_ages import age_on
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


def test_age_is_counted_in_days_of_the_holdings_calendar() -> None:
    """Out at 20:00 in Los Angeles on 7 March (04:00 on the 8th in UTC), weighed on 18 April: 42 days by a calendar."""
    book = BookWriter()
    book.keeper(zone="America/Los_Angeles")
    lot, _, _ = two_lots(book)
    book.move(lot, "set", "hatched", 4, at=datetime(2026, 3, 8, 4, tzinfo=UTC))
    came = book.lot()
    body = {"lot": came, "n": 3, "stage": "brooding", "on": "2026-03-09", "how": "bought", "hatched_on": "2026-03-07"}
    book.write("came", body)
    standing = fold(book.entries())
    ages = [[age_on(standing, standing.lots[one], on) for on in ("2026-03-06", "2026-04-18")] for one in (lot, came)]
    assert ages == [[0, 42], [0, 42]]


@pytest.mark.parametrize("zone", ["Pacific/Auckland", "Pacific/Honolulu"])
def test_bought_chicks_are_as_old_as_was_written_in_any_zone(zone: str) -> None:
    book = BookWriter()
    book.keeper(zone=zone)
    came = book.lot()
    body = {"lot": came, "n": 3, "stage": "brooding", "on": "2026-03-09", "how": "bought", "hatched_on": "2026-03-07"}
    book.write("came", body)
    standing = fold(book.entries())
    assert age_on(standing, standing.lots[came], "2026-03-08") == 1


def test_a_missing_chick_put_back_did_not_hatch_anew(book: BookWriter) -> None:
    lot, _, _ = two_lots(book)
    out(book, lot, 4, 0)
    book.move(lot, "hatched", "unaccounted", 4, at=OUT + timedelta(hours=12))
    book.move(lot, "unaccounted", "hatched", 3, at=OUT + timedelta(hours=50))
    assert hatched(book, lot) == OUT
    book.move(lot, "set", "unaccounted", 6, at=OUT + timedelta(hours=51))
    book.move(lot, "unaccounted", "hatched", 7, at=OUT + timedelta(hours=60))
    assert hatched(book, lot) == OUT + timedelta(hours=60), "six eggs and the chick that was still missing"
