"""Who is kept here at the end of a day, counted by hand in cases that the phone is held to as well."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.kept_here import kept_here
from broodline.book.wire import read_entry

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "kept_here.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    found = {day: kept_here(standing, day) for day in case["out"]}
    assert {day: [len(kept.birds), kept.chicks] for day, kept in found.items()} == case["out"]
