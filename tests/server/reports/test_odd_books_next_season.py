"""Whatever stands in a book, the reports for next season answer too, the same for any order of entries."""

import json
from random import Random

import pytest

from broodline.book.fold import fold
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.matings import Wishes, matings_report
from broodline.reports.plan import Wanted, plan_report
from tests.server.reports.test_odd_books import NOW, readable


def answers(entries: list) -> str:
    standing = fold(entries)
    told = {
        "family": family_report(standing, NOW),
        "flock": flock_report(standing, NOW),
        "matings": matings_report(standing, Wishes(), NOW),
        "choose": choosing_report(standing, Keeping(), NOW),
        "plan": plan_report(standing, Wanted(), NOW),
    }
    return json.dumps(told, allow_nan=False, sort_keys=True)


@pytest.mark.parametrize("seed", range(12))
def test_reports_of_next_season_answer_for_odd_books(seed: int) -> None:
    entries = readable(seed)
    told = answers(entries)
    shuffled = list(entries)
    Random(seed).shuffle(shuffled)
    if len({entry.id for entry in entries}) == len(entries):
        assert answers(shuffled) == told
