"""Files as no spreadsheet writes them: sound tables, workbooks and papers with cells, letters or bytes put wrong.

What is packed is bent inside and packed again, so that it is read and not only found damaged; then bytes of the whole.
"""

import base64
import csv
import io
import json
import random
import re
import zipfile
from collections.abc import Callable
from datetime import date
from functools import cache
from typing import Any

from openpyxl import Workbook

from tests.faults.odd_requests import ODD_TEXTS, ODD_VALUES, Known, as_bytes, bent

TABLE: tuple[tuple[Any, ...], ...] = (
    ("Date set", "Family", "Eggs", "Clear", "Quit", "Hatched", "Breed", "Notes"),
    (date(2025, 3, 1), "Rowan", 24, 3, 2, 17, "Marans", "new thermostat"),
    (date(2025, 3, 8), "Hazel", 18, 1, "", 15, "Welsummer", ""),
    ("15/03/2025", "Rowan", "12", 0, 1, 10, "Marans", '"by post"; late'),
)
ENCODINGS = ("utf-8", "utf-8-sig", "utf-16", "cp1252", "latin-1")
ODD_CELLS = (
    *(value if isinstance(value, str | int | float | bool) else json.dumps(value) for value in ODD_VALUES),
    *("=1+1", "@SUM(A1)", "'-3", "31.02.2025", "1e400", "NaN", "1,5", "12 %", "￿", "a\nb", "٣", "9" * 40),
)


def odd_rows(chance: random.Random) -> list[list[Any]]:
    """The table with up to four cells, rows or headings put wrong."""
    rows = [list(row) for row in TABLE]
    for _ in range(chance.randrange(5)):
        row = chance.choice(rows)
        way = chance.random()
        if way < 0.6 and row:
            row[chance.randrange(len(row))] = chance.choice(ODD_CELLS)
        elif way < 0.7:
            row.append(chance.choice(ODD_CELLS))
        elif way < 0.8 and row:
            row.pop()
        else:
            rows.insert(chance.randrange(len(rows) + 1), list(chance.choice(rows)))
    return rows


def odd_csv(chance: random.Random, _known: Known) -> bytes:
    """Written with any separator in any of the usual letters, and now and then with a byte or a quote that is wrong."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=chance.choice(",;\t|"), quoting=chance.choice((0, 1)))
    writer.writerows([[str(cell) for cell in row] for row in odd_rows(chance)])
    text = out.getvalue()
    if chance.random() < 0.2:
        text = text.replace(
            chance.choice(',;"\n'), chance.choice(('"', "\r", "\x00", "", '""')), chance.randrange(1, 4)
        )
    return spoilt(chance, text.encode(chance.choice(ENCODINGS), "replace"), 0.2)


def odd_workbook(chance: random.Random, _known: Known) -> bytes:
    """A workbook whose own XML has a value, a name or a reference put wrong, packed whole again."""
    parts = dict(workbook_parts(chance.randrange(8)))
    for _ in range(chance.randrange(3)):
        name = chance.choice(list(parts))
        text = parts[name].decode("utf-8", "replace")
        found = list(re.finditer(r"(?<=[>\"])[^<>\"]*(?=[<\"])", text))
        if found and chance.random() < 0.8:
            at = chance.choice(found)
            odd = str(chance.choice((*ODD_CELLS, "XFD1048577", "A0", "s", "inlineStr", "&#0;", "&nobody;")))
            text = text[: at.start()] + odd + text[at.end() :]
        else:
            text = text[: chance.randrange(len(text) + 1)]
        parts[name] = text.encode("utf-8", "replace")
    if chance.random() < 0.1:
        parts.pop(chance.choice(list(parts)))
    return spoilt(chance, packed(parts), 0.3)


def odd_papers(chance: random.Random, known: Known) -> bytes:
    """A bird's papers with entries bent, as a zip or as lines alone."""
    birds = [one for one in known.entries if one["kind"] in ("bird", "family")]
    lines = [chance.choice(birds if chance.random() < 0.9 else known.entries) for _ in range(chance.randrange(1, 5))]
    lines = [bent(chance, one, known) if chance.random() < 0.3 else one for one in lines]
    text = b"\n".join(as_bytes(chance, one) for one in lines)
    if chance.random() < 0.4:
        return spoilt(chance, text, 0.2)
    name = "bird.jsonl" if chance.random() < 0.9 else chance.choice(("papers.pdf", "../bird.jsonl", " ", "é"))
    return spoilt(chance, packed({"bird.pdf": b"%PDF-1.7", name: text}), 0.4)


def odd_base64(chance: random.Random, known: Known) -> bytes:
    """The words of an import, its bytes in base 64 that is now and then none."""
    packed_text = base64.b64encode(odd_csv(chance, known)).decode()
    if chance.random() < 0.5:
        at = chance.randrange(len(packed_text) + 1)
        packed_text = (
            packed_text[:at] + chance.choice(("=", "-", " ", "\n", "é", "A", "\x00", "===")) + packed_text[at:]
        )
    words = {"name": "eggs.csv", "base64": packed_text}
    return as_bytes(chance, bent(chance, words, known) if chance.random() < 0.4 else words)


def spoilt(chance: random.Random, content: bytes, how_often: float) -> bytes:
    """The bytes with one or two of them changed, cut short, or something else in their place."""
    if chance.random() >= how_often or not content:
        return content
    way = chance.random()
    if way < 0.1:
        return chance.choice(ODD_TEXTS)
    if way < 0.3:
        return content[: chance.randrange(len(content))]
    changed = bytearray(content)
    for _ in range(chance.randint(1, 2)):
        changed[chance.randrange(len(changed))] = chance.randrange(256)
    return bytes(changed)


@cache
def workbook_parts(number: int) -> tuple[tuple[str, bytes], ...]:
    """The files inside a workbook of an odd table; some have a second sheet."""
    book = Workbook()
    for title in ("Hatches", "More")[: 1 + number % 2]:
        page = book.create_sheet(title)
        for row in odd_rows(random.Random(number)):
            page.append(
                [cell.replace("\x00", "").replace("\ud800", "") if isinstance(cell, str) else cell for cell in row]
            )
    out = io.BytesIO()
    book.save(out)
    with zipfile.ZipFile(out) as whole:
        return tuple((name, whole.read(name)) for name in whole.namelist())


def packed(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in parts.items():
            made.writestr(name, content)
    return out.getvalue()


ODD_FILES: dict[str, Callable[[random.Random, Known], bytes]] = {
    "csv": odd_csv,
    "xlsx": odd_workbook,
    "travel": odd_papers,
    "base64": odd_base64,
}
