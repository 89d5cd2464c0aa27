"""Tables with their sources: every figure stands in tables/ with value, unit, source and the state of that source.

A cell is an object with a `value`. A cell without unit, source or a known status is refused when the table is
read, so no figure without an origin reaches a screen.

    >>> period = cell(read_table("species")["species"]["turkey"]["lockdown_day"])
    >>> period.value, period.unit, period.source, period.status
    (25, 'day', 'TAMU', 'mirror')
    >>> source_of("TAMU").title
    'Incubating and Hatching Eggs, B-6092'
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Protocol

STATUSES = {
    "seen": "read in the source itself",
    "mirror": "read on a copy of the source, to be checked against the original",
    "memory": "commonly used, not yet checked against its source",
    "derived": "worked out from figures listed here",
    "practice": "common practice, no source",
}


WITHOUT_TEXT = frozenset({"PRACTICE", "JUDGEMENT"})
"""Sources that are no text: common practice, and our own judgement."""


class TableFault(ValueError):
    """A packaged table holds a figure without unit, source or known status: a fault of the program, not of a keeper."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One figure. value: a number, a range [low, high], a list or a word. unit: as printed. status: see STATUSES."""

    value: Any
    unit: str
    source: str
    status: str
    why: str = ""


class WasRead(Protocol):
    """Whatever says where it was read: a cell, or what was made of one."""

    @property
    def source(self) -> str: ...

    @property
    def status(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures were read. key: as cells name it."""

    key: str
    title: str
    who: str
    where: str


def cell(written: Mapping[str, Any]) -> Cell:
    """The cell of a table's object; raises TableFault when unit, source or a known status is missing."""
    return _cell(written, _sources(), "cell")


def cells(table: Mapping[str, Any], at: str = "") -> Iterator[tuple[str, Cell]]:
    """Every cell of a table with the path that leads to it, in the order of the file."""
    known = _sources()
    for path, written in _objects_with_value(table, at):
        yield path, _cell(written, known, path)


@cache
def read_table(name: str) -> dict[str, Any]:
    """A packaged table by name, every cell of it checked. Raises TableFault, FileNotFoundError."""
    table = _read(name)
    for _ in cells(table, name):
        pass
    return table


def source_of(key: str) -> Source:
    """The source behind a key; raises TableFault for a key that sources.json does not hold."""
    written = _sources().get(key)
    if written is None:
        raise TableFault(f"sources.json has no source {key}")
    return Source(key=key, title=written["title"], who=written["who"], where=written["where"])


def origin(figure: WasRead) -> str:
    """Where a figure was read and how far that can be trusted, in words.

    >>> origin(cell(read_table("storage")["most_days"]))
    'Incubation and Embryology troubleshooting (Univ. Illinois Extension); read in the source itself'
    """
    source = source_of(figure.source)
    if figure.source in WITHOUT_TEXT:
        return f"{source.title}, no source"
    return f"{source.title} ({source.who}); {STATUSES[figure.status]}"


def names_of_tables() -> tuple[str, ...]:
    """All packaged tables, by name."""
    return tuple(sorted(path.name.removesuffix(".json") for path in _folder().iterdir() if path.name.endswith(".json")))


def _folder() -> Any:
    return files("broodline.trade") / "tables"


def _read(name: str) -> dict[str, Any]:
    table: dict[str, Any] = json.loads((_folder() / f"{name}.json").read_text(encoding="utf-8"))
    return table


@cache
def _sources() -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = _read("sources")["sources"]
    return found


def _cell(written: Mapping[str, Any], known: Mapping[str, Any], path: str) -> Cell:
    for field in ("value", "unit", "source", "status"):
        if written.get(field) in (None, ""):
            raise TableFault(f"{path}: a figure without {field}")
    if written["status"] not in STATUSES:
        raise TableFault(f"{path}: unknown status {written['status']}")
    if written["source"] not in known:
        raise TableFault(f"{path}: sources.json has no source {written['source']}")
    return Cell(
        value=written["value"],
        unit=written["unit"],
        source=written["source"],
        status=written["status"],
        why=written.get("why", ""),
    )


def _objects_with_value(part: Any, path: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
    if isinstance(part, dict):
        if "value" in part:
            yield path, part
        for name, below in part.items():
            yield from _objects_with_value(below, f"{path}/{name}")
    elif isinstance(part, list):
        for number, below in enumerate(part):
            yield from _objects_with_value(below, f"{path}/{number}")
