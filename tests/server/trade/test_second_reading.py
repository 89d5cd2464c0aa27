"""The packaged figures equal a second reading of their sources, made without sight of the tables.

second_reading.json holds what was read and where it stands (table and row of the published source). Numbers are
compared exactly: 21, [21] and the range [21, 21] are the same figure. Causes are compared by key words: a key word
has four letters or more and is none of COMMON, and its first four letters count ("chilled" is "chilling"); a cause
of the table must share one with the source's causes. A reading that differs stays in the file as it was read;
settled_differences.json says why the table keeps its own figure.
"""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from broodline.trade.sources import Cell, cells, names_of_tables, read_table

READ: list[dict[str, Any]] = json.loads(Path(__file__).with_name("second_reading.json").read_text(encoding="utf-8"))[
    "read"
]
SETTLED = {
    cell
    for group in json.loads(Path(__file__).with_name("settled_differences.json").read_text(encoding="utf-8"))["settled"]
    for cell in group["cells"]
}
WITHOUT_TEXT = {"PRACTICE", "JUDGEMENT"}
"""Sources that are our own: no published text stands behind them."""
NOT_IN_TEXT: dict[str, str] = {}
"""Cells that name a published source whose text was not at hand for the second reading, each with the reason."""
COMMON = {"between", "eggs", "from", "many", "poor", "through", "wrong"}


@cache
def packaged() -> dict[str, Cell]:
    return dict(found for name in names_of_tables() for found in cells(read_table(name), name))


def as_one_figure(value: Any) -> Any:
    """The lone number behind [21] and [21, 21]; any other value as it is."""
    if isinstance(value, list) and 1 <= len(value) <= 2 and value[0] == value[-1]:
        return value[0]
    return value


def key_words(cause: str) -> set[str]:
    return {word[:4] for word in re.findall(r"[a-z]{4,}", cause.lower()) if word not in COMMON}


@pytest.mark.parametrize("row", READ, ids=[row["cell"] for row in READ])
def test_table_equals_the_second_reading(row: dict[str, Any]) -> None:
    cell = packaged()[row["cell"]]
    assert cell.unit == row["unit"]
    if cell.unit == "cause":
        assert key_words(cell.value) & key_words(" ".join(row["value"])), (cell.value, row["value"], row["where"])
    elif row["cell"] in SETTLED:
        assert as_one_figure(cell.value) != as_one_figure(row["value"]), "nothing is left to settle here"
        assert cell.why
    else:
        assert as_one_figure(cell.value) == as_one_figure(row["value"]), (row["where"], row.get("note"))


def test_every_published_figure_is_read_twice() -> None:
    published = {
        path
        for path, cell in packaged().items()
        if cell.status in ("seen", "mirror", "memory") and cell.source not in WITHOUT_TEXT
    }
    read = [row["cell"] for row in READ]
    assert len(read) == len(set(read))
    assert published - set(read) == set(NOT_IN_TEXT)
    assert all(NOT_IN_TEXT.values())


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("eggs chilled", "chilling", True),
        ("poor ventilation", "poor turning", False),
        ("stored too long", "storage swings", True),
    ],
)
def test_causes_are_the_same_by_a_key_word(one: str, other: str, same: bool) -> None:
    assert bool(key_words(one) & key_words(other)) is same


@pytest.mark.parametrize(
    ("value", "figure"), [(21, 21), ([21], 21), ([21, 21], 21), ([7, 14, 7], [7, 14, 7]), ([35, 37], [35, 37])]
)
def test_a_range_without_width_is_one_figure(value: Any, figure: Any) -> None:
    assert as_one_figure(value) == figure
