"""Milestones over tests/vectors/calendar.json, which pwa/src/trade/calendar.ts reads too."""

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.calendar import (
    Milestone,
    day_of,
    incubation_calendar,
    instant_text,
    later,
    local_date,
    local_time,
    milestone,
    zone_named,
)
from broodline.trade.species import SPECIES

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "calendar.json").read_text(encoding="utf-8"))["cases"]


def shown(stone: Milestone, zone: str) -> dict[str, Any]:
    return {"day": stone.day, "at": instant_text(stone.at), "date": local_date(stone.at, zone)}


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    given_ = case["in"]
    set_at = datetime.fromisoformat(given_["set_at"])
    plan = incubation_calendar(SPECIES[given_["species"]], set_at, given_["lockdown_day"])
    assert case["out"] == {
        "day": day_of(set_at, datetime.fromisoformat(given_["now"])),
        "candle": [shown(stone, given_["zone"]) for stone in plan.candle],
        "lockdown": shown(plan.lockdown, given_["zone"]),
        "hatch_from": shown(plan.hatch_from, given_["zone"]),
        "hatch_to": shown(plan.hatch_to, given_["zone"]),
    }


@given(
    st.timedeltas(timedelta(0), timedelta(days=40_000)).map(lambda since: datetime(1990, 1, 1, tzinfo=UTC) + since),
    st.integers(0, 60),
    st.timedeltas(timedelta(0), timedelta(hours=24) - timedelta(microseconds=1)),
)
def test_each_day_runs_from_its_beginning_for_24_hours(set_at: datetime, day: int, into: timedelta) -> None:
    assert day_of(set_at, milestone(set_at, day).at + into) == day


def test_transfer_at_444_hours_is_day_18_and_a_half() -> None:
    """Trial timeline of Ozlu 2021 (Poult. Sci.): transfer at 444 h = day 18.5."""
    set_at = datetime(2026, 3, 1, tzinfo=UTC)
    assert milestone(set_at, 18.5).at - set_at == timedelta(hours=444)


def test_days_beyond_the_calendar_are_held_at_its_end() -> None:
    last = datetime(9999, 12, 30, tzinfo=UTC)
    assert milestone(last, 30).at == last
    assert milestone(datetime(2026, 3, 1, tzinfo=UTC), 1e14).at == last
    assert milestone(datetime(2026, 3, 1, tzinfo=UTC), 3e6).at == last
    assert later(datetime(1, 1, 2, tzinfo=UTC), timedelta(days=-9)) == datetime(1, 1, 2, tzinfo=UTC)
    for zone in ("Pacific/Kiritimati", "Etc/GMT+12"):
        assert local_date(last, zone).startswith("9999-12-")


@pytest.mark.parametrize("name", ["Nowhere/Atall", "", "../etc/passwd", "Europe", "a\0b"])
def test_zone_that_is_none(name: str) -> None:
    assert zone_named(name) is None
    assert local_date(datetime(2026, 3, 1, 23, 30, tzinfo=UTC), name) == "2026-03-01"


def test_time_of_day_is_that_of_the_zone() -> None:
    assert local_time(datetime(2026, 3, 29, 0, 59, tzinfo=UTC), "Europe/Dublin") == "2026-03-29 00:59"
    assert local_time(datetime(2026, 3, 29, 1, 1, tzinfo=UTC), "Europe/Dublin") == "2026-03-29 02:01"
    assert local_time(datetime(2026, 3, 1, 23, 30, tzinfo=UTC), "Nowhere/Atall") == "2026-03-01 23:30"
