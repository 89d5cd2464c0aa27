"""Who is kept here at the end of a day, counted by hand in cases that the phone is held to as well."""

import json
from collections import Counter
from itertools import chain
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.kept_here import found_again, kept_here
from broodline.book.moments import instant
from broodline.book.wire import read_entry
from broodline.trade.calendar import local_date

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "kept_here.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    found = {day: kept_here(standing, day) for day in case["out"]}
    assert {day: [len(kept.birds), kept.chicks] for day, kept in found.items()} == case["out"]
    apart = [*(lot.moves for lot in standing.lots.values()), *(one.among for one in standing.settings.values())]
    back = Counter[str]()
    for move in chain.from_iterable(map(found_again, apart)):
        back[local_date(instant(move.at_ms), standing.keeper.zone)] += move.n
    assert back == case.get("found", {})
