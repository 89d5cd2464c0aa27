"""`broodline import` of a table: columns matched, tried without storing, taken in or undone as one act."""

from argparse import ArgumentParser, Namespace
from datetime import UTC, date, datetime
from typing import Any

from broodline.cli.place import open_book
from broodline.cli.printing import say, say_json, say_table, warn
from broodline.errors import WrongUse
from broodline.exchange.columns import KINDS
from broodline.exchange.days_in import ORDERS
from broodline.exchange.told_in import read_told
from broodline.sync.book_of import BookOf
from broodline.web.imports import read_sheet, store_sheet

_OLD = (".xls", ".ods")
_ORDERS = {"dmy": "day first", "mdy": "month first", "ymd": "year first"}


def add_table_options(parser: ArgumentParser) -> None:
    """What can be said of a table."""
    parser.add_argument("--undo", action="store_true", help="of a table: take back all that it brought")
    parser.add_argument("--kind", choices=KINDS, help="what the table holds (default: found from its headings)")
    parser.add_argument(
        "--column", action="append", default=[], metavar="FIELD=HEADING", help="which column a field stands in"
    )
    parser.add_argument("--dates", choices=ORDERS, help="order of days written in digits")
    parser.add_argument("--sheet", help="of a workbook: the one sheet that is read")
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
            "sheet": options.sheet,
        }
    )
    try:
        content = options.file.read_bytes()
    except OSError as fault:
        raise WrongUse(f"{options.file} cannot be read: {fault.strerror}.", remedy="Name a file to import.") from fault
    with open_book(options) as shelf:
        holding = shelf.holdings.current().id
        standing, _ = BookOf(shelf.log).standing(holding)
        read = read_sheet(standing, options.file.name, content, told, datetime.now(UTC), undo=options.undo)
        answer = store_sheet(shelf.log, holding, read, dry_run=options.dry_run)
    if options.json:
        say_json(answer)
    else:
        _say(answer, standing.keeper.region)
    return 1 if any(_is_left(bad) for bad in answer["bad"]) and not options.undo else 0


def _is_left(bad: dict[str, Any]) -> bool:
    return not bad["taken"] and not bad["as_read"]


def _field(name: str) -> str:
    return name.replace("_", " ")


def _column(text: str) -> tuple[str, str]:
    field, sign, heading = text.partition("=")
    if not sign:
        raise WrongUse(f"{text} names no column.", remedy='Say it as --column family="Name of the line".')
    return field.strip(), heading.strip()


def _say(answer: dict[str, Any], region: str | None) -> None:
    for table in answer["tables"]:
        told = "" if table["heading_row"] == 1 else f" below the headings in row {table['heading_row']}"
        say(f"{table['sheet']}: {table['rows']} rows{told}, read as {table['kind']}.")
        say_table(("field", "from the column"), table["columns"].items())
        if table["passed_over"]:
            say(f"Not read: {', '.join(table['passed_over'])}.")
        if answer["dry_run"]:
            _say_days(table, region)
        say()
    if answer["other_sheets"]:
        say(f"Sheets not read: {', '.join(answer['other_sheets'])}. With --sheet, --kind and --column one can be.")
    if not answer["undo"]:
        for bad in answer["bad"]:
            where = f"{bad['sheet']}, row {bad['number']}, {_field(bad['field'])}" if bad["number"] else bad["sheet"]
            without = " (taken without it)" if bad["taken"] and not bad["as_read"] else ""
            warn(f"{where}: {bad['message']} {bad['remedy']}{without}")
    kinds = ", ".join(f"{n} {kind}" for kind, n in answer["kinds"].items())
    told = f"{answer['added']} entries" + (f" ({kinds})" if kinds else "")
    if answer["undo"]:
        say(f"{told} {'would be' if answer['dry_run'] else ''} taken back.".replace("  ", " "))
        if not answer["added"]:
            say("Nothing in the book is of these days, machines and families, or of these birds. Were they changed "
                "in the file since? Write them as they were; or take each back by itself in the app.")  # fmt: skip
        return
    left = sum(_is_left(bad) for bad in answer["bad"])
    say(f"{told} {'would be added' if answer['dry_run'] else 'added'}, {answer['known']} known already, "
        f"{left} rows not taken.")  # fmt: skip
    if answer["added"] and not answer["dry_run"]:
        say("The same file with --undo takes all of it back.")


def _say_days(table: dict[str, Any], region: str | None) -> None:
    """Days in full, so that a day and a month changed about are seen."""
    if table["days"]:
        say_table(
            ("row", "of", "day", "written", "read as"),
            [
                (one["number"], one["whose"], _field(one["field"]), one["written"] or "",
                 _in_full(date.fromisoformat(one["on"]), region))
                for one in table["days"]
            ],
        )  # fmt: skip
    if len(table["dates_open"]) > 1:
        asked = ", ".join(f"--dates {order} ({_ORDERS[order]})" for order in table["dates_open"])
        say(f"In which order its days stand is not certain. If they are read wrongly: {asked}.")


def _in_full(on: date, region: str | None) -> str:
    return f"{on:%B} {on.day}, {on.year}" if region == "us" else f"{on.day} {on:%B} {on.year}"
