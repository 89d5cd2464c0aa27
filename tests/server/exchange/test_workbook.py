"""The workbook: its cells are read from the bytes of the file, and its sheets by openpyxl."""

import io
import re
import zipfile
from datetime import date, datetime

import openpyxl
import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.exchange.book_sheets import book_sheets, season_sheets
from broodline.exchange.sheet import FORMULA_STARTS, Column, Sheet, unshielded
from broodline.exchange.workbook import workbook_bytes
from tests.server.book.odd_books import odd_book
from tests.server.exchange.told_books import FORMULAS, NOW, demo_book, formula_entries


def opened(content):
    return openpyxl.load_workbook(io.BytesIO(content))


def test_numbers_days_and_moments_are_what_they_are_and_moments_stand_in_local_time():
    standing = demo_book()
    book = opened(workbook_bytes(book_sheets(standing), zone="Europe/Dublin", now=NOW))
    page = book["Settings"]
    headings = [cell.value for cell in page[1]]
    assert headings[headings.index("Set at (local time)")]
    shown = {row[0].value: row for row in page.iter_rows(min_row=2)}
    assert set(shown) == set(standing.settings)
    place = headings.index("Set at (local time)")
    first = next(one for one in standing.settings.values() if sum(standing.lots[lot].n for lot in one.lots) == 80)
    at = shown[first.id][place]
    # the story sets them at six in the morning by the clock on the wall: seed_scenario/README.md
    assert (at.value, at.is_date) == (datetime.fromisoformat("2026-10-10T06:00"), True)
    assert shown[first.id][headings.index("Eggs set")].value == 24 + 20 + 18 + 18
    laid = [row for row in book["Batches"].iter_rows(min_row=2, values_only=True) if row[1] == first.id]
    assert sorted(row[5] for row in laid) == [18, 18, 20, 24]
    assert all(isinstance(row[6], datetime) and row[6].date() == date(2026, 10, 3) for row in laid)


def test_no_cell_is_a_formula_or_an_error_and_texts_can_be_had_back():
    content = workbook_bytes(book_sheets(fold(formula_entries())), zone="UTC", now=NOW)
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        pages = [packed.read(name).decode() for name in packed.namelist() if "worksheets/sheet" in name]
    assert len(pages) > 15
    for page in pages:
        assert "<f>" not in page
        assert set(re.findall(r'<c [^>]*\bt="(\w+)"', page)) <= {"s", "n", "b", "inlineStr"}
    texts = {
        cell.value
        for page in opened(content)
        for row in page.iter_rows()
        for cell in row
        if isinstance(cell.value, str)
    }
    assert [text for text in texts if text.startswith(FORMULA_STARTS)] == []
    assert {unshielded(text).replace("\n", "\r") for text in texts} >= set(FORMULAS) - {"\r=1"}
    assert {"#N/A", "ab"} <= texts


@pytest.mark.parametrize("seed", range(3))
def test_an_odd_book_has_its_workbook(seed):
    standing = fold([read_entry(one) for one in odd_book(seed)])
    book = opened(workbook_bytes(book_sheets(standing), zone=standing.keeper.zone, now=NOW))
    assert book["Birds"].max_row == 1 + next(len(one.rows) for one in book_sheets(standing) if one.name == "birds")


def test_days_that_spreadsheets_count_wrongly_are_text():
    sheet = Sheet("days", "Days", [Column("on", "date", "On")], [(date(1, 1, 1),), (date(1900, 3, 1),)])
    page = opened(workbook_bytes([sheet], zone="UTC", now=NOW))["Days"]
    assert (page["A2"].value, page["A3"].value) == ("0001-01-01", datetime.fromisoformat("1900-03-01"))


def test_a_season_holds_its_own_eggs_only():
    standing = demo_book()
    chosen = {max(standing.settings.values(), key=lambda one: one.set_at_ms).id}
    sheets = {sheet.name: sheet for sheet in season_sheets(standing, chosen)}
    assert {row[0] for row in sheets["settings"].rows} == chosen
    assert {row[1] for row in sheets["batches"].rows} == chosen
    lots = {row[0] for row in sheets["batches"].rows}
    assert {row[1] for row in sheets["looks"].rows} <= lots
    assert "birds" not in sheets
