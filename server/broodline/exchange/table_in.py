"""A spreadsheet as it comes in: one table a sheet, the first row that is not empty its headings.

CSV with commas, semicolons or tabs, in UTF-8, UTF-16 or Windows' Western letters; or xlsx, of which the values are
read and never the formulas. What comes in is bounded before it is unpacked.
"""

import csv
import io
import warnings
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import PurePath

from openpyxl import load_workbook

from broodline.errors import EnvelopeError, TooLarge
from broodline.exchange.sheet import unshielded

MOST_BYTES = 16 * 1024 * 1024
MOST_UNPACKED = 10 * MOST_BYTES
MOST_ROWS = 20_000
MOST_COLUMNS = 100
MOST_LETTERS = 500  # of a cell
WORKBOOKS = (".xlsx", ".xlsm")

Value = str | int | float | bool | date | None  # a moment of a workbook comes as its day


@dataclass(frozen=True, slots=True)
class TableRow:
    """number: as the spreadsheet counts, from 1. values: one a heading."""

    number: int
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class TableIn:
    """name: of the sheet; of the file, for CSV."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[TableRow, ...]


def read_tables(name: str, content: bytes) -> list[TableIn]:
    """The tables of a file that are not empty. name: of the file, its ending says what it is.

    Raises EnvelopeError for a file that cannot be read as a table, TooLarge for one that is too long.
    """
    if len(content) > MOST_BYTES:
        raise TooLarge(f"The file is over {MOST_BYTES // 1024 // 1024} MiB.", remedy="Split it and take in the parts.")
    if PurePath(name).suffix.lower() in WORKBOOKS or content.startswith(b"PK\x03\x04"):
        sheets = list(_of_workbook(content))
    else:
        sheets = [(PurePath(name).stem, _of_text(content))]
    tables = [table for title, rows in sheets if (table := _table(title, rows)) is not None]
    if not tables:
        raise EnvelopeError("file", "The table is empty.", remedy="Save it with headings in its first row.")
    return tables


def _table(title: str, rows: Iterable[tuple[int, list[Value]]]) -> TableIn | None:
    headings: tuple[str, ...] | None = None
    found: list[TableRow] = []
    for number, values in rows:
        if all(value in (None, "") for value in values):
            continue
        if headings is None:
            headings = tuple(str(value or "").strip() for value in values[:MOST_COLUMNS])
            continue
        if len(found) >= MOST_ROWS:
            raise TooLarge(f"The table has over {MOST_ROWS} rows.", remedy="Split it and take in the parts.")
        padded = [*values, *[None] * len(headings)][: len(headings)]
        found.append(TableRow(number, tuple(padded)))
    return None if headings is None else TableIn(title, headings, tuple(found))


def _of_text(content: bytes) -> Iterator[tuple[int, list[Value]]]:
    text = _decoded(content)
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(",;\t", key=first.count)
    try:
        for number, row in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=separator), start=1):
            yield number, [unshielded(cell.strip())[:MOST_LETTERS] for cell in row]
    except csv.Error as fault:
        raise _unreadable(str(fault)) from fault


def _decoded(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("cp1252", "replace")
    if "\x00" in text:
        raise _unreadable("it holds bytes that are no text")
    return text


def _of_workbook(content: bytes) -> Iterator[tuple[str, Iterator[tuple[int, list[Value]]]]]:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(part.file_size for part in packed.infolist()) > MOST_UNPACKED:
                raise TooLarge("The workbook is too large when unpacked.", remedy="Save the sheet as CSV.")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extras that are not read
            book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
            sheets = [(page.title, list(_of_page(page.iter_rows(values_only=True)))) for page in book.worksheets]
    except TooLarge:
        raise
    except Exception as fault:  # a damaged workbook fails in any of a hundred ways
        raise _unreadable(type(fault).__name__) from fault
    for title, rows in sheets:
        yield title, iter(rows)


def _of_page(rows: Iterable[tuple[object, ...]]) -> Iterator[tuple[int, list[Value]]]:
    for number, row in enumerate(rows, start=1):
        if number > MOST_ROWS + 100:
            raise TooLarge(f"The sheet has over {MOST_ROWS} rows.", remedy="Split it and take in the parts.")
        yield number, [_plain(value) for value in row[:MOST_COLUMNS]]


def _plain(value: object) -> Value:
    if value is None or isinstance(value, bool | int | float):
        return value
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    return unshielded(str(value).strip())[:MOST_LETTERS]


def _unreadable(why: str) -> EnvelopeError:
    return EnvelopeError(
        "file", f"The file cannot be read as a table: {why}.", remedy="Save it again as .xlsx or .csv and try that."
    )
