"""Lines of a table saved as text: commas, semicolons or tabs, in UTF-8, UTF-16 or Windows' Western letters."""

import csv
import io
import re
from itertools import islice
from statistics import median_low

from broodline.exchange.sheet import unshielded
from broodline.exchange.table_in import MOST_LETTERS, Line, Lines, bounded, unreadable

_SEPARATORS = ",;\t"
_LOOKED_AT = 30  # lines by which the separator is found: a title above the table must not decide it
_SAID = re.compile(r"sep=(.)\r?\n?", re.IGNORECASE)  # the first line some programs write to name the separator


def read_text(name: str, content: bytes) -> Lines:
    """name: of the table. Raises EnvelopeError, TooLarge."""
    text = _decoded(content)
    said = _SAID.match(text)
    separator = said[1] if said else _separator(text)
    found: list[Line] = []
    number = 0
    try:
        rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        for number, row in enumerate(rows, start=1):
            if (number == 1 and said) or not any(cell.strip() for cell in row):
                continue
            if any(_holds_rows(cell, separator, row) for cell in row):
                raise _unclosed(number)
            found.append(bounded(number, [unshielded(cell.strip())[:MOST_LETTERS] for cell in row], len(found)))
    except csv.Error as fault:
        raise _unclosed(number + 1) from fault
    return Lines(name, tuple(found))


def _separator(text: str) -> str:
    """The one that parts most lines into most cells: so decimal commas, and a comma in a title, lose."""

    def cells(separator: str) -> tuple[int, int]:
        rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
        try:
            counts = [len(row) for row in islice((row for row in rows if any(row)), _LOOKED_AT)]
        except csv.Error:
            return 0, 0
        return (median_low(counts), sum(counts)) if counts else (0, 0)

    return max(_SEPARATORS, key=cells)


def _holds_rows(cell: str, separator: str, row: list[str]) -> bool:
    """Whether a quotation mark that nobody closed took rows into one cell: they would be lost without a word."""
    lines = cell.splitlines()[1:]
    return any(line.count(separator) >= max(1, len(row) - 1) or line.count(separator) > 1 for line in lines)


def _unclosed(number: int) -> Exception:
    return unreadable(f"a quotation mark in row {number} has no other that closes it")


def _decoded(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("cp1252", "replace")
    if "\x00" in text:
        raise unreadable("it is a picture or another kind of file, not text in columns")
    return text
