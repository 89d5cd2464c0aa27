"""The hatch model against published fits of two open data sets, and against plain integration.

orob2: seeds on 21 plates, Crowder 1978, Appl. Statist. 27:34-37 (R package aod). cbpp: disease in 15 herds, Lesnoff et
al. 2004, Prev. Vet. Med. 62:101-117 (R package lme4). Both are printed in their packages' handbooks.
"""

from math import log
from typing import Any

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize
from scipy.special import expit, xlogy
from scipy.stats import binom, norm

from broodline.trade.hatch_model import Eggs, HatchModel, fit_hatch_model

# (germinated, seeds) of each plate: seed O75 on bean and on cucumber, seed O73 on bean and on cucumber
OROB2 = {
    (1, 0): [(10, 39), (23, 62), (23, 81), (26, 51), (17, 39)],
    (1, 1): [(5, 6), (53, 74), (55, 72), (32, 51), (46, 79), (10, 13)],
    (0, 0): [(8, 16), (10, 30), (8, 28), (23, 45), (0, 4)],
    (0, 1): [(3, 12), (22, 41), (15, 30), (32, 51), (3, 7)],
}
# (ill, size) of each herd in up to four periods
CBPP = [
    [(2, 14), (3, 12), (4, 9), (0, 5)], [(3, 22), (1, 18), (1, 21)], [(8, 22), (2, 16), (0, 16), (2, 20)],
    [(2, 10), (0, 10), (2, 9), (0, 6)], [(5, 18), (0, 25), (0, 24), (1, 4)], [(3, 17), (0, 17), (0, 18), (1, 20)],
    [(8, 16), (1, 10), (3, 9), (0, 5)], [(12, 34)], [(2, 9), (0, 6), (0, 8), (0, 6)],
    [(1, 22), (1, 22), (0, 18), (2, 22)], [(0, 25), (5, 27), (3, 22), (1, 22)], [(2, 10), (1, 8), (0, 6), (0, 5)],
    [(1, 21), (2, 24), (0, 19), (0, 23)], [(11, 19), (0, 2), (0, 3), (0, 2)], [(1, 19), (1, 15), (1, 15), (0, 15)],
]  # fmt: skip


def orob2(of: str) -> list[Eggs]:
    """Every plate its own family, or all plates one."""
    plates = [(k, n, (seed, root, seed * root)) for (seed, root), rows in OROB2.items() for k, n in rows]
    return [Eggs(of.format(number), "all", *plate) for number, plate in enumerate(plates)]


def cbpp() -> list[Eggs]:
    return [
        Eggs(f"{herd:02}", "all", k, n, tuple(float(period == one) for one in (1, 2, 3)))
        for herd, rows in enumerate(CBPP)
        for period, (k, n) in enumerate(rows)
    ]


def effects(found: HatchModel) -> tuple[float, ...]:
    """As the handbooks print them: the intercept, here the one setting's, and then the rest."""
    return (found.settings["all"], *found.held)


def test_the_data_are_whole() -> None:
    """orob2: 21 plates, 424 of 831; cbpp: 56 rows, 99 of 842."""
    assert [sum(one.hatched for one in orob2("{}")), sum(one.n for one in orob2("{}"))] == [424, 831]
    assert [len(cbpp()), sum(one.hatched for one in cbpp()), sum(one.n for one in cbpp())] == [56, 99, 842]


def test_orob2_without_spread_is_the_plain_regression() -> None:
    """R glm and statsmodels GLM: -.41224 -.14593 .54008 .77810, errors .18418 .22317 .24981 .30643, deviance 33.27779
    on 17 df, Pearson 31.65114, so that the spread left over is 1.86183. One family for all plates has sd 0.
    """
    eggs = orob2("all")
    found = fit_hatch_model(eggs)
    assert found is not None
    assert found.sd == 0
    assert effects(found) == pytest.approx((-0.41224, -0.14593, 0.54008, 0.77810), abs=1e-5)
    assert found.errors == pytest.approx((0.22317, 0.24981, 0.30643), abs=1e-5)  # the first, .18418, is the setting's
    best = sum(
        float(xlogy(one.hatched, one.hatched / one.n) + xlogy(one.n - one.hatched, 1 - one.hatched / one.n))
        for one in eggs
    )
    shares = [float(expit(found.line(one))) for one in eggs]
    seen = sum(
        float(xlogy(one.hatched, p) + xlogy(one.n - one.hatched, 1 - p)) for one, p in zip(eggs, shares, strict=True)
    )
    assert 2 * (best - seen) == pytest.approx(33.27779, abs=1e-5)
    pearson = sum((one.hatched - one.n * p) ** 2 / (one.n * p * (1 - p)) for one, p in zip(eggs, shares, strict=True))
    assert pearson / 17 == pytest.approx(1.86183, abs=1e-5)


def test_orob2_with_random_plates() -> None:
    """glmer with nAGQ = 25: -.45144 -.09699 .52658 .81046, sigma .23624."""
    found = fit_hatch_model(orob2("{:02}"))
    assert found is not None
    assert effects(found) == pytest.approx((-0.45144, -0.09699, 0.52658, 0.81046), abs=1e-4)
    assert found.sd == pytest.approx(0.23624, abs=1e-4)
    assert found.log_likelihood > found.flat


def test_cbpp() -> None:
    """glmer with nAGQ = 25: -1.39922 -.99141 -1.12781 -1.57948, sigma of the herds .64752."""
    found = fit_hatch_model(cbpp())
    assert found is not None
    assert effects(found) == pytest.approx((-1.39922, -0.99141, -1.12781, -1.57948), abs=1e-4)
    assert found.sd == pytest.approx(0.64752, abs=1e-4)


flocks = st.lists(
    st.tuples(st.sampled_from(["rowan", "birch", "hazel"]), st.integers(0, 15), st.integers(1, 15), st.booleans()),
    min_size=3,
    max_size=8,
)


A_LOWER_HILL_BESIDE_THE_EDGE = [
    ("rowan", 0, 2, False), ("rowan", 9, 14, False), ("birch", 0, 1, True), ("birch", 0, 11, True),
    ("birch", 2, 2, False), ("birch", 10, 15, True), ("birch", 12, 14, False),
]  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(flocks)
@example(A_LOWER_HILL_BESIDE_THE_EDGE)
def test_the_likelihood_is_the_plain_integral(rows: list[tuple[str, int, int, bool]]) -> None:
    """For each family the likelihood of its eggs, added up over 8,001 values of its own part."""
    eggs = [Eggs(family, "all", min(k, n), n, (float(second),)) for family, k, n, second in rows]
    found = fit_hatch_model(eggs)
    if found is None:
        return
    assert found.log_likelihood >= found.flat - 1e-9
    parts = np.linspace(-10, 10, 8001)
    total = 0.0
    for family in {one.family for one in eggs}:
        chance = norm.pdf(parts)
        for one in (one for one in eggs if one.family == family):
            chance = chance * binom.pmf(one.hatched, one.n, expit(found.line(one) + found.sd * parts))
        total += log(chance.sum() * (parts[1] - parts[0]))
    # Families set wide apart make the integrand lopsided, and 25 nodes then miss a little more of it.
    assert found.log_likelihood == pytest.approx(total, abs=1e-3 if found.sd < 2 else 1e-2)


def test_small_families_are_drawn_further_to_the_rest() -> None:
    eggs = [
        Eggs("rowan", "all", 27, 30), Eggs("birch", "all", 12, 30), Eggs("hazel", "all", 3, 3),
    ]  # fmt: skip
    found = fit_hatch_model(eggs)
    assert found is not None
    by_name = found.families
    assert list(by_name) == ["birch", "hazel", "rowan"]
    assert by_name["birch"].effect < 0 < by_name["hazel"].effect < by_name["rowan"].effect
    assert by_name["hazel"].sd > by_name["rowan"].sd


@pytest.mark.parametrize(
    "eggs",
    [
        [],
        [Eggs("rowan", "one", 3, 5, (2.0,)), Eggs("birch", "one", 2, 5, (2.0,))],  # what is held never differs
        [Eggs("rowan", "one", 3, 5, (2.0,)), Eggs("birch", "two", 2, 5, (4.0,))],  # it goes with the settings
        [Eggs("rowan", "one", 3, 5, (1.0, 2.0)), Eggs("birch", "one", 2, 5, (3.0, 6.0))],  # two that say the same
        [Eggs("rowan", "one", 5, 5), Eggs("birch", "two", 2, 5)],  # a setting of which all hatched
    ],
)
def test_what_cannot_be_told_is_not(eggs: list[Eggs]) -> None:
    assert fit_hatch_model(eggs) is None


def test_families_that_share_nothing_are_held_apart_within_reason() -> None:
    """10 of 10 beside 0 of 10: the likelihood climbs with the spread for ever; it is held at a sd of 3."""
    found = fit_hatch_model([Eggs("rowan", "all", 10, 10), Eggs("birch", "all", 0, 10)])
    assert found is not None
    assert found.sd == 3
    assert found.families["rowan"].effect == pytest.approx(-found.families["birch"].effect, abs=1e-3)


def many_settings(seed: int, sd: float, settings: int = 8) -> list[Eggs]:
    """Ten families, three of them in each setting, which costs them 0.05 for each day of keeping."""
    chance = np.random.default_rng(seed)
    families, own = chance.normal(0, sd, 10), chance.normal(0.8, 0.4, settings)
    eggs = []
    for setting in range(settings):
        for family in chance.choice(10, 3, replace=False):
            n, days = int(chance.integers(5, 40)), float(chance.integers(0, 8))
            k = int(chance.binomial(n, expit(own[setting] + families[family] - 0.05 * days)))
            eggs.append(Eggs(f"line {family}", f"{setting:02}", k, n, (days,)))
    return eggs


def plain_log_likelihood(eggs: list[Eggs], settings: dict[str, float], held: float, sd: float) -> float:
    """Each family's eggs added up over 141 values of its own part, nothing else taken into account."""
    parts = np.linspace(-7, 7, 141)
    total = 0.0
    for family in {one.family for one in eggs}:
        logs = norm.logpdf(parts)
        for one in (one for one in eggs if one.family == family):
            line = settings[one.setting] + held * one.held[0] + sd * parts
            logs = logs + binom.logpmf(one.hatched, one.n, expit(line))
        total += float(np.logaddexp.reduce(logs)) + log(parts[1] - parts[0])
    return total


@pytest.mark.parametrize(("seed", "sd"), [(4, 1.0), (2, 0.3)])
def test_with_many_settings_no_step_beside_the_top_is_higher(seed: int, sd: float) -> None:
    """And the standard error of a day is what the plain likelihood falls by, with all else following: a rise of half
    a unit lies one standard error away (Wilks 1938), near enough where the counts are many.
    """
    eggs = many_settings(seed, sd)
    found = fit_hatch_model(eggs)
    assert found is not None
    assert found.sd > 0
    top = plain_log_likelihood(eggs, dict(found.settings), found.held[0], found.sd)
    assert found.log_likelihood == pytest.approx(top, abs=1e-6)
    for step in (-1e-3, 1e-3):
        moved = {name: value + step for name, value in found.settings.items()}
        assert plain_log_likelihood(eggs, moved, found.held[0], found.sd) < top
        assert plain_log_likelihood(eggs, dict(found.settings), found.held[0] + step, found.sd) < top
        assert plain_log_likelihood(eggs, dict(found.settings), found.held[0], found.sd + step) < top

    profile = [profiled(eggs, found, found.held[0] + side * found.errors[0]) for side in (-1, 1)]
    assert [top - one for one in profile] == pytest.approx([0.5, 0.5], abs=0.02)


def profiled(eggs: list[Eggs], found: HatchModel, held: float) -> float:
    """The highest plain likelihood with the effect of what is held kept where it is."""
    names = list(found.settings)

    def fall(at: Any) -> float:
        return -plain_log_likelihood(eggs, dict(zip(names, at, strict=False)), held, at[-1])

    start = np.array([*(found.settings[name] for name in names), found.sd])
    return -float(minimize(fall, start, method="L-BFGS-B", options={"maxiter": 60}).fun)
