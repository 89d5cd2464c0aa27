"""Findings against published bounds, by the exact binomial tail."""

from math import comb

import pytest

from broodline.trade.breakout import findings


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
