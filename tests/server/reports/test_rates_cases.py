"""Rates of small books worked out by hand, over the cases that the phone reads too."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.first_week import left_within_seven_days
from broodline.reports.rates import Outcome, add_outcomes, lot_outcome, setting_outcome

VECTORS = Path(__file__).parents[2] / "vectors" / "rates.json"
CASES = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]


def told(outcome: Outcome, left: dict[str, int] | None = None) -> dict[str, Any]:
    rates = (outcome.fertility, outcome.hatch_of_set, outcome.hatch_of_fertile, outcome.alive_7d)
    names = ("fertility", "hatch_of_set", "hatch_of_fertile", "alive_7d")
    return {
        **{name: [rate.k, rate.n] for name, rate in zip(names, rates, strict=True)},
        "fertility": [outcome.fertility.k, outcome.fertility.n, outcome.fertility.basis],
        "open": [rate.open for rate in rates],
        "deaths": {name: n for name, n in outcome.deaths.items() if n},
        "sound": outcome.sound,
        "so_far": outcome.hatch_of_set.so_far,
        "left": left or {},
    }


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold([read_entry(document) for document in case["in"]["entries"]])
    now_ms = round(datetime.fromisoformat(case["in"]["now"]).timestamp() * 1000)
    (setting,) = standing.settings.values()
    lots = [standing.lots[name] for name in setting.lots]
    outcomes = [lot_outcome(lot, setting, now_ms) for lot in lots]
    together = [*setting.among, *(move for lot in lots for move in lot.moves)]
    found = {
        "lots": [
            told(outcome, dict(left_within_seven_days(lot.moves, now_ms)[0]))
            for lot, outcome in zip(lots, outcomes, strict=True)
        ],
        "setting": told(setting_outcome(setting, lots, now_ms), dict(left_within_seven_days(together, now_ms)[0])),
        "all": told(add_outcomes(outcomes)),
    }
    assert found == case["out"]
