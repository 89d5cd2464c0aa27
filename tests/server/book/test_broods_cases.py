"""When chicks came out and where they are, worked out by hand: the cases that the phone's tests read too."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.hatch_day import hatched_ms
from broodline.book.moments import moment_ms
from broodline.book.whereabouts import broods
from broodline.book.wire import read_entry

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "broods.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    out = case["out"]
    assert {lot: hatched_ms(standing, standing.lots[lot]) for lot in out["hatched"]} == {
        lot: None if at is None else moment_ms(at) for lot, at in out["hatched"].items()
    }
    assert [[one.lot, one.place, dict(one.stages)] for one in broods(standing)] == out["broods"]
