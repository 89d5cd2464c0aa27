"""`broodline tables`: every figure the program works with, where it comes from, and what lacks a second reading."""

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from broodline.cli.place import add_place
from broodline.cli.printing import say, say_json, say_table
from broodline.trade.sources import STATUSES, Cell, cells, names_of_tables, read_table, source_of

CONFIRMED = "confirmed"
READINGS = {
    CONFIRMED: "a second reader, who had not seen the table, read the same",
    "once": "read once; no second reader has confirmed it yet",
    "settled": "the second reader read otherwise; the table keeps its own figure and says why",
    "memory": "written down from memory; nobody has seen the source, so reading our notes again confirms nothing",
    "derived": "worked out from figures listed here, and worked out again by a second hand; no text prints it",
    "own": "our own judgement or common practice; there is no text to read again",
}
WORDS = ("sentence", "cause")
"""Units of cells that hold words."""
LISTS = ("candle_days", "classes")
"""Parts of a path under which two figures are two days and no range."""


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("tables", help="list the figures of the trade with their sources")
    parser.add_argument("--unchecked", action="store_true", help="only what a second, blind reading has not confirmed")
    add_place(parser, json=True)  # of every book alike, as every command takes it
    parser.set_defaults(run=run_tables)


def run_tables(options: Namespace) -> int:
    """List figures."""
    second = read_table("second_reading")
    found = [
        (path, cell, reading_of(second, path, cell))
        for path, cell in _all_cells()
        if not options.unchecked or reading_of(second, path, cell) != CONFIRMED
    ]
    if options.json:
        say_json({"cells": [_cell_json(second, path, cell, reading) for path, cell, reading in found]})
        return 0
    if options.unchecked:
        _tell_unchecked(second, found)
    else:
        say_table(
            ("figure", "value", "unit", "source", "status", "second reading"),
            [
                (path, _words(path, cell.value), cell.unit, cell.source, cell.status, reading)
                for path, cell, reading in found
            ],
        )
        say()
        for reading, meaning in READINGS.items():
            say(f"{reading}: {meaning}")
        say()
    for status, meaning in STATUSES.items():
        say(f"{status}: {meaning}")
    return 0


def reading_of(second: Mapping[str, Any], path: str, cell: Cell) -> str:
    """How far a figure was read again, a key of READINGS. second: the packaged table of the second reading."""
    if path in second["settled"]:
        return "settled"
    if cell.status in ("derived", "practice"):
        return "derived" if cell.status == "derived" else "own"
    if cell.status == "memory":
        return "memory"
    return CONFIRMED if path in second["confirmed"] else "once"


def _tell_unchecked(second: Mapping[str, Any], found: Sequence[tuple[str, Cell, str]]) -> None:
    """The figures under the reason why they count as unchecked, each with why it is what it is."""
    for reading, meaning in READINGS.items():
        own = [(path, cell) for path, cell, one in found if one == reading]
        if not own:
            continue
        say(f"{meaning[0].upper()}{meaning[1:]} ({len(own)}):")
        for reason in dict.fromkeys(second["settled"].get(path, "") for path, _ in own):
            if reason:
                say(f"  {reason}")
            for path, cell in own:
                if second["settled"].get(path, "") == reason:
                    _tell(path, cell)
        say()


def _tell(path: str, cell: Cell) -> None:
    unit = "" if cell.unit in WORDS else f" {cell.unit}"
    say(f"    {path}: {_words(path, cell.value)}{unit} [{cell.source}, {cell.status}]")
    if cell.why:
        say(f"        {cell.why}")


def _all_cells() -> Iterator[tuple[str, Cell]]:
    for name in names_of_tables():
        yield from cells(read_table(name), name)


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


def _words(path: str, value: Any) -> str:
    """A range as "a to b" (as one figure where it has no width), a list of days as "a and b"."""
    if not isinstance(value, list):
        return str(value)
    if any(part in path.split("/") for part in LISTS):
        return " and ".join(map(str, value))
    return " to ".join(map(str, dict.fromkeys(value)))
