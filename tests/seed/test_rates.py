"""Rates as counted egg by egg, the agenda as the calendar says, the known truth inside the intervals."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

import pytest

from broodline.book.fold import fold
from broodline.reports.agenda import due
from broodline.reports.rates import lot_outcome, setting_outcome
from seed_scenario.flock import FAMILIES
from tests.seed.told import expected

NOON = time(12)
RATES = ("fertility", "hatch_of_set", "hatch_of_fertile", "alive_7d")


def truth(family: str, rate: str) -> float:
    return float(getattr(FAMILIES[family], rate))


@pytest.fixture(scope="module")
def now(told):
    return datetime.combine(told.today, NOON, ZoneInfo("Europe/Dublin"))


@pytest.fixture(scope="module")
def outcomes(told, now):
    """The reports' rates, by the scenario's names of lots."""
    standing = fold(told.entries)
    now_ms = int(now.timestamp() * 1000)
    found = {}
    for name, counted in expected("standing")["lots"].items():
        lot = standing.lots[told.ids[name]]
        found[name] = lot_outcome(lot, standing.settings[told.ids[counted["setting"]]], now_ms)
    return found


@pytest.mark.parametrize("name", expected("season")["lots"])
def test_rates_of_every_lot_are_those_counted_egg_by_egg(outcomes, name):
    found = {rate: {"k": getattr(outcomes[name], rate).k, "n": getattr(outcomes[name], rate).n} for rate in RATES}
    assert found == expected("season")["lots"][name]


def test_birch_by_hand(outcomes):
    # 18 eggs: 8 infertile and 2 that died early lay among those taken out and opened; 8 hatched, all lived.
    birch = outcomes["first_hatch_birch"]
    assert (birch.fertility.k, birch.fertility.n, birch.fertility.basis) == (10, 18, "opened")
    assert (birch.hatch_of_set.k, birch.hatch_of_set.n) == (8, 18)
    assert (birch.hatch_of_fertile.k, birch.hatch_of_fertile.n) == (8, 10)
    assert birch.deaths == {"early": 2, "mid": 0, "late": 0, "internal_pip": 0, "external_pip": 0, "unopened": 0}


def test_alder_by_hand(outcomes):
    # 18 eggs, one cracked and so not examined: 17, of which 1 infertile. 13 hatched, 2 died in the first week.
    alder = outcomes["first_hatch_alder"]
    assert (alder.fertility.k, alder.fertility.n) == (16, 17)
    assert (alder.hatch_of_set.k, alder.hatch_of_set.n) == (13, 18)
    assert (alder.alive_7d.k, alder.alive_7d.n) == (11, 13)


def test_the_finished_setting_by_hand(told, now):
    standing = fold(told.entries)
    setting = standing.settings[told.ids["first_hatch"]]
    whole = setting_outcome(setting, [standing.lots[lot] for lot in setting.lots], int(now.timestamp() * 1000))
    # 24 + 20 + 18 + 18 eggs, 1 cracked; 4 + 3 + 1 + 8 infertile; 17 + 13 + 13 + 8 hatched.
    assert (whole.fertility.k, whole.fertility.n) == (63, 79)
    assert (whole.hatch_of_set.k, whole.hatch_of_set.n) == (51, 80)
    assert not whole.fertility.so_far


def test_an_egg_of_unknown_family_stands_beside_both(outcomes):
    assert [outcomes[f"near_lockdown_{family}"].fertility.open for family in ("hazel", "birch")] == [1, 1]


def test_what_is_due_is_what_the_story_promises(told, now):
    tasks = {(task["setting"], task["task"], task["due"]): task["n"] for task in due(fold(told.entries), now)["tasks"]}
    for setting, promised in expected("agenda").items():
        day = told.today.fromordinal(told.today.toordinal() + promised["on_day"]).isoformat()
        assert tasks.get((told.ids[setting], promised["what"], day)) == promised["n"], setting
    of_finished = {(what, day) for setting, what, day in tasks if setting == told.ids["first_hatch"]}
    next_look = told.today.fromordinal(told.today.toordinal() + 4).isoformat()
    assert of_finished == {("rings", next_look)}, "the finished setting asks for no more than its rings"


def test_the_known_truth_of_this_season_lies_inside_its_intervals(outcomes):
    inside = {
        (family, rate): found.low <= truth(family, rate) <= found.high
        for family in ("rowan", "hazel", "alder", "birch")
        for rate in RATES[:3]
        for found in (getattr(outcomes[f"first_hatch_{family}"], rate),)
    }
    assert len(inside) == 12
    assert sum(inside.values()) == 12, inside
