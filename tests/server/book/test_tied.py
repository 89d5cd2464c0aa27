"""Lots that chicks of unknown family tie together, over the cases that the phone reads too."""

import json
from collections import Counter
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.gone_birds import gone_birds
from broodline.book.tied import most_lost, tied_to
from broodline.book.wire import read_entry
from broodline.reports.first_week import left_within_seven_days
from broodline.trade.calendar import local_date

VECTORS = Path(__file__).parents[2] / "vectors" / "tied.json"
CASES = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold([read_entry(document) for document in case["in"]["entries"]])
    now_ms = round(datetime.fromisoformat(case["in"]["now"]).timestamp() * 1000)
    found = {}
    for name, lot in standing.lots.items():
        tied = tied_to(standing, lot)
        left, n = left_within_seven_days(tied.moves, now_ms)
        gone = gone_birds(standing, local_date(datetime.fromisoformat(case["in"]["now"]), standing.keeper.zone))
        found[name] = {
            "with": [one.id for one in tied.lots],
            "stages": {stage: n for stage, n in tied.stages.items() if n},
            "adds_up": tied.adds_up,
            "can_be": tied.can_be(lot),
            "perhaps": most_lost(lot, tied),
            "first_week": [left["died"] + left["missing"], n] if tied.adds_up else None,
            "gone": Counter(bird.how for bird in gone.get(name, ())),
        }
    assert found == case["out"]
