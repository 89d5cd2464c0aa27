"""The hatch of a setting as its looks tell it."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def begun(eggs: int = 100) -> tuple[BookWriter, str, str]:
    book = BookWriter()
    book.keeper()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), eggs)])
    book.move(lot, "set", "locked", eggs, at=START + timedelta(days=18))
    return book, setting, lot


def hatch(book: BookWriter, setting: str) -> Any:
    return setting_report(fold(book.entries()), setting, START + timedelta(days=40))["hatch"]


def out(book: BookWriter, lot: str, hours: float, n: int) -> None:
    book.move(lot, "locked", "hatched", n, at=START + timedelta(hours=hours))


def test_nothing_before_the_first_look() -> None:
    book, setting, _ = begun()
    assert hatch(book, setting) is None


def test_h1_through_a_book() -> None:
    """Example H1 pulled at 508 h with 20 eggs left: mu 501.3763, sigma 4.8046 (own ML and R)."""
    book, setting, lot = begun(72)
    for hours, n in ((492, 2), (496, 5), (500, 14), (504, 20), (508, 11)):
        out(book, lot, hours, n)
    found = hatch(book, setting)
    assert (found["median_h"], found["spread_h"]) == pytest.approx((501.3763, 4.8046 * 3.28971), abs=1e-3)
    assert (found["first_h"], found["last_h"], found["checks"], found["hatched"]) == (492, 508, 5, 52)
    assert [row["share"] for row in found["shares"]] == pytest.approx([2 / 52, 7 / 52, 21 / 52, 41 / 52, 1])
    assert found["later_h"] == pytest.approx(501.3763 - 504, abs=1e-3)
    book.move(lot, "locked", "unhatched", 20, at=START + timedelta(hours=560))
    late = hatch(book, setting)
    assert late["median_h"] < found["median_h"]
    assert late["p05_h"] < late["median_h"] < late["p95_h"]


def test_all_within_half_an_hour_is_one_look_dated_by_its_last() -> None:
    book, setting, lot = begun()
    for minutes, n in ((0, 3), (10, 4), (30, 1), (31, 2)):
        book.move(lot, "locked", "hatched", n, at=START + timedelta(hours=500, minutes=minutes))
    found = hatch(book, setting)
    assert found["checks"] == 2
    assert (found["first_h"], found["last_h"]) == pytest.approx((500.5, 500 + 31 / 60))
    assert [row["share"] for row in found["shares"]] == [0.8, 1.0]


def test_a_look_with_none_closes_an_interval() -> None:
    book, setting, lot = begun()
    book.look(setting, lot, "hatch", none=True, at=START + timedelta(hours=490))
    for hours, n in ((494, 20), (498, 60), (502, 20)):
        out(book, lot, hours, n)
    known = hatch(book, setting)
    assert (known["checks"], known["first_h"]) == (4, 494)
    assert known["median_h"] == pytest.approx(496, abs=0.05)
    assert known["shares"][0] == {"h": 490, "share": 0}


def test_one_look_says_when_but_not_how_spread() -> None:
    book, setting, lot = begun()
    out(book, lot, 500, 60)
    found = hatch(book, setting)
    assert (found["median_h"], found["spread_h"], found["later_h"]) == (None, None, None)
    assert (found["first_h"], found["last_h"]) == (500, 500)


def test_looks_without_any_chick() -> None:
    book, setting, lot = begun()
    book.look(setting, lot, "hatch", none=True, at=START + timedelta(hours=490))
    found = hatch(book, setting)
    assert (found["checks"], found["hatched"], found["first_h"], found["shares"]) == (1, 0, None, [])


def test_helped_chicks_and_chicks_of_unknown_family_count() -> None:
    book, setting, lot = begun()
    out(book, lot, 490, 10)
    out(book, lot, 496, 30)
    book.move(lot, "locked", "unhatched", 5, at=START + timedelta(hours=500))
    book.move(lot, "unhatched", "hatched", 2, at=START + timedelta(hours=502), helped=True)
    moves = [{"among": [lot], "from": "locked", "to": "hatched", "n": 4}]
    book.write("moved", {"moves": moves}, at=START + timedelta(hours=508))
    found = hatch(book, setting)
    assert (found["hatched"], found["checks"]) == (46, 4)
    assert found["median_h"] is not None
