"""Eggs brought up from lower ground, over the cases that the phone reads too: published ones, the rest by hand."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.trade.thin_air import brought_up, brought_up_words

CASES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parents[2] / "vectors" / "thin_air.json").read_text(encoding="utf-8")
)["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_what_eggs_from_lower_ground_need(case: dict[str, Any]) -> None:
    found = brought_up(**case["in"])
    if case["out"] is None:
        assert found is None
        return
    assert found is not None
    for name, figure in case["out"].items():
        assert getattr(found, name) == pytest.approx(figure, abs=case["within"]), name


def test_words_hold_every_figure() -> None:
    found = brought_up(1500, 55)
    assert found is not None
    words = brought_up_words(found, "1500 m")
    assert "at 1500 m they lose 20 % more water than there: what 55 % humidity does at the sea takes 62 % here" in words
    assert "{" not in words


def test_no_flock_lives_that_high() -> None:
    with pytest.raises(ValueError, match="no height a flock is kept at"):
        brought_up(12_000, 55)
