"""What the second reading confirms, and the file in the package that says so.

From the top of the tree, after a change of tables or reading: python -m tests.server.trade.second_reading
"""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from broodline.trade import sources
from broodline.trade.sources import Cell, cells, names_of_tables, read_table

HERE = Path(__file__).parent
PACKAGED = Path(sources.__file__).parent / "tables" / "second_reading.json"


def _read(name: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((HERE / name).read_text(encoding="utf-8"))
    return found


READ_ONCE: set[str] = {
    *(f"breakout/clues/{row}/seen" for row in (0, 12)),
    *(f"breeding/hens_per_cock/chicken/{weight}" for weight in ("heavy", "light")),
    *(f"breeding/semen_overlap_days/{bird}" for bird in ("bobwhite", "coturnix", "duck", "goose", "guinea", "turkey")),
    *(f"brood_tasks/ages/{task}" for task in ("grit", "ring_size")),
    "brooding/heat/bobwhite/off",
    "candling/pip_to_out_h",
    "candling/pip_to_out_waterfowl_h",
    "feeding/notes/duck",
    "movements/apart/1",
    "movements/ionophores",
}
"""Cells that came to the tables with a text behind them and still wait for a second reader, each by its path.

Those of breakout, semen, broods, candling and feeding are from memory, and the notes do not say (all of) what the cell
says: they wait for the text itself.
"""
COMMON = {"between", "eggs", "from", "many", "poor", "through", "wrong"}


READ: list[dict[str, Any]] = _read("second_reading.json")["read"]
SETTLED: dict[str, str] = {
    cell: group["why"] for group in _read("settled_differences.json")["settled"] for cell in group["cells"]
}


@cache
def packaged() -> dict[str, Cell]:
    """Every cell of every table by its path."""
    return dict(found for name in names_of_tables() for found in cells(read_table(name), name))


def as_one_figure(value: Any) -> Any:
    """The lone number behind [21] and [21, 21]; any other value as it is."""
    if isinstance(value, list) and 1 <= len(value) <= 2 and value[0] == value[-1]:
        return value[0]
    return value


def key_words(cause: str) -> set[str]:
    """The first four letters of every word of four or more that says something."""
    return {word[:4] for word in re.findall(r"[a-z]{4,}", cause.lower()) if word not in COMMON}


def numbers(text: str) -> set[str]:
    """The figures of a sentence; those in brackets are conversions."""
    return set(re.findall(r"\d+(?:\.\d+)?", re.sub(r"\([^)]*\)", "", text)))


def only_read_figures(told: str, read: str) -> bool:
    """Whether each figure of a sentence was read; it may be rounded."""
    return all(
        any(f"{float(one):.{len(figure.partition('.')[2])}f}" == figure for one in numbers(read))
        for figure in numbers(told)
    )


def agrees(cell: Cell, row: dict[str, Any]) -> bool:
    """Whether a cell says what was read."""
    if "beside" in row:
        return bool(cell.value == row["beside"] and only_read_figures(cell.value, " ".join(row["value"])))
    if cell.unit == "cause":
        return bool(key_words(cell.value) & key_words(" ".join(row["value"])))
    return bool(as_one_figure(cell.value) == as_one_figure(row["value"]))


def as_packaged() -> str:
    """The packaged file: each confirmed cell with where it was read again, each settled one with why it differs."""
    confirmed = {row["cell"]: row["where"] for row in READ if agrees(packaged()[row["cell"]], row)}
    about = (
        "Which figures a second, blind reading of their sources confirmed, with where it read them; and which it read "
        "otherwise, with why the table keeps its own."
    )
    return (
        json.dumps(
            {"about": about, "confirmed": confirmed, "settled": SETTLED}, ensure_ascii=False, indent=1, sort_keys=True
        )
        + "\n"
    )


if __name__ == "__main__":
    PACKAGED.write_text(as_packaged(), encoding="utf-8")
