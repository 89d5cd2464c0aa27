"""`broodline tables`: every figure the program works with, where it comes from, and what lacks a second reading."""

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator
from typing import Any

from broodline.cli.printing import say, say_json, say_table
from broodline.trade.sources import STATUSES, Cell, cells, names_of_tables, read_table, source_of

CONFIRMED = "confirmed"
READINGS = {
    CONFIRMED: "a second reader, who had not seen the table, read the same",
    "settled": "the second reader read otherwise; the table keeps its own figure and says why",
    "once": "read once; no second reader has confirmed it yet",
    "own": "our own judgement, common practice or arithmetic: there is no text to read again",
}


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("tables", help="list the figures of the trade with their sources")
    parser.add_argument("--unchecked", action="store_true", help="only what a second, blind reading has not confirmed")
    parser.add_argument("--json", action="store_true", help="answer as JSON")
    parser.set_defaults(run=run_tables)


def run_tables(options: Namespace) -> int:
    """List figures."""
    second = read_table("second_reading")
    found = [
        (path, cell, _reading(second, path, cell))
        for path, cell in _all_cells()
        if not options.unchecked or _reading(second, path, cell) != CONFIRMED
    ]
    if options.json:
        say_json({"cells": [_cell_json(second, path, cell, reading) for path, cell, reading in found]})
        return 0
    say_table(
        ("figure", "value", "unit", "source", "status", "second reading"),
        [(path, _words(cell.value), cell.unit, cell.source, cell.status, reading) for path, cell, reading in found],
    )
    say()
    for status, meaning in STATUSES.items():
        say(f"{status}: {meaning}")
    say()
    for reading, meaning in READINGS.items():
        say(f"{reading}: {meaning}")
    return 0


def _all_cells() -> Iterator[tuple[str, Cell]]:
    for name in names_of_tables():
        yield from cells(read_table(name), name)


def _reading(second: dict[str, Any], path: str, cell: Cell) -> str:
    if path in second["confirmed"]:
        return CONFIRMED
    if path in second["settled"]:
        return "settled"
    return "own" if cell.status in ("derived", "practice") else "once"


def _cell_json(second: dict[str, Any], path: str, cell: Cell, reading: str) -> dict[str, Any]:
    """read_again: where the second reader found it; why: why this figure was chosen, or kept against that reading."""
    return {
        "cell": path,
        "value": cell.value,
        "unit": cell.unit,
        "source": cell.source,
        "title": source_of(cell.source).title,
        "status": cell.status,
        "second_reading": reading,
        "read_again": second["confirmed"].get(path),
        "why": second["settled"].get(path) or cell.why or None,
    }


def _words(value: Any) -> str:
    return " to ".join(map(str, value)) if isinstance(value, list) and len(value) == 2 else str(value)
