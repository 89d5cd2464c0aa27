"""Spreadsheets in: tables matched, rows read, entries made, and what undoes them. Nothing is stored here.

An import is one act: all its entries are made from one file, and the same file names them again, so that they can be
taken back together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.book.wire import Entry
from broodline.errors import EnvelopeError
from broodline.exchange.columns import FIELDS, KINDS, Kind, Matched, match_columns
from broodline.exchange.drafts import Drafts, taking_back
from broodline.exchange.flock_rows import take_birds, take_families
from broodline.exchange.hatch_rows import take_hatches
from broodline.exchange.row_values import Unread, species_of
from broodline.exchange.rows_in import BadRow, Taking, rows_of
from broodline.exchange.table_in import TableIn, read_tables
from broodline.trade.calendar import local_date

_MOST_ATTEMPTS = 1000


@dataclass(frozen=True, slots=True)
class Told:
    """What the keeper said of a file. kind: of a file with one table. columns: field -> heading. days_first: of days in
    digits. species, breed: of rows that say none."""

    kind: Kind | None = None
    columns: Mapping[str, str] = field(default_factory=dict)
    days_first: bool | None = None
    species: str | None = None
    breed: str | None = None


@dataclass(frozen=True, slots=True)
class SheetsIn:
    """tables: those that were read. others: sheets that hold none of these. entries: those the book has already too.
    bad: by sheet and row."""

    tables: Sequence[Matched]
    others: Sequence[str]
    entries: Sequence[Entry]
    bad: Sequence[BadRow]


def read_told(words: Mapping[str, Any]) -> Told:
    """From a request or the command line: kind, columns, dates ("dmy", "mdy"), species, breed. Raises EnvelopeError."""
    kind, dates, columns = words.get("kind"), words.get("dates"), words.get("columns") or {}
    if kind is not None and kind not in KINDS:
        raise EnvelopeError("kind", f"{kind} is no kind of table.", remedy=f"Say one of: {', '.join(KINDS)}.")
    if dates not in (None, "dmy", "mdy"):
        raise EnvelopeError("dates", f"{dates} is no order of days.", remedy="Say dmy or mdy.")
    if not isinstance(columns, Mapping) or not all(isinstance(part, str) for pair in columns.items() for part in pair):
        raise EnvelopeError("columns", "Columns cannot be read.", remedy='Say them as {"family": "Line"}.')
    texts = [words.get(name) for name in ("species", "breed")]
    if not all(text is None or isinstance(text, str) for text in texts):
        raise EnvelopeError("breed", "Species and breed are words.", remedy="Say them as text.")
    try:
        species = species_of(texts[0])
    except Unread as fault:
        raise EnvelopeError("species", fault.message, remedy=fault.remedy) from fault
    return Told(kind, columns, None if dates is None else dates == "dmy", species, texts[1] or None)


def read_sheets(name: str, content: bytes, told: Told, standing: Standing, now: datetime) -> SheetsIn:
    """The entries of a file. name: its own. now: aware. Raises EnvelopeError and TooLarge for what is no table."""
    sheets = read_tables(name, content)
    tables = _match(sheets, told)
    others = [table.name for table in sheets if table not in [one.table for one in tables]]
    for attempt in range(_MOST_ATTEMPTS):
        found = _read(tables, others, told, standing, now, attempt)
        if not _all_undone(found.entries, standing):
            break
    return found


def undo_entries(found: SheetsIn, standing: Standing, now: datetime) -> list[Entry]:
    """What takes back all that the book has of an import, the last first; places and families that anything else
    names stay. now: aware."""
    heads = {head.root: head for of_kind in standing.heads.values() for head in of_kind}
    stays = _named_elsewhere(found.entries, standing)
    roots = [entry.id for entry in found.entries if entry.id in heads and entry.id not in stays]
    return [taking_back(one, heads[one].kind, heads[one].id, standing.keeper.zone, now) for one in reversed(roots)]


def matched_json(table: Matched) -> dict[str, Any]:
    """{sheet, kind, rows, columns: {field: heading}, passed_over, missing, fields}: for whoever matches columns."""
    headings = table.table.headings
    return {
        "sheet": table.table.name,
        "kind": table.kind,
        "rows": len(table.table.rows),
        "columns": {name: headings[place] for name, place in table.columns.items()},
        "passed_over": table.passed_over,
        "missing": table.missing,
        "fields": [field.name for field in FIELDS[table.kind]],
    }


def _match(tables: Sequence[TableIn], told: Told) -> list[Matched]:
    if len(tables) > 1 and (told.kind or told.columns):
        remedy = "Save the one sheet as a file of its own, or leave kind and columns away."
        raise EnvelopeError("columns", "The file has several tables.", remedy=remedy)
    found = [match_columns(table, told.kind, told.columns) for table in tables]
    sure = [one for one in found if one.is_sure]
    return sorted(sure or found[:1], key=lambda one: KINDS.index(one.kind))


def _read(
    tables: Sequence[Matched], others: Sequence[str], told: Told, standing: Standing, now: datetime, attempt: int
) -> SheetsIn:
    keeper = standing.keeper
    today = date.fromisoformat(local_date(now, keeper.zone))
    taking = Taking(standing, Drafts(keeper.zone, now, attempt), today, told.species, told.breed)
    take = {"families": take_families, "birds": take_birds, "hatches": take_hatches}
    for table in tables:
        for missing in table.missing:
            message = f"No column says “{missing}”; this sheet was not read as {table.kind}."
            remedy = f"Say which column it is. The headings are: {', '.join(filter(None, table.table.headings))}."
            taking.bad.append(BadRow(table.table.name, 0, missing, message, remedy))
        if not table.missing:
            take[table.kind](taking, rows_of(table, american=keeper.region == "us", days_first=told.days_first))
    return SheetsIn(tables, others, list(taking.drafts.entries.values()), taking.bad)


def _all_undone(entries: Sequence[Entry], standing: Standing) -> bool:
    """Whether the book knows these entries and not one of them counts, but for what stayed because others name it."""
    known = {entry.id for entry in entries if entry.id in standing.root_of}
    counting = known & {head.root for of_kind in standing.heads.values() for head in of_kind}
    return counting < known and counting <= _named_elsewhere(entries, standing)


def _named_elsewhere(entries: Sequence[Entry], standing: Standing) -> set[str]:
    """Places and families of an import that entries which are not of it name."""
    own = {entry.id for entry in entries}
    shared = {entry.id for entry in entries if entry.kind in ("place", "family")}
    names = {name: root for name, root in standing.root_of.items() if root in shared}
    found: set[str] = set()
    for of_kind in standing.heads.values():
        for head in of_kind:
            if len(found) == len(shared):
                return found
            if head.root not in own:
                text = head.body.model_dump_json()
                found |= {root for name, root in names.items() if name in text}
    return found
