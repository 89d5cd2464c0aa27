"""Answers of reports, kept with what they saw: after a sync those it concerns are worked out anew, before anybody asks.

Which those are is seen, not declared: `watched` notes what a report reads. An answer that a sync does not concern is
left as it is, and says how many entries the book has now; the hours that went by count when somebody asks again.
Kept in memory: a start works them out in seconds, and a stored one could be of an older book or an older Broodline.
"""

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from broodline.book.standing import Standing
from broodline.errors import BroodlineError, NotFound
from broodline.jobs.own_faults import place_of
from broodline.jobs.watched import Reading, watched

Report = Callable[[Standing, datetime], dict[str, Any]]

MOST_KEPT = 16
GOOD_FOR = timedelta(minutes=5)  # days and hours since go on without anything being written
SETTLE_S = 1.0  # a phone brings what it holds in many requests, one after the other


@dataclass(frozen=True, slots=True)
class Kept:
    """An answer, the moment it was worked out for, and how many entries it holds for.

    standing: what those add up to. reading: what the report read of it.
    """

    report: Report
    answer: dict[str, Any]
    at: datetime
    entries: int
    standing: Standing
    reading: Reading

    def holds_for(self, standing: Standing) -> bool:
        """Whether nothing that it was worked out from has changed."""
        return self.standing is standing or self.reading.holds_for(standing)

    def is_good(self, standing: Standing, now: datetime) -> bool:
        """Whether it need not be worked out anew."""
        return timedelta(0) <= now - self.at < GOOD_FOR and self.holds_for(standing)


class KeptAnswers:
    """The last answers by question. Its owner lets one thread at a time ask."""

    def __init__(self) -> None:
        self._kept: dict[str, Kept] = {}

    def answer(self, question: str, report: Report, standing: Standing, entries: int, now: datetime) -> Kept:
        """The answer as it stands; worked out where something was written or time went on. Raises as the report."""
        kept = self._kept.pop(question, None)
        if kept is None or not kept.is_good(standing, now):
            reading = watched(standing)
            kept = Kept(report, report(reading.standing, now), now, entries, standing, reading)
        kept = replace(kept, entries=entries, standing=standing)
        self._kept[question] = kept  # at the end: what was asked last is forgotten last
        while len(self._kept) > MOST_KEPT:
            self._kept.pop(next(iter(self._kept)))
        return kept

    def concerned(self, standing: Standing) -> list[tuple[str, Report]]:
        """What was asked and is answered otherwise, or may be, since the book stands like this; the latest first."""
        asked = reversed(list(self._kept.items()))
        return [(question, kept.report) for question, kept in asked if not kept.holds_for(standing)]

    def knows(self, question: str) -> bool:
        """Whether it was asked lately."""
        return question in self._kept


async def keep_answers_fresh(
    news: asyncio.Event,
    waiting: Callable[[], Awaitable[Sequence[tuple[str, Report]]]],
    renew: Callable[[str, Report], Awaitable[object]],
    tell: Callable[[str], None],
    settle_s: float = SETTLE_S,
) -> None:
    """After each sync work out what `waiting` names, one after another, until cancelled. news: set by each sync.

    Where more comes meanwhile the rest waits for it. What cannot be answered any longer is left out.
    """
    while True:
        await news.wait()
        news.clear()
        await asyncio.sleep(settle_s)
        if news.is_set():
            continue
        try:
            await _renew_all(news, await waiting(), renew)
        except BroodlineError as fault:
            tell(f"No reports were made ready: {fault.message} {fault.remedy}")
        except Exception as fault:  # of our own: it must not take the server with it, and whoever asks meets it again
            tell(f"No reports were made ready: {place_of(fault)}.")


async def _renew_all(
    news: asyncio.Event, questions: Sequence[tuple[str, Report]], renew: Callable[[str, Report], Awaitable[object]]
) -> None:
    for question, report in questions:
        if news.is_set():
            break
        with suppress(NotFound):  # a setting that was taken back since: whoever asks again is told
            await renew(question, report)
