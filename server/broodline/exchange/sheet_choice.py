"""Which sheets of a file are read as what: as the keeper says, else those whose headings are known."""

from collections.abc import Sequence
from pathlib import PurePath

from broodline.errors import EnvelopeError, TooLarge
from broodline.exchange.columns import KINDS, KNOWN, Matched, match_columns
from broodline.exchange.csv_in import read_text
from broodline.exchange.headings import table_of
from broodline.exchange.row_values import name_key
from broodline.exchange.table_in import MOST_BYTES, TableIn
from broodline.exchange.told_in import Told
from broodline.exchange.workbook_in import WORKBOOKS, read_workbook

_PACKED = b"PK\x03\x04"


def read_tables(name: str, content: bytes) -> list[TableIn]:
    """The tables of a file that are not empty. name: of the file, its ending says what it is.

    Raises EnvelopeError for a file that cannot be read as a table, TooLarge for one that is too long.
    """
    if len(content) > MOST_BYTES:
        raise TooLarge(f"The file is over {MOST_BYTES // 1024 // 1024} MiB.", remedy="Split it and take in the parts.")
    path = PurePath(name)
    packed = path.suffix.lower() in WORKBOOKS or content.startswith(_PACKED)
    sheets = read_workbook(content) if packed else [read_text(path.stem, content)]
    tables = [table for sheet in sheets if (table := table_of(sheet, KNOWN)) is not None]
    if not tables:
        raise EnvelopeError("file", "The table is empty.", remedy="Save it with headings in its first row.")
    return tables


def chosen(tables: Sequence[TableIn], told: Told) -> list[Matched]:
    """The tables that are read, families before birds before hatches. Raises EnvelopeError for what is told of a sheet,
    field or heading that is not there."""
    names = [table.name for table in tables]
    for name in (*told.sheets, *([told.only] if told.only else [])):
        if name_key(name) not in map(name_key, names):
            message = f"The file has no sheet named {name}."
            raise EnvelopeError("sheets", message, remedy=f"Its sheets are: {', '.join(names)}.")
    if told.only is not None:
        tables = [table for table in tables if name_key(table.name) == name_key(told.only)]
    if len(tables) > 1 and (told.kind or told.columns):
        remedy = "Say which sheet is meant, or leave kind and columns away."
        raise EnvelopeError("columns", "The file has several tables.", remedy=remedy)
    read: list[Matched] = []
    unsure: list[Matched] = []
    for table in tables:
        own = told.of(table.name)
        if own.is_ours:
            one = match_columns(table, own.kind, own.columns)
            (read if own.kind or one.is_sure else unsure).append(one)
    if not read and (len(tables) == 1 or not told.sheets):
        read = unsure[:1]
    return sorted(read, key=lambda one: KINDS.index(one.kind))
