"""Reminders by themselves: each minute, what the agenda asks for is sent to the devices that asked to be told.

A reminder is written down only after the push service took it. Killed in between, it is sent again under the same
topic and tag, so that a phone still shows it once.
"""

import asyncio
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from typing import Any, Protocol, TypeVar

from anyio import to_thread

from broodline.book.standing import Standing
from broodline.errors import BroodlineError
from broodline.jobs.own_faults import place_of
from broodline.jobs.push_sender import Outcome
from broodline.reports.notice import Notice, notices, payload
from broodline.reports.wishes import read_wishes
from broodline.store.reminders import Subscription
from broodline.store.shelf import Shelf

T = TypeVar("T")

EVERY_S = 60.0
FIRST_WAIT_MS, LONGEST_WAIT_MS = 60_000, 3_600_000  # between tries: doubled each time


class Send(Protocol):
    """How a message leaves; see PushSender.send."""

    def __call__(
        self, to: Subscription, message: Mapping[str, Any], *, topic: str, lasts_s: int, urgent: bool = False
    ) -> Outcome: ...


class Look(Protocol):
    """Asks something of the book as it stands, off the event loop."""

    async def __call__(self, question: Callable[[Shelf, Standing], T]) -> T: ...


class Write(Protocol):
    """Does work with the shelf that holds the pen, off the event loop."""

    async def __call__(self, work: Callable[[Shelf], T]) -> T: ...


@dataclass(frozen=True, slots=True)
class Waiting:
    """A reminder that is to be sent to a device."""

    to: Subscription
    notice: Notice


def waiting_for(shelf: Shelf, standing: Standing, now: datetime) -> list[Waiting]:
    """All reminders that are to be sent at `now`."""
    found: list[Waiting] = []
    for to in shelf.reminders.to_remind():
        wishes = read_wishes(json.loads(to.wishes))
        since = datetime.fromtimestamp(to.since_ms / 1000, UTC)
        settled = shelf.reminders.settled(to.device)
        found += [Waiting(to, notice) for notice in notices(standing, now, wishes, since, settled)]
    return found


def send_one(send: Send, waiting: Waiting) -> Outcome:
    """Send a reminder. All but alarms may wait until the phone wakes by itself: they come hours before a loss."""
    notice = waiting.notice
    return send(
        waiting.to,
        payload(notice, waiting.to.origin),
        topic=notice.topic,
        lasts_s=notice.lasts_s,
        urgent=notice.urgent,
    )


def note_outcome(shelf: Shelf, waiting: Waiting, outcome: Outcome) -> None:
    """Write down what became of a reminder, so that it is neither sent twice nor tried too often."""
    to, key = waiting.to, waiting.notice.key
    wait_ms = min(FIRST_WAIT_MS * 2 ** min(shelf.reminders.tries(to.device, key), 10), LONGEST_WAIT_MS)
    if not outcome.ended:  # it waits for the phone to come back under a new address
        shelf.reminders.note(
            to.device, key, outcome.words, done=not outcome.again, wait_ms=wait_ms if outcome.again else 0
        )
    shelf.reminders.told(to, outcome.words, well=outcome.sent, ended=outcome.ended)


async def remind(look: Look, write: Write, send: Send, now: datetime) -> list[tuple[Waiting, Outcome]]:
    """Send all that waits, one after another. A device whose address ended is not written to again."""
    if not await write(lambda shelf: shelf.reminders.to_remind()):
        return []
    told: list[tuple[Waiting, Outcome]] = []
    ended: set[str] = set()
    for waiting in await look(lambda shelf, standing: waiting_for(shelf, standing, now)):
        if waiting.to.device not in ended:
            outcome = await _sent(send, waiting)
            await write(partial(note_outcome, waiting=waiting, outcome=outcome))
            told.append((waiting, outcome))
            if outcome.ended:
                ended.add(waiting.to.device)
    return told


async def _sent(send: Send, waiting: Waiting) -> Outcome:
    """What became of it. A fault of our own with one device's reminder is no reason to leave out the others'."""
    try:
        return await to_thread.run_sync(send_one, send, waiting, abandon_on_cancel=True)
    except Exception as fault:
        words = f"A fault in Broodline: {place_of(fault)}."
        return Outcome(None, sent=False, ended=False, again=True, words=words)


async def remind_by_itself(
    look: Look, write: Write, send: Send, clock: Callable[[], datetime], tell: Callable[[str], None]
) -> None:
    """Look every minute what is to be sent, until cancelled. What goes wrong is told and never stops the server: it
    would take the book with it."""
    while True:
        try:
            for waiting, outcome in await remind(look, write, send, clock()):
                if not outcome.sent:
                    tell(f"A reminder for {waiting.to.name} was not sent. {outcome.words}")
        except BroodlineError as fault:
            tell(f"No reminders at this moment: {fault.message} {fault.remedy}")
        except Exception as fault:  # a fault of our own; its words may quote the book, so only its place is told
            tell(f"No reminders at this moment: {place_of(fault)}. They are tried again in a minute.")
        await asyncio.sleep(EVERY_S)
