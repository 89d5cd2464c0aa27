"""Findings against published bounds, by the exact binomial tail."""

import json
from math import comb
from pathlib import Path
from typing import Any

import pytest

from broodline.trade.breakout import death_class, findings, lethal_pairings, short_by

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "breakout.json").read_text(encoding="utf-8"))["cases"]


def codes(stages: dict[str, int], examined: int, fertile: int) -> list[str]:
    return [one.code for one in findings(stages, examined=examined, fertile=fertile)]


def test_tail_is_the_sum_of_its_terms() -> None:
    """UC 8127: investigate if over 3 % die in the first 3 days."""
    found = findings({"blood_ring": 2, "dead_early": 2}, examined=45, fertile=40)
    assert [(one.code, one.k, one.n) for one in found] == [("dead_early", 4, 40)]
    tail = sum(comb(40, k) * 0.03**k * 0.97 ** (40 - k) for k in range(4, 41))
    assert found[0].p == pytest.approx(tail)
    assert found[0].bound.source == "UC8127"
    assert {cause.source for cause in found[0].likely} >= {"UC8127", "UF1112"}


def test_published_flocks_show_nothing() -> None:
    """Siruvidai (IJCMAS 2020;9(8):1893): early 2.57, mid .84, late 1.31 % of fertile; Kuurman 2001: infertile .213."""
    siruvidai = {"dead_early": 257, "dead_mid": 84, "dead_late": 131}
    assert codes(siruvidai, examined=11_000, fertile=10_000) == []
    assert codes({"infertile": 213}, examined=1000, fertile=787) == []


def test_stored_eggs_of_an_old_flock_show_early_deaths() -> None:
    """PMC7921000 T2, 14 days stored, % of fertile: early 10.16, mid 1.27, late 5.43."""
    assert codes({"dead_early": 102, "dead_mid": 13, "dead_late": 54}, 1100, 1000) == ["dead_early"]


def test_late_deaths_and_clears() -> None:
    """UC 8127: investigate if over 8 % die after transfer."""
    assert codes({"dead_late": 4, "dead_internal_pip": 3, "dead_external_pip": 1}, 44, 40) == ["dead_after_transfer"]
    assert codes({"clear": 12, "infertile": 8}, 40, 20) == ["no_development"]
    assert codes({"dead_mid": 3}, 44, 40) == ["dead_mid"]


def test_nothing_of_nothing() -> None:
    assert codes({}, 0, 0) == []
    assert codes({"dead_early": 4}, 0, 0) == []
    assert codes({"dead_early": -4}, 40, 40) == []


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_classes_by_day(case: dict[str, Any]) -> None:
    """Chicken by weeks (from memory); other species by thirds (Taylor and Francis 9781315371047-26)."""
    assert death_class(**case["in"]) == case["out"]


def test_deaths_of_siruvidai_close() -> None:
    """Check 22 (IJCMAS 2020;9(8):1893): early 2.57 + mid .84 + late 1.31 = 4.72, with 95.28 hatched to 100."""
    assert short_by(4.72, [2.57, 0.84, 1.31]) == pytest.approx(0, abs=0.01)
    assert short_by(100, [95.28, 2.57, 0.84, 1.31]) == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize(
    "parts", [(81.60, 10.16, 1.27, 5.43, 1.30, 0.23), (79.24, 7.90, 2.10, 6.68, 2.39, 1.68)], ids=["young", "old"]
)
def test_stored_flocks_close(parts: tuple[float, ...]) -> None:
    """Check 23 (PMC7921000 T2): hatched, early, mid, late, cull, contaminated."""
    assert short_by(100, parts) == pytest.approx(0, abs=0.1)


def test_published_rows_that_do_not_close_say_by_how_much() -> None:
    """PMC10446711, best group by 12-hour bands: sums to 99.13. Ogunwande 2015: 59.7 hatched, 23.9 and 17.9 lost."""
    assert short_by(100, [18.05, 77.61, 2.48, 0.99]) == pytest.approx(0.87)
    assert short_by(100, [59.7, 23.9, 17.9]) == pytest.approx(-1.5)


def test_two_phases_of_death() -> None:
    """Check 30 (Kuurman 2001): infertile .213 + dead .086 leave .701; of the deaths .77 about day 2.6, .23 day 17.4."""
    assert short_by(1, [0.213, 0.086]) == pytest.approx(0.701)
    assert short_by(1, [0.77, 0.23]) == pytest.approx(0)
    assert (death_class("chicken", 2.6), death_class("chicken", 17.4)) == ("dead_early", "dead_late")


def test_lethal_pairings() -> None:
    """Creeper on creeper, ear tuft on ear tuft (United Peafowl Association article)."""
    assert [one.trait for one in lethal_pairings(["Ear-Tuft"], ["ear tufts"])] == ["ear tuft"]
    found = lethal_pairings(["creeper"], ["Short Leg"])
    assert [(one.trait, one.share.value if one.share else None) for one in found] == [("creeper", 0.25)]
    assert lethal_pairings(["creeper"], ["ear tuft"]) == []
    own = lethal_pairings(["a"], ["A"], [["a", "a", "why"], ["b", "a", "not here"]])
    assert [(one.trait, one.share, one.why) for one in own] == [("a", None, "why")]
    assert [one.trait for one in lethal_pairings(["b"], ["a"], [["a", "b", "why"]])] == ["a and b"]
