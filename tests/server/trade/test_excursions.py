"""Spells outside the band, by hand and against a walk through time in small steps."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.climate import AMBER_ABOVE_C, AMBER_BELOW_C, LONGEST_GAP_H, RED_BELOW_C
from broodline.trade.excursions import Reading, excursions, hours_beyond, hours_known, suspected_cuts

F = 1 / 1.8


def told(*readings: tuple[float, float]) -> list[tuple[str, float, float, str, bool]]:
    """readings: (hour, °F from the target)."""
    found = excursions([Reading(at, off * F) for at, off in readings])
    return [(one.way, round(one.from_h, 3), round(one.until_h, 3), one.tier, one.still) for one in found]


def test_check_34_as_spells() -> None:
    """104 °F is red, 101.5 none, 96.5 amber, target 99.5 °F (tiers are our judgement)."""
    assert told((0, 0), (1, 4.5), (2, 0))[0][3] == "red"
    assert told((0, 0), (1, 2.0), (2, 0)) == []
    assert told((0, 0), (1, -3.0), (2, 0))[0][3] == "amber"


def test_a_spell_begins_and_ends_where_the_line_leaves_the_band() -> None:
    assert told((0, 0), (4, 5), (8, 0)) == [("hot", 2, 6, "red", False)]
    assert told((0, 0), (5, -2.6), (6, -3), (7, -2.4)) == [("cold", 4.808, 6.833, "amber", False)]


def test_a_chill_is_red_once_it_lasts_over_an_hour() -> None:
    assert told((0, 0), (0.5, -4.5), (1, 0)) == [("cold", 0.278, 0.722, "amber", False)]
    assert told((0, 0), (1, -8), (2, -8), (3, 0)) == [("cold", 0.312, 2.688, "red", False)]


def test_gaps_hide_beginning_and_end() -> None:
    assert told((0, 0), (20, 3), (40, 0)) == [("hot", 20, 20, "amber", True)]
    assert told((20, 3)) == [("hot", 20, 20, "amber", True)]
    assert told((0, 3), (5, 3), (30, 3)) == [("hot", 0, 5, "amber", True), ("hot", 30, 30, "amber", True)]


def test_from_hot_to_cold_is_two_spells() -> None:
    assert told((0, 5), (4, -5)) == [("hot", 0, 1, "red", False), ("cold", 3, 4, "amber", True)]


def test_a_fall_after_a_silence_looks_like_a_power_cut() -> None:
    usual = [(hour / 6, 0.0) for hour in range(13)]
    fallen = [Reading(at, off * F) for at, off in [*usual, (4.5, -9.0), (4.7, -6.0), (5.0, -1.0)]]
    found = suspected_cuts(fallen)
    assert [(one.from_h, one.until_h, round(one.fell_c * 1.8, 6)) for one in found] == [(2, 4.5, 9)]
    assert suspected_cuts([Reading(at, off * F) for at, off in [*usual, (2.1, -9.0)]]) == [], "no silence: a lid"
    assert suspected_cuts([Reading(at, off * F) for at, off in [*usual, (4.5, -3.0)]]) == [], "no fall to speak of"
    assert suspected_cuts([Reading(at, off * F) for at, off in [*usual, (2.1, -4), (4.5, -9)]]) == [], "cold before"
    assert suspected_cuts(fallen[-2:]) == []


def test_a_silence_of_just_twice_the_usual_spacing_is_one() -> None:
    """Readings every hour: two hours without one are a silence, a quarter less is none."""
    usual = [Reading(hour, 0.0) for hour in range(5)]
    assert [one.from_h for one in suspected_cuts([*usual, Reading(6, -9 * F)])] == [4]
    assert suspected_cuts([*usual, Reading(5.75, -9 * F)]) == []


@given(st.lists(st.tuples(st.integers(1, 60), st.integers(-80, 80)), min_size=1, max_size=9))
def test_spells_are_those_of_a_walk_through_time(steps: list[tuple[int, int]]) -> None:
    """steps: (quarters of an hour since the last reading, tenths of °F from the target)."""
    readings: list[Reading] = []
    quarter = 0
    for gap, off in steps:
        quarter += gap
        readings.append(Reading(quarter / 4, off / 10 * F))
    out = known = cold = 0.0
    for one, other in itertools.pairwise(readings):
        if other.at_h - one.at_h <= LONGEST_GAP_H:
            for step in range(200):
                part = (step + 0.5) / 200
                off_c = one.off_c + part * (other.off_c - one.off_c)
                hours = (other.at_h - one.at_h) / 200
                known += hours
                out += hours * (off_c > AMBER_ABOVE_C or off_c < -AMBER_BELOW_C)
                cold += hours * (off_c < -RED_BELOW_C)
    found = excursions(readings)
    assert hours_known(readings) == pytest.approx(known)
    assert sum(one.until_h - one.from_h for one in found) == pytest.approx(out, abs=0.02 * known + 1e-9)
    assert hours_beyond(readings, AMBER_ABOVE_C, AMBER_BELOW_C) == pytest.approx(out, abs=0.02 * known + 1e-9)
    assert hours_beyond(readings, 1e9, RED_BELOW_C) == pytest.approx(cold, abs=0.02 * known + 1e-9)
    outside = [one for one in readings if one.off_c > AMBER_ABOVE_C + 1e-6 or one.off_c < -AMBER_BELOW_C - 1e-6]
    assert bool(found) == bool(outside)
    assert all(any(spell.from_h <= one.at_h <= spell.until_h for spell in found) for one in outside)
