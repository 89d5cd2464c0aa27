"""The desk: what every route works with, and on which thread.

One writer thread with a connection of its own, because the book has one pen; one thread for reading, one for
folding and reports, so that a long fold holds up neither a push nor a pull.
"""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from anyio import CapacityLimiter, to_thread

from broodline.book.standing import Standing
from broodline.jobs.kept_answers import Kept, KeptAnswers, Report
from broodline.jobs.push_sender import PushSender
from broodline.settings import Settings
from broodline.store.shelf import Shelf
from broodline.sync.book_of import BookOf
from broodline.sync.pairing import Tries

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Thread:
    """A shelf, and the rule that one thread at a time works with it."""

    shelf: Shelf
    turn: CapacityLimiter

    async def run(self, work: Callable[[Shelf], T]) -> T:
        """Do the work off the event loop, after the work that came before."""
        return await to_thread.run_sync(work, self.shelf, limiter=self.turn)


@dataclass(frozen=True, slots=True)
class Desk:
    """Everything a route may use."""

    settings: Settings
    clock: Callable[[], datetime]
    random_bytes: Callable[[int], bytes]
    writer: Thread
    reader: Thread
    reports: Thread
    book: BookOf
    kept: KeptAnswers
    news: asyncio.Event  # set when entries came
    tries: Tries
    push: PushSender
    trials: Tries  # of reminders, by device
    heard: Tries  # readings, by thermometer
    unheard: Tries  # wrong tokens of thermometers, by address

    def now_ms(self) -> int:
        """The clock, in milliseconds since 1970."""
        return int(self.clock().timestamp() * 1000)

    async def answer(self, holding: str, question: Callable[[Standing], T]) -> tuple[T, int]:
        """Ask something of the book as it stands; also says how many entries that saw."""

        def ask(_: Shelf) -> tuple[T, int]:
            standing, entries = self.book.standing(holding)
            return question(standing), entries

        return await self.reports.run(ask)

    async def report(self, holding: str, question: str, report: Report) -> Kept:
        """A report's answer, kept until something is written. question: what tells it from others."""

        def ask(_: Shelf) -> Kept:
            standing, entries = self.book.standing(holding)
            return self.kept.answer(question, report, standing, entries, self.clock())

        return await self.reports.run(ask)

    async def renew(self, question: str, report: Report) -> None:
        """Work out a report before anyone asks."""
        holding = await self.reports.run(lambda shelf: shelf.holdings.current().id)
        await self.report(holding, question, report)

    async def look(self, question: Callable[[Shelf, Standing], T]) -> T:
        """Ask something of the book as it stands and of what lies beside it."""

        def ask(shelf: Shelf) -> T:
            standing, _ = self.book.standing(shelf.holdings.current().id)
            return question(shelf, standing)

        return await self.reports.run(ask)

    def close(self) -> None:
        """Give all connections back; the writer last, so that it is the one that tidies the file."""
        for thread in (self.reports, self.reader, self.writer):
            thread.shelf.close()
