"""Spreadsheets in: tables matched, rows read, entries made, and what undoes them. Nothing is stored here.

An import is one act: all its entries are made from one file, and the same file names them again, so that they can be
taken back together.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.book.wire import Entry
from broodline.exchange.brought import Brought, brought_by
from broodline.exchange.columns import FIELDS, Matched
from broodline.exchange.days_told import TableDays, table_days
from broodline.exchange.drafts import Drafts, taking_back
from broodline.exchange.flock_rows import take_birds, take_families
from broodline.exchange.hatch_rows import take_hatches
from broodline.exchange.rows_in import BadRow, Taking, rows_of
from broodline.exchange.sheet_choice import chosen, read_tables
from broodline.exchange.told_in import Told
from broodline.trade.calendar import local_date

_MOST_ATTEMPTS = 1000


@dataclass(frozen=True, slots=True)
class SheetsIn:
    """tables: those that were read. days: how the days of each were read, by its name. others: sheets that were not
    read. asked: "species", "breed" where rows do not say them. entries: those the book has already too. bad: by sheet
    and row. brought: what the book has of the rows from tables, also of earlier readings that said otherwise."""

    tables: Sequence[Matched]
    days: Mapping[str, TableDays]
    others: Sequence[str]
    asked: Sequence[str]
    entries: Sequence[Entry]
    bad: Sequence[BadRow]
    brought: Brought


def read_sheets(name: str, content: bytes, told: Told, standing: Standing, now: datetime) -> SheetsIn:
    """The entries of a file. name: its own. now: aware. Raises EnvelopeError and TooLarge for what is no table."""
    sheets = read_tables(name, content)
    tables = chosen(sheets, told)
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
    parts = {head.root: (head, body) for head, body in found.brought.parts}
    own = [entry.id for entry in found.entries if entry.id in heads and entry.id not in parts]
    more = found.brought.roots.difference(own)
    own += sorted(more, key=lambda root: (heads[root].kind not in ("family", "place"), root))
    stays = _named_elsewhere(own, standing, {root: json.dumps(body) for root, (_, body) in parts.items()})
    zone = standing.keeper.zone
    back = [taking_back(heads[root], zone, now) for root in reversed(own) if root not in stays]
    return back + [taking_back(head, zone, now, body) for head, body in parts.values()]


def matched_json(table: Matched, days: TableDays) -> dict[str, Any]:
    """{sheet, kind, rows, heading_row, columns: {field: heading}, passed_over, missing, needed, fields, dates,
    dates_open, days: [{number, whose, field, written, on}]}: for whoever matches columns."""
    headings = table.table.headings
    return {
        "sheet": table.table.name,
        "kind": table.kind,
        "rows": len(table.table.rows),
        "heading_row": table.table.heading_row,
        "columns": {name: headings[place] for name, place in table.columns.items()},
        "passed_over": table.passed_over,
        "missing": table.missing,
        "needed": table.needed,
        "fields": [field.name for field in FIELDS[table.kind]],
        **days.as_json(),
    }


def _read(
    tables: Sequence[Matched], others: Sequence[str], told: Told, standing: Standing, now: datetime, attempt: int
) -> SheetsIn:
    keeper = standing.keeper
    today = date.fromisoformat(local_date(now, keeper.zone))
    taking = Taking(standing, Drafts(keeper.zone, now, attempt), today, told.species, told.breed)
    take = {"families": take_families, "birds": take_birds, "hatches": take_hatches}
    days: dict[str, TableDays] = {}
    for table in tables:
        name = table.table.name
        for missing in table.missing:
            message = f"No column says “{missing}”; this sheet was not read as {table.kind}."
            remedy = f"Say which column it is. The headings are: {', '.join(filter(None, table.table.headings))}."
            taking.bad.append(BadRow(name, 0, missing, message, remedy))
        if not table.table.rows:
            message, remedy = "There are headings and no rows.", "Nothing is to be done, if the sheet is empty."
            taking.bad.append(BadRow(name, 0, "", message, remedy, as_read=True))
        rows = rows_of(table, american=keeper.region == "us", dates=told.of(name).dates)
        days[name] = table_days(rows, today)
        if not table.missing:
            take[table.kind](taking, rows)
    return SheetsIn(tables, days, others, sorted(taking.asked), list(taking.drafts.entries.values()), taking.bad,
                    brought_by(taking.claims, standing))  # fmt: skip


def _all_undone(entries: Sequence[Entry], standing: Standing) -> bool:
    """Whether the book knows these entries and not one of them counts, but for what stayed because others name it."""
    known = {entry.id for entry in entries if entry.id in standing.root_of}
    counting = known & {head.root for of_kind in standing.heads.values() for head in of_kind}
    return counting < known and counting <= _named_elsewhere([entry.id for entry in entries], standing, {})


def _named_elsewhere(own: Sequence[str], standing: Standing, parts: Mapping[str, str]) -> set[str]:
    """Places and families of an import that entries which are not of it name. parts: root -> what stays of its body."""
    of_it = set(own)
    shared = of_it & (set(standing.places) | set(standing.families))
    names = {name: root for name, root in standing.root_of.items() if root in shared}
    found: set[str] = set()
    for of_kind in standing.heads.values():
        for head in of_kind:
            if len(found) == len(shared):
                return found
            if head.root not in of_it:
                text = parts[head.root] if head.root in parts else head.body.model_dump_json()
                found |= {root for name, root in names.items() if name in text}
    return found
