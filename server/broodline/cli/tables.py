"""`broodline tables`: every figure the program works with, where it comes from, and what lacks a second reading."""

from argparse import Namespace, _SubParsersAction
from typing import Any

from broodline.cli.printing import say, say_json, say_table
from broodline.trade.sources import STATUSES, cells, names_of_tables, read_table, source_of

CHECKED = frozenset({"seen", "derived"})


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("tables", help="list the figures of the trade with their sources")
    parser.add_argument("--unchecked", action="store_true", help="only what was not yet read in its source itself")
    parser.add_argument("--json", action="store_true", help="answer as JSON")
    parser.set_defaults(run=run_tables)


def run_tables(options: Namespace) -> int:
    """List figures."""
    found = [
        (path, cell)
        for name in names_of_tables()
        for path, cell in cells(read_table(name), name)
        if not (options.unchecked and cell.status in CHECKED)
    ]
    if options.json:
        say_json(
            {
                "cells": [
                    {
                        "cell": path,
                        "value": cell.value,
                        "unit": cell.unit,
                        "source": cell.source,
                        "title": source_of(cell.source).title,
                        "status": cell.status,
                    }
                    for path, cell in found
                ]
            }
        )
        return 0
    say_table(
        ("figure", "value", "unit", "source", "status"),
        [(path, _words(cell.value), cell.unit, cell.source, cell.status) for path, cell in found],
    )
    say()
    for status, meaning in STATUSES.items():
        say(f"{status}: {meaning}")
    return 0


def _words(value: Any) -> str:
    return " to ".join(map(str, value)) if isinstance(value, list) and len(value) == 2 else str(value)
