"""The days of pens, in the cases that the phone's own reading of them is held to as well."""

import json
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.pens import pens_of
from tests.house.tree import ROOT

CASES = json.loads((ROOT / "tests" / "vectors" / "pen_stays.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_the_days_of_pens(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    found = [[stay.since, stay.until, not stay.dams] for stay in pens_of(standing).stays]
    assert found == case["out"]
