"""Sheets as a workbook (xlsx): numbers are numbers, days are days, moments stand in the holding's time, and no cell is
a formula."""

import io
from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.cell.cell import Cell as BookCell
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter

from broodline.exchange.sheet import Cell, Column, Sheet, shielded
from broodline.trade.calendar import zone_named

MOST_ROWS = 1_048_575  # of a sheet, under its headings
MOST_LETTERS = 32_767  # of a cell
_NARROW, _WIDE = 9, 40
_FIRST_DAY = date(1900, 3, 1)  # spreadsheets count days before it in two ways
_FORMATS = {"date": "yyyy-mm-dd", "datetime": "yyyy-mm-dd hh:mm", "integer": "0", "number": "0.0##"}
_CONTROLS = {code: None for code in range(32) if code not in (9, 10, 13)} | {0xFFFE: None, 0xFFFF: None}


def workbook_bytes(sheets: Sequence[Sheet], *, zone: str, now: datetime) -> bytes:
    """zone: of the holding; moments are written as the clocks there showed them. now: aware; when it was made."""
    book = Workbook(write_only=True)
    book.properties.creator = "Broodline"
    book.properties.created = now.astimezone(UTC).replace(tzinfo=None)
    for sheet in sheets:
        page: Any = book.create_sheet(sheet.title)
        page.freeze_panes = "A2"
        for number, column in enumerate(sheet.columns, start=1):
            width = max(len(_heading(column)) + 2, 20 if column.type == "string" else _NARROW)
            page.column_dimensions[get_column_letter(number)].width = min(width, _WIDE)
        page.append([_bold(page, _heading(column)) for column in sheet.columns])
        for row in sheet.rows[:MOST_ROWS]:
            page.append([_cell(page, column, cell, zone) for column, cell in zip(sheet.columns, row, strict=True)])
        last = f"{get_column_letter(len(sheet.columns))}{min(len(sheet.rows), MOST_ROWS) + 1}"
        page.auto_filter.ref = f"A1:{last}"
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _heading(column: Column) -> str:
    words = column.words.replace("UTC", "local time") if column.type in ("date", "datetime") else column.words
    return f"{column.title} ({words})" if words and len(words) <= 12 else column.title


def _bold(page: Any, text: str) -> BookCell:
    cell = WriteOnlyCell(page, value=text)
    cell.font = Font(bold=True)
    return cell


def _cell(page: Any, column: Column, value: Cell, zone: str) -> BookCell | None:
    if value is None:
        return None
    if isinstance(value, datetime):
        value = value.astimezone(zone_named(zone) or UTC).replace(tzinfo=None)
    if isinstance(value, date) and (value.date() if isinstance(value, datetime) else value) < _FIRST_DAY:
        value = value.isoformat()
    if isinstance(value, str):
        cell = WriteOnlyCell(page, value=shielded(value.translate(_CONTROLS))[:MOST_LETTERS])
        cell.data_type = "s"  # also what reads like an error or a formula
        return cell
    cell = WriteOnlyCell(page)
    cell.value = value
    cell.number_format = _FORMATS.get(column.type, "General")
    return cell
