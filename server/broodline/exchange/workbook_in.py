"""Lines of the sheets of a workbook (xlsx), of which the values are read and never the formulas."""

import io
import warnings
import zipfile
from collections.abc import Iterable
from datetime import date, datetime
from typing import Any

from openpyxl import load_workbook
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from broodline.errors import TooLarge
from broodline.exchange.sheet import unshielded
from broodline.exchange.table_in import (
    MOST_BYTES,
    MOST_LETTERS,
    MOST_ROWS,
    SERIAL_FROM,
    Line,
    Lines,
    Value,
    bounded,
    is_empty,
    unreadable,
)

MOST_UNPACKED = 10 * MOST_BYTES
WORKBOOKS = (".xlsx", ".xlsm")
_SERIAL_FROM_1904 = date(1904, 1, 1)


def read_workbook(content: bytes) -> list[Lines]:
    """All its sheets. Raises EnvelopeError, TooLarge."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(part.file_size for part in packed.infolist()) > MOST_UNPACKED:
                raise TooLarge("The workbook is too large when unpacked.", remedy="Save the sheet as CSV.")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extras that are not read
            book = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
            serial_from = _SERIAL_FROM_1904 if book.epoch == CALENDAR_MAC_1904 else SERIAL_FROM
            return [Lines(page.title, tuple(_lines(page.iter_rows())), serial_from) for page in book.worksheets]
    except TooLarge:
        raise
    except Exception as fault:  # a damaged workbook fails in any of a hundred ways
        raise unreadable("it is damaged, or it is no spreadsheet") from fault


def _lines(rows: Iterable[tuple[Any, ...]]) -> list[Line]:
    """A sheet that is formatted to its end has a million empty rows: it ends where as many are empty as it may hold."""
    found: list[Line] = []
    for number, row in enumerate(rows, start=1):
        values = [_plain(cell) for cell in row]
        if not all(map(is_empty, values)):
            found.append(bounded(number, values, len(found)))
        elif number - (found[-1].number if found else 0) > MOST_ROWS:
            break
    return found


def _plain(cell: Any) -> Value:
    value = cell.value
    if isinstance(value, int | float) and not isinstance(value, bool) and "%" in str(cell.number_format):
        return f"{value * 100:g} %"  # 100 % is no count of 1
    if value is None or isinstance(value, bool | int | float):
        return value
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    return unshielded(str(value).strip())[:MOST_LETTERS]
