"""A sheet as CSV: UTF-8, commas, CRLF (RFC 4180), days as 2026-03-08, moments in UTC, decimal points."""

import csv
import io
from datetime import UTC, datetime

from broodline.exchange.sheet import Cell, Sheet, shielded


def csv_bytes(sheet: Sheet) -> bytes:
    """The headings are the columns' names."""
    text = io.StringIO()
    lines = csv.writer(text)
    lines.writerow([column.name for column in sheet.columns])
    for row in sheet.rows:
        lines.writerow([_written(cell) for cell in row])
    return text.getvalue().encode("utf-8")


def _written(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, datetime):
        return cell.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ").rjust(20, "0")
    if isinstance(cell, str):
        return shielded(cell)
    return cell.isoformat() if hasattr(cell, "isoformat") else repr(cell)
