"""The book as a data package (Data Package and Table Schema, specs.frictionlessdata.io, version 1): a zip of one CSV a
sheet, datapackage.json that says what each column means, and the entries themselves as JSON lines.
"""

import io
import json
import zipfile
from collections.abc import Sequence
from datetime import datetime
from typing import Any

from broodline.exchange.csv_text import csv_bytes
from broodline.exchange.sheet import Column, Sheet

BOOK = "book.jsonl"
DESCRIPTOR = "datapackage.json"


def package_files(sheets: Sequence[Sheet], book: bytes, holding: str, now: datetime) -> dict[str, bytes]:
    """File name -> bytes; the descriptor first. book: every entry, one a line. now: aware."""
    tables = {f"{sheet.name}.csv": csv_bytes(sheet) for sheet in sheets}
    descriptor = {
        "profile": "data-package",
        "name": "broodline-book",
        "title": f"The flock's book of {holding}",
        "description": f"What the book says now, one table a file. {BOOK} beside them has every entry as it was "
        "written, with all corrections; it reads back byte for byte. Text that a spreadsheet would take for a formula "
        "begins with an apostrophe. An id may name something that is not in the book.",
        "created": now.isoformat(timespec="seconds"),
        "resources": [_table(sheet, len(tables[f"{sheet.name}.csv"])) for sheet in sheets],
    }
    return {
        DESCRIPTOR: json.dumps(descriptor, ensure_ascii=False, indent=2).encode("utf-8") + b"\n",
        **tables,
        BOOK: book,
    }


def package_zip(files: dict[str, bytes], now: datetime) -> bytes:
    """The files as a zip, the same bytes for the same files and moment."""
    out = io.BytesIO()
    stamp = (max(now.year, 1980), now.month, now.day, now.hour, now.minute, now.second)
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name, stamp)
            entry.external_attr = 0o644 << 16
            packed.writestr(entry, content, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _table(sheet: Sheet, size: int) -> dict[str, Any]:
    schema: dict[str, Any] = {"fields": [_field(column) for column in sheet.columns], "missingValues": [""]}
    if sheet.key:
        schema["primaryKey"] = sheet.key
    return {
        "profile": "tabular-data-resource",
        "name": sheet.name.replace("_", "-"),
        "path": f"{sheet.name}.csv",
        "title": sheet.title,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": size,
        "schema": schema,
    }


def _field(column: Column) -> dict[str, str]:
    field = {"name": column.name, "type": column.type, "title": column.title}
    return {**field, "description": column.words} if column.words else field
