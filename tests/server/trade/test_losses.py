"""Losses against the published bounds, and days on which too many died."""

import json
from math import comb, log
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.losses import (
    alarm_from,
    alarms,
    daily_share,
    expected_alive,
    first_week,
    first_week_cells,
    first_week_words,
    later_alive_cell,
    later_alive_pct,
    words_for_age,
)

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "losses.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    asked, out = case["in"], case["out"]
    bounds = first_week_cells(asked["species"])
    assert first_week(asked["species"], asked["died"], asked["n"]) == out["where"]
    assert (None if bounds is None else [bound.value for bound in bounds]) == out["bounds"]
    assert first_week_words(asked["species"]) == out["words"]
    assert words_for_age(asked["age_days"]).value == out["think_of"]


@pytest.mark.parametrize(
    ("species", "died", "n", "where"),
    [
        ("chicken", 1, 60, "above"),  # 1.67 % > 1 %
        ("chicken", 1, 120, "between"),  # 0.83 %
        ("chicken", 1, 200, "below"),  # 0.5 %
        ("turkey", 1, 50, "between"),  # 2 % between 1.5 and 2.5
        ("goose", 1, 50, None),
        ("chicken", 0, 0, None),
    ],
)
def test_first_week_against_its_bounds(species: str, died: int, n: int, where: str | None) -> None:
    """First week at most 1 %, ideally 0.75 % (textbook p. 118); turkeys 1.5 and 2.5 % (Aziz)."""
    assert first_week(species, died, n) == where


def test_background_loss() -> None:
    """Bell 1999: 0.05 to 0.20 % a week; 17 weeks at 0.20 leave 96.65 %, at 0.05 99.15 %."""
    assert expected_alive(0.2, 17) == pytest.approx(96.65, abs=5e-3)
    assert expected_alive(0.05, 17) == pytest.approx(99.15, abs=5e-3)


def quiet(n: int, *deaths: tuple[int, int], days: int = 30) -> list[tuple[int, int, int]]:
    """Every day with the chicks of its morning and those that died on it."""
    found = []
    for day in range(days):
        died = sum(many for on, many in deaths if on == day)
        found.append((day, n, died))
        n -= died
    return found


def test_one_death_is_no_pattern() -> None:
    assert alarms("chicken", quiet(12, (9, 1))) == []
    assert alarms("duck", quiet(12, (9, 1))) == []
    assert alarms("chicken", []) == []


def test_a_day_too_many() -> None:
    """Three of 60 on a day on which 1/7 % is expected: by the exact binomial rarer than 0.27 %; two are not."""
    (found,) = alarms("chicken", quiet(60, (3, 3)))
    share = 0.01 / 7
    exact = 1 - sum(comb(60, k) * share**k * (1 - share) ** (60 - k) for k in range(3))
    assert (found.kind, found.on_day, found.died) == ("day", 3, 3)
    assert found.p == pytest.approx(exact)
    assert found.expected == pytest.approx(60 * share)
    assert alarms("chicken", quiet(60, (3, 2))) == []


def test_a_slow_rise_is_told_once_with_what_it_summed() -> None:
    """One a day from day 12 on, of 40: 0.2 % a week is expected, 0.0114 a day; the third death reaches 2.5."""
    (found,) = alarms("chicken", quiet(40, (12, 1), (13, 1), (14, 1)))
    assert (found.kind, found.on_day, found.died, found.p) == ("sum", 14, 3, None)
    assert found.expected == pytest.approx((40 + 39 + 38) * 0.002 / 7)


def test_after_an_alarm_the_sum_begins_anew() -> None:
    days = [day for day in range(12, 20)]
    found = alarms("chicken", quiet(60, *((day, 1) for day in days)))
    assert [alarm.on_day for alarm in found] == [14, 17]


def test_a_day_that_fills_the_sum_alone_is_told() -> None:
    """180 poults, 2.5 % a week: four dead are not rarer than 0.27 %, but reach 2.5 by themselves. Three and three do so
    on the second day. Tails by the exact binomial.
    """
    (found,) = alarms("turkey", quiet(180, (2, 4), (3, 2), days=7))
    share = 0.025 / 7
    exact = 1 - sum(comb(180, k) * share**k * (1 - share) ** (180 - k) for k in range(4))
    assert exact > 0.0027
    assert (found.kind, found.on_day, found.died) == ("day", 2, 4)
    assert found.p == pytest.approx(exact)
    assert [(one.kind, one.on_day, one.died) for one in alarms("turkey", quiet(180, (2, 3), (3, 3), days=7))] == [
        ("sum", 3, 6)
    ]
    assert [one.kind for one in alarms("chicken", quiet(60, (3, 3)))] == ["day"], "told once, not again as its sum"


@given(st.sampled_from(["chicken", "turkey"]), st.integers(5, 400), st.lists(st.integers(0, 7), max_size=40))
def test_whenever_the_sum_reaches_its_limit_that_day_alarms(species: str, n: int, deaths: list[int]) -> None:
    """The sum of Lucas (1985) walked here day by day: k of a threefold rise, 2 / ln 3; 2.5 alarms, then anew."""
    days = quiet(n, *((day, died) for day, died in enumerate(deaths) if died <= n - sum(deaths[:day])), days=40)
    told = {one.on_day for one in alarms(species, days)}
    total = 0.0
    for day, alive, died in days:
        share = daily_share(species, day)
        if share is not None and alive > 0:
            total = max(0.0, total + died - 2 / log(3) * alive * share)
            if total >= 2.5:
                assert day in told
                total = 0.0


@given(st.sampled_from(["chicken", "turkey", "goose"]), st.integers(1, 400), st.integers(0, 30))
def test_what_would_be_too_many_in_a_day_is_what_alarms(species: str, n: int, day: int) -> None:
    some = alarm_from(species, day, n)
    least = min(died for died in [*range(1, n + 1), n + 1] if died > n or alarms(species, [(day, n, died)]))
    assert (n + 1 if some is None else some) == least


def test_without_a_published_figure_only_days_of_several_deaths_are_told() -> None:
    (found,) = alarms("goose", quiet(20, (2, 2), (9, 1)))
    assert (found.on_day, found.died, found.expected, found.p) == (2, 2, None, None)
    assert daily_share("goose", 1) is None
    assert daily_share("turkey", 20) is None, "no weekly figure of turkeys was read"


def test_what_to_think_of_by_age() -> None:
    assert [words_for_age(day).value.partition(":")[0] for day in (-3, 0, 3, 6, 7, 100)] == [
        "Days 1 and 2", "Days 1 and 2", "Days 3 to 6", "Days 3 to 6", "After day 7", "After day 7",
    ]  # fmt: skip


def test_how_many_live_on_after_the_first_week() -> None:
    """Bell: layer pullets lose 0.05 to 0.2 % a week; from a week old to 18 weeks, taken off week by week."""
    worst = best = 100.0
    for _ in range(17):
        worst, best = worst * 0.998, best * 0.9995
    assert later_alive_pct("chicken", 18 * 7) == pytest.approx((worst, best))
    assert later_alive_pct("chicken", 14) == pytest.approx((99.8, 99.95))
    assert later_alive_pct("chicken", 13) is None, "the second week is not over"
    assert later_alive_pct("duck", 18 * 7) is None, "no weekly figure of ducks was read"
    assert later_alive_cell("chicken").source == "BELL99"
