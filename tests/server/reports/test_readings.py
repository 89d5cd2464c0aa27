"""Readings of the air and checks of gauges, over the vectors shared with the phone."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.readings import air_of

VECTORS = Path(__file__).parents[2] / "vectors" / "readings.json"
CASES = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]


def near(value: float | None) -> Any:
    return None if value is None else pytest.approx(value)


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    setting = standing.settings[case["in"]["setting"]]
    air = air_of(standing, setting, [standing.lots[lot] for lot in setting.lots])
    out = case["out"]
    assert [(one.at_ms, one.phase, one.dry_c, one.off_c, one.humidity_pct, one.corrected) for one in air.readings] == [
        (at_ms, phase, near(dry), near(off), near(humidity), corrected)
        for at_ms, phase, dry, off, humidity, corrected in out["readings"]
    ]
    assert [[one.place, one.name, one.checked_ms, one.off] for one in air.gauges] == [
        [place, name, checked_ms, near(off)] for place, name, checked_ms, off in out["gauges"]
    ]
    assert sorted(problem.code for problem in air.problems) == out["problems"]
    assert air.last_humidity_pct == near(out["last_humidity_pct"])
    assert air.humidity_checked is out["humidity_checked"]


def test_the_last_check_before_a_reading_puts_it_right_by_hand() -> None:
    """37.5 and 30 read, checks found +0.3 and -0.5, later +0.0: 37.5 C / 30 C, then 37.8 / 29.5, then 37.5 / 29.5."""
    case = next(one for one in CASES if one["name"].startswith("checks put later readings right"))
    assert [round(reading[2], 6) for reading in case["out"]["readings"]] == [37.5, 37.8, 37.5]
