"""Whatever stands in a book, every report answers, in plain JSON without NaN, and the same for any order of entries."""

import json
from datetime import UTC, datetime
from random import Random

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.errors import EnvelopeError
from broodline.reports.agenda import due
from broodline.reports.rates import hatched_of_set, lot_outcome
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.server.book.odd_books import odd_book

NOW = datetime(2026, 3, 25, 12, tzinfo=UTC)


def readable(seed: int) -> list:
    found = []
    for document in odd_book(seed):
        try:
            found.append(read_entry(document))
        except EnvelopeError:
            continue
    return found


def answers(entries: list) -> str:
    standing = fold(entries)
    told = {
        "due": due(standing, NOW),
        "settings": [setting_report(standing, setting, NOW) for setting in sorted(standing.settings)],
        "seasons": [season_report(standing, year, NOW) for year in (0, 1, 1899, 2025, 2026, 9998, 9999)],
    }
    return json.dumps(told, allow_nan=False, sort_keys=True)


@pytest.mark.parametrize("seed", range(80))
def test_reports_answer_for_odd_books(seed: int) -> None:
    entries = readable(seed)
    told = answers(entries)
    shuffled = list(entries)
    Random(seed).shuffle(shuffled)
    if len({entry.id for entry in entries}) == len(entries):
        assert answers(shuffled) == told


def test_what_hatched_of_those_set_is_that_of_the_whole_outcome() -> None:
    """The short way to two of its figures, for where a book's every lot is asked."""
    seen = set()
    for seed in range(80):
        standing = fold(readable(seed))
        for lot in standing.lots.values():
            if lot.setting is not None:
                whole = lot_outcome(lot, standing.settings[lot.setting], round(NOW.timestamp() * 1000))
                seen.add(whole.sound)
                expected = (whole.hatch_of_set.k, whole.hatch_of_set.n) if whole.sound else None
                assert hatched_of_set(lot) == expected
    assert seen == {True, False}
