"""`broodline import` of a table: columns matched, tried without storing, taken in or undone as one act."""

from argparse import ArgumentParser, Namespace
from datetime import UTC, datetime
from typing import Any

from broodline.cli.place import open_book
from broodline.cli.printing import say, say_json, say_table, warn
from broodline.errors import WrongUse
from broodline.exchange.columns import KINDS
from broodline.exchange.sheets_in import read_told
from broodline.sync.book_of import BookOf
from broodline.web.imports import take_sheet

_OLD = (".xls", ".ods")


def add_table_options(parser: ArgumentParser) -> None:
    """What can be said of a table."""
    parser.add_argument("--undo", action="store_true", help="of a table: take back all that it brought")
    parser.add_argument("--kind", choices=KINDS, help="what the table holds (default: found from its headings)")
    parser.add_argument(
        "--column", action="append", default=[], metavar="FIELD=HEADING", help="which column a field stands in"
    )
    parser.add_argument("--dates", choices=("dmy", "mdy"), help="order of days written in digits")
    parser.add_argument("--species", help="of rows that say none")
    parser.add_argument("--breed", help="of rows that say none")


def import_sheet(options: Namespace) -> int:
    """1 where any row was not taken."""
    if options.file.suffix.lower() in _OLD:
        raise WrongUse(f"{options.file.suffix} is not read.", remedy="Save the table as .xlsx or .csv.")
    told = read_told(
        {
            "kind": options.kind,
            "columns": dict(_column(text) for text in options.column),
            "dates": options.dates,
            "species": options.species,
            "breed": options.breed,
        }
    )
    try:
        content = options.file.read_bytes()
    except OSError as fault:
        raise WrongUse(f"{options.file} cannot be read: {fault.strerror}.", remedy="Name a file to import.") from fault
    with open_book(options) as shelf:
        holding = shelf.holdings.current().id
        standing, _ = BookOf(shelf.log).standing(holding)
        answer = take_sheet(
            shelf.log,
            holding,
            standing,
            options.file.name,
            content,
            told,
            datetime.now(UTC),
            dry_run=options.dry_run,
            undo=options.undo,
        )
    if options.json:
        say_json(answer)
    else:
        _say(answer)
    return 1 if any(not bad["taken"] for bad in answer["bad"]) and not options.undo else 0


def _column(text: str) -> tuple[str, str]:
    field, sign, heading = text.partition("=")
    if not sign:
        raise WrongUse(f"{text} names no column.", remedy='Say it as --column family="Name of the line".')
    return field.strip(), heading.strip()


def _say(answer: dict[str, Any]) -> None:
    for table in answer["tables"]:
        say(f"{table['sheet']}: {table['rows']} rows, read as {table['kind']}.")
        say_table(("field", "from the column"), table["columns"].items())
        if table["passed_over"]:
            say(f"Not read: {', '.join(table['passed_over'])}.")
        say()
    if answer["other_sheets"]:
        say(f"Sheets not read: {', '.join(answer['other_sheets'])}.")
    if not answer["undo"]:
        for bad in answer["bad"]:
            where = f"{bad['sheet']}, row {bad['number']}, {bad['field']}" if bad["number"] else bad["sheet"]
            warn(f"{where}: {bad['message']} {bad['remedy']}" + (" (taken without it)" if bad["taken"] else ""))
    kinds = ", ".join(f"{n} {kind}" for kind, n in answer["kinds"].items())
    told = f"{answer['added']} entries" + (f" ({kinds})" if kinds else "")
    if answer["undo"]:
        say(f"{told} {'would be' if answer['dry_run'] else ''} taken back.".replace("  ", " "))
        return
    left = sum(not bad["taken"] for bad in answer["bad"])
    say(f"{told} {'would be added' if answer['dry_run'] else 'added'}, {answer['known']} known already, "
        f"{left} rows not taken.")  # fmt: skip
    if answer["added"] and not answer["dry_run"]:
        say("The same file with --undo takes all of it back.")
