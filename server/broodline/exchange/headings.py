"""Which line of a sheet names its columns: keepers write titles above, merge cells, and leave a heading away."""

import re
import unicodedata
from collections import Counter
from collections.abc import Collection
from datetime import date

from openpyxl.utils import get_column_letter

from broodline.exchange.table_in import Line, Lines, TableIn, Value, is_empty

_LOOKED_AT = 15
_DIGITS = re.compile(r"[\d\s.,:/%-]+")


def table_of(sheet: Lines, known: Collection[str]) -> TableIn | None:
    """The table of a sheet, None for an empty one. known: headings that mean something, as `plain` writes them."""
    if not sheet.lines:
        return None
    at = _heading_line(sheet.lines[:_LOOKED_AT], known)
    line, rows = sheet.lines[at], sheet.lines[at + 1 :]
    width = max(len(one.values) for one in (line, *rows))
    headings = _once([_text(value) for value in _padded(line.values, width)], rows)
    above = _above(sheet.lines[at - 1], width) if at > 0 and sheet.lines[at - 1].number == line.number - 1 else ()
    padded = tuple(Line(row.number, _padded(row.values, width)) for row in rows)
    return TableIn(sheet.name, headings, padded, above, line.number, sheet.serial_from)


def plain(heading: str) -> str:
    """Small letters and digits, single spaces; an underscore or sign parts words, but % is said: a share is no count.

    >>> plain("Date_set"), plain(" Hatch % "), plain("No. of eggs")
    ('date set', 'hatch percent', 'no of eggs')
    """
    text = unicodedata.normalize("NFKC", heading).casefold().replace("%", " percent ")
    return " ".join(re.sub(r"[^\w]|_", " ", text).split())


def _heading_line(lines: tuple[Line, ...], known: Collection[str]) -> int:
    """The line with most headings that are known; where none has two, the first that has two cells, for a title stands
    alone; else the first."""
    scores = [_score(line, known) for line in lines]
    best = max(scores)
    if best >= 2:
        return scores.index(best)
    return next((at for at, line in enumerate(lines) if sum(not is_empty(v) for v in line.values) > 1), 0)


def _score(line: Line, known: Collection[str]) -> int:
    cells = [value for value in line.values if not is_empty(value)]
    if any(not isinstance(value, str) or _DIGITS.fullmatch(value) for value in cells):
        return 0  # a line of figures is no line of headings
    return len({plain(str(value)) for value in cells} & set(known))


def _above(line: Line, width: int) -> tuple[str, ...]:
    """What a line of merged cells says over each column; a single cell is a title and says nothing of columns."""
    cells = _padded(line.values, width)
    if sum(not is_empty(value) for value in cells) < 2 or any(isinstance(v, int | float | date) for v in cells):
        return ()
    found: list[str] = []
    for value in cells:
        found.append(_text(value) or (found[-1] if found else ""))
    return tuple(found)


def _once(headings: list[str], rows: tuple[Line, ...]) -> tuple[str, ...]:
    """A column with no heading but with values, and the second of two headings that are alike, get their letter."""
    filled = {at for row in rows for at, value in enumerate(row.values) if not is_empty(value)}
    seen: Counter[str] = Counter()
    found = []
    for at, heading in enumerate(headings):
        name, letter = heading, get_column_letter(at + 1)
        if not heading and at in filled:
            name = f"column {letter}"
        elif heading:
            seen[plain(heading)] += 1
            if seen[plain(heading)] > 1:
                name = f"{heading} (column {letter})"
        found.append(name)
    return tuple(found)


def _padded(values: tuple[Value, ...], width: int) -> tuple[Value, ...]:
    return (*values, *[None] * width)[:width]


def _text(value: Value) -> str:
    return "" if value is None else " ".join(str(value).split())
