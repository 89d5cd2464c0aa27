"""Figures of pens from the table of matings: the cases that the phone's own figures are held to as well."""

import json
from typing import Any

import pytest

from broodline.reports.flock_pedigree import FlockBird
from broodline.reports.mating_pens import mean_of, not_known_of, pen_json
from broodline.reports.parents_of import Parents
from tests.house.tree import ROOT

CASES = json.loads((ROOT / "tests" / "vectors" / "pairing.json").read_text(encoding="utf-8"))
TABLE = {(row["sire"], row["dam"]): row for row in CASES["table"]}
BIRDS = {
    name: FlockBird(name, name, "unknown", None, None, "here", "Marsh Speckle", (), Parents((), False, ()))
    for pair in TABLE
    for name in pair
}


def figures(pen: dict[str, Any]) -> dict[str, Any]:
    shares = pen.get("shares", {})
    sires, dams = ({bird: shares.get(bird, 1 / len(pen[side])) for bird in pen[side]} for side in ("sires", "dams"))
    return pen_json(sires, dams, TABLE, BIRDS)


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: case["name"])
def test_a_pen(case: dict[str, Any]) -> None:
    found = figures(case["pen"])
    out = {**case["out"]}
    assert found["cautions"] == out.pop("cautions")
    assert {name: found[name] for name in out} == pytest.approx(out)


@pytest.mark.parametrize("case", CASES["means"], ids=lambda case: case["name"])
def test_all_pens(case: dict[str, Any]) -> None:
    pens = [figures(pen) for pen in case["pens"]]
    told = case["out"] or {"mean": None, "not_known": None}
    assert mean_of(pens) == (told["mean"] if told["mean"] is None else pytest.approx(told["mean"]))
    assert not_known_of(pens) == told["not_known"]
