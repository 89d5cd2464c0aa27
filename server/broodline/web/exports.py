"""What leaves the book whole: workbook, data package and JSON lines, put together from standing, reports and log.

Routes and commands both give these; nothing here knows of requests or files.
"""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.exchange.archive import write_line
from broodline.exchange.book_sheets import book_sheets, season_sheets
from broodline.exchange.csv_text import csv_bytes
from broodline.exchange.datapackage import package_files
from broodline.exchange.sheet import Column, FieldType, Sheet
from broodline.exchange.workbook import workbook_bytes
from broodline.reports.season import season_report
from broodline.reports.season_year import season_of
from broodline.reports.society_return import society_return

_RATES = {
    "fertility": "Fertile of examined",
    "hatch_of_set": "Hatched of set",
    "hatch_of_fertile": "Hatched of fertile",
    "alive_7d": "Alive at 7 days",
}
_RETURN: tuple[tuple[str, FieldType, str], ...] = (
    ("species", "string", "Species"),
    ("breed", "string", "Breed"),
    ("variety", "string", "Variety"),
    ("origin", "string", "Origin of the eggs"),
    ("males", "integer", "Breeding males used"),
    ("females", "integer", "Breeding females used"),
    ("lines", "integer", "Lines"),
    ("eggs", "integer", "Eggs set"),
    ("hatched", "integer", "Hatched"),
    ("reared", "integer", "Reared"),
    ("not_written", "integer", "Hatched, then not written of"),
    ("rings", "string", "Ring numbers"),
)
_PARTS = {
    "k": "so many",
    "n": "of",
    "rate": "share, 0 to 1",
    "low": "low end, 95 %",
    "high": "high end, 95 %",
    "open": "up to so many more, family unknown",
}


def book_workbook(standing: Standing, now: datetime) -> bytes:
    """Everything that counts, one sheet a thing (xlsx). now: aware."""
    return workbook_bytes(book_sheets(standing), zone=standing.keeper.zone, now=now)


def season_workbook(standing: Standing, year: int, now: datetime) -> bytes:
    """The season that starts in `year`: families with their rates, and all that was seen of its eggs. now: aware."""
    settings = {one.id for one in standing.settings.values() if season_of(standing, one.set_at_ms) == year}
    sheets = [_rates_sheet(season_report(standing, year, now)), *season_sheets(standing, settings)]
    return workbook_bytes(sheets, zone=standing.keeper.zone, now=now)


def book_package(standing: Standing, entries: Iterable[bytes], now: datetime) -> dict[str, bytes]:
    """The files of a data package, by name. entries: canonical bytes, in the order of the log. now: aware."""
    return package_files(book_sheets(standing), book_lines(entries), standing.keeper.holding, now)


def book_lines(entries: Iterable[bytes]) -> bytes:
    """Every entry as it was written, one a line."""
    return b"".join(map(write_line, entries))


def this_season(standing: Standing, now: datetime) -> int:
    """The season that `now` falls in. now: aware."""
    return season_of(standing, round(now.timestamp() * 1000))


def society_csv(standing: Standing, year: int) -> tuple[bytes, int]:
    """A season's return to a breed society as CSV, and how many rows it has."""
    rows = [
        tuple(" ".join(one[name]) if name == "rings" else one[name] for name, _, _ in _RETURN)
        for one in society_return(standing, year)
    ]
    columns = [Column(name, kind, title) for name, kind, title in _RETURN]
    return csv_bytes(Sheet("return", f"Season {year}", columns, rows)), len(rows)


def _rates_sheet(report: dict[str, Any]) -> Sheet:
    columns = [
        Column("family_id", "string", "Family (id)"),
        Column("family", "string", "Family"),
        Column("set", "integer", "Eggs set"),
        Column("running", "integer", "Still in machines"),
    ]
    for rate, title in _RATES.items():
        for part, words in _PARTS.items():
            name, heading = f"{rate}_{part}", f"{title}: {words}"
            columns.append(Column(name, "integer" if part in ("k", "n", "open") else "number", heading))
    rows = [
        (
            one["family"],
            one["name"],
            one["set"],
            one["running"],
            *(one[rate].get(part, 0) for rate in _RATES for part in _PARTS),
        )
        for one in report["families"]
    ]
    return Sheet("rates", f"Families {report['year']}", columns, rows)
