"""The packaged figures equal a second reading of their sources, made without sight of the tables.

second_reading.json holds what was read and where it stands (table and row of the published source). Numbers are
compared exactly: 21, [21] and the range [21, 21] are the same figure. Causes are compared by key words: a key word
has four letters or more and is none of COMMON, and its first four letters count ("chilled" is "chilling"); a cause
of the table must share one with the source's causes. A reading that differs stays in the file as it was read;
settled_differences.json says why the table keeps its own figure. Figures that came to the tables after the second
reading are named below: `broodline tables --unchecked` lists them until somebody has read them again.
"""

from typing import Any

import pytest

from tests.server.trade.second_reading import (
    PACKAGED,
    READ,
    SETTLED,
    agrees,
    as_one_figure,
    as_packaged,
    key_words,
    packaged,
)

WITHOUT_TEXT = {"PRACTICE", "JUDGEMENT"}
"""Sources that are our own: no published text stands behind them."""
READ_ONCE = (
    *("breakout/classes/", "breakout/lethal/", "breakout/notes/", "guidance/", "hatch/"),
    *("storage/choosing/", "storage/grows_above/", "storage/keep", "storage/most_days", "storage/too_cold"),
    *("storage/under_a_hen", "storage/worse_after"),
)
READ_ONCE_CELLS = {f"setpoints/species/chicken/setter_humidity/{number}" for number in range(3)}
"""Came to the tables after the second reading; still to be read by another hand."""


@pytest.mark.parametrize("row", READ, ids=[row["cell"] for row in READ])
def test_table_equals_the_second_reading(row: dict[str, Any]) -> None:
    cell = packaged()[row["cell"]]
    assert cell.unit == row["unit"]
    if row["cell"] in SETTLED:
        assert not agrees(cell, row), "nothing is left to settle here"
        assert cell.why
    else:
        assert agrees(cell, row), (cell.value, row["value"], row["where"], row.get("note"))


def test_every_published_figure_is_read_twice_or_named_as_read_once() -> None:
    published = {
        path
        for path, cell in packaged().items()
        if cell.status in ("seen", "mirror", "memory") and cell.source not in WITHOUT_TEXT
    }
    read = [row["cell"] for row in READ]
    assert len(read) == len(set(read))
    once = published - set(read)
    assert {path for path in once if not path.startswith(READ_ONCE)} == READ_ONCE_CELLS
    assert all(any(path.startswith(part) for path in once) for part in READ_ONCE), "nothing of it is read once any more"


def test_the_package_says_what_was_confirmed() -> None:
    """If this differs: python -m tests.server.trade.second_reading"""
    assert PACKAGED.read_text(encoding="utf-8") == as_packaged()


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
