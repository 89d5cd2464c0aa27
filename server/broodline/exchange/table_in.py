"""A spreadsheet as it comes in: the lines of each sheet, before anyone asked which of them holds the headings.

What comes in is bounded before it is unpacked. `csv_in` reads text, `workbook_in` workbooks, `headings` finds the
line that names the columns.
"""

from dataclasses import dataclass
from datetime import date

from broodline.errors import EnvelopeError, TooLarge

MOST_BYTES = 16 * 1024 * 1024
MOST_ROWS = 20_000
MOST_COLUMNS = 100
MOST_LETTERS = 500  # of a cell
SERIAL_FROM = date(1899, 12, 30)  # day 0 of a workbook's days in numbers; a few count from 1904-01-01

Value = str | int | float | bool | date | None  # a moment of a workbook comes as its day


@dataclass(frozen=True, slots=True)
class Line:
    """number: as the spreadsheet counts, from 1."""

    number: int
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """A sheet with the lines of it that are not empty. name: of the sheet; of the file, for text."""

    name: str
    lines: tuple[Line, ...]
    serial_from: date = SERIAL_FROM


@dataclass(frozen=True, slots=True)
class TableIn:
    """headings: each one once, so that it can be chosen. above: of two lines of headings, what the upper one says over
    each column, or "". rows: each with one value a heading. heading_row: as the spreadsheet counts."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[Line, ...]
    above: tuple[str, ...] = ()
    heading_row: int = 1
    serial_from: date = SERIAL_FROM


def is_empty(value: Value) -> bool:
    """Whether a cell holds nothing."""
    return value is None or (isinstance(value, str) and not value.strip())


def bounded(number: int, values: list[Value], so_far: int) -> Line:
    """A line that fits. Raises TooLarge for one row or column too many."""
    while values and is_empty(values[-1]):
        values.pop()
    if len(values) > MOST_COLUMNS:
        message = f"Row {number} goes on beyond column {MOST_COLUMNS}."
        raise TooLarge(message, remedy="Delete what stands to the right of the table, or save the table by itself.")
    if so_far >= MOST_ROWS:
        raise TooLarge(f"The table has over {MOST_ROWS} rows.", remedy="Split it and take in the parts.")
    return Line(number, tuple(values))


def unreadable(why: str) -> EnvelopeError:
    """The refusal of a file."""
    return EnvelopeError(
        "file", f"The file cannot be read as a table: {why}.", remedy="Save it again as .xlsx or .csv and try that."
    )
