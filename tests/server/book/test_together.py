"""Whom marks do not tell apart, and ages far apart, over the cases that the phone reads too."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.together import ages_apart, alike_pairs
from broodline.book.wire import read_entry

VECTORS = Path(__file__).parents[2] / "vectors" / "together.json"
CASES = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold([read_entry(document) for document in case["in"]["entries"]])
    now_ms = round(datetime.fromisoformat(case["in"]["now"]).timestamp() * 1000)
    lots = case["in"]["lots"]
    found = {
        "alike": [list(pair) for pair in alike_pairs(standing, lots)],
        "apart": ages_apart(standing, lots, now_ms),
    }
    assert found == case["out"]
