"""Settings that are planned and not begun, over the shared vectors: asked for until a setting names them."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.agenda import due

VECTORS = Path(__file__).parents[2] / "vectors" / "agenda.json"
PLANS = json.loads(VECTORS.read_text(encoding="utf-8"))["plans"]


@pytest.mark.parametrize("case", PLANS, ids=[case["name"] for case in PLANS])
def test_planned_settings(case: dict[str, Any]) -> None:
    standing = fold([read_entry(document) for document in case["in"]["entries"]])
    tasks = due(standing, datetime.fromisoformat(case["in"]["now"]))["tasks"]
    planned = [task for task in tasks if task["task"] == "set"]
    bound = ("due", "at", "place", "plan", "overdue", "words")
    assert [{name: task[name] for name in bound} for task in planned] == case["out"]
    assert {(task["setting"], task["lot"], task["n"]) for task in planned} <= {(None, None, 0)}
