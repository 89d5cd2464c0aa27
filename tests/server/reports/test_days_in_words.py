"""No sentence of a report has a day as programs write it: a keeper reads "1 May 2026", or "May 1, 2026"."""

import re
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.book.wire import read_entry
from broodline.reports.agenda import due
from broodline.reports.away_sheet import away_sheet
from broodline.reports.plan import plan_report, wanted_of
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.server.book.odd_books import odd_book
from tests.server.exchange.told_books import NOW, demo_book

ISO = re.compile(r"\d{4}-\d\d-\d\d")


def sentences(part: Any) -> list[str]:
    if isinstance(part, dict):
        return [found for below in part.values() for found in sentences(below)]
    if isinstance(part, list | tuple):
        return [found for below in part for found in sentences(below)]
    return [part] if isinstance(part, str) and " " in part else []


def told(standing: Standing) -> list[str]:
    wanted = wanted_of({})
    assert wanted is not None
    reports = [
        season_report(standing, 2026, NOW),
        due(standing, NOW),
        plan_report(standing, wanted, NOW),
        away_sheet(standing, NOW.date(), NOW.date(), NOW),
        *(setting_report(standing, one, NOW) for one in standing.settings),
    ]
    return sentences([*reports, [one.as_json() for one in standing.problems]])


@pytest.mark.parametrize("seed", [None, 3, 7, 11])
def test_days_in_sentences_are_in_words(seed: int | None) -> None:
    standing = demo_book() if seed is None else fold([read_entry(one) for one in odd_book(seed)])
    found = told(standing)
    assert len(found) > 10
    assert [one for one in found if ISO.search(one)] == []
    if seed is None:
        assert any(re.search(r"\b\d{1,2} [A-Z][a-z]{2} 20\d\d\b", one) for one in found)
