"""The packaged figures equal a second reading of their sources, made without sight of the tables.

second_reading.json holds what was read and where it stands (table and row of the published source). Numbers are
compared exactly: 21, [21] and the range [21, 21] are the same figure. Causes are compared by key words: a key word
has four letters or more and is none of COMMON, and its first four letters count ("chilled" is "chilling"); a cause
of the table must share one with the source's causes. Sentences were compared by eye: "value" holds everything that
the source says of the matter, "beside" the words of the table that were held against it. Other words in the table
must be held against the reading anew, and no figure may stand in them that was not read. A reading that differs stays
in the file as it was read; settled_differences.json says why the table keeps its own figure.
"""

import re
from dataclasses import replace
from typing import Any

import pytest

from broodline.trade.sources import WITHOUT_TEXT
from tests.server.trade.second_reading import (
    PACKAGED,
    READ,
    READ_ONCE,
    SETTLED,
    agrees,
    as_one_figure,
    as_packaged,
    key_words,
    only_read_figures,
    packaged,
)


@pytest.mark.parametrize("row", READ, ids=[row["cell"] for row in READ])
def test_table_equals_the_second_reading(row: dict[str, Any]) -> None:
    cell = packaged()[row["cell"]]
    assert cell.unit == row["unit"]
    if row["cell"] in SETTLED:
        assert not agrees(cell, row), "nothing is left to settle here"
        assert cell.why
    else:
        assert agrees(cell, row), (cell.value, row["value"], row["where"], row.get("note"))


def test_every_figure_with_a_text_behind_it_was_read_twice_or_waits_by_name() -> None:
    """What fails here came to the tables later: have somebody read it from its source without sight of the table."""
    published = {
        path
        for path, cell in packaged().items()
        if cell.status in ("seen", "mirror", "memory") and cell.source not in WITHOUT_TEXT
    }
    read = [row["cell"] for row in READ]
    assert len(read) == len(set(read))
    assert sorted(published - set(read)) == sorted(READ_ONCE)


def test_every_sentence_was_held_against_its_reading() -> None:
    sentences = {
        path for path, cell in packaged().items() if cell.unit == "sentence" and cell.source not in WITHOUT_TEXT
    }
    assert sentences
    held = {row["cell"] for row in READ if row["unit"] == "sentence" and row.get("beside")}
    assert sentences - READ_ONCE == held


@pytest.mark.parametrize(("words", "same"), [("Still air: leave it closed.", True), ("Still air: open it.", False)])
def test_a_sentence_in_other_words_must_be_read_anew(words: str, same: bool) -> None:
    row = next(row for row in READ if row["cell"] == "guidance/power_cut_still/0")
    assert agrees(replace(packaged()[row["cell"]], value=words), row) is same


def test_a_sentence_holds_no_figure_that_was_not_read() -> None:
    row = next(row for row in READ if row["cell"] == "guidance/hot/1")
    words = "45 minutes at 105 °F harm many embryos."
    assert not agrees(replace(packaged()[row["cell"]], value=words), {**row, "beside": words})


@pytest.mark.parametrize(
    ("told", "same"), [("81.3 %", True), ("81 %", True), ("81.2 %", False), ("82 % (81 %)", False)]
)
def test_a_figure_of_a_sentence_may_be_rounded(told: str, same: bool) -> None:
    assert only_read_figures(told, "81.28 % of fertile, 14 days") is same


@pytest.mark.parametrize("path", [path for path, cell in packaged().items() if "°" in str(cell.value)])
def test_the_other_degrees_in_brackets_are_the_same_heat(path: str) -> None:
    """°C = (°F - 32) x 5/9, to the last digit written."""
    pairs = re.findall(r"([\d.]+(?: to [\d.]+)?) °([FC]) \(([\d.]+(?: to [\d.]+)?) °[FC]\)", packaged()[path].value)
    assert len(pairs) == packaged()[path].value.count("("), "degrees without their conversion"
    for first, scale, second in pairs:
        for one, other in zip(first.split(" to "), second.split(" to "), strict=True):
            turned = (float(one) - 32) * 5 / 9 if scale == "F" else float(one) * 9 / 5 + 32
            assert turned == pytest.approx(float(other), abs=0.05 if "." in other else 0.5)


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
