"""Where an entry came from, told by its id, in cases that the phone is held to as well."""

import json
from pathlib import Path

import pytest

from broodline.book.imported import is_imported, is_unnamed_machine

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "imported.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case):
    found = {"imported": is_imported(case["in"]), "unnamed_machine": is_unnamed_machine(case["in"])}
    assert found == case["out"]
