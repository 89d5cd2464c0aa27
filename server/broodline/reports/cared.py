"""What a `care` makes done: a task at its place, on its date or later.

A care dated later than the day it was written puts the task off, and does so for the birds that stood there then: who
says "not for these birds" says nothing of the next batch in that brooder. Mirrored in pwa/src/book/cared.ts over
tests/vectors/agenda.json.
"""

from collections.abc import Iterator, Sequence
from typing import cast

from broodline.book.bodies_rooms import Care
from broodline.book.moments import instant, moment_ms
from broodline.book.standing import Standing
from broodline.book.whereabouts import stays_of
from broodline.reports.agenda_task import Task
from broodline.trade.calendar import local_date


def is_cared(standing: Standing, task: Task) -> bool:
    """Whether a care, at the task's place or for all places, makes it done."""
    return any(on >= task.since for on in cared_on(standing, task.task, task.place, task.lots))


def cared_on(standing: Standing, task: str, place: str, lots: Sequence[str]) -> Iterator[str]:
    """The dates on which a care for a task was noted at a place, or for all places, as it counts for these lots.

    lots: none for a task that is not about chicks; a date ahead counts only where chicks of each stood there when it
    was written.
    """
    zone = standing.keeper.zone
    for head in standing.heads.get("care", ()):
        care = cast(Care, head.body)
        at = None if care.place is None else standing.root_of.get(care.place, care.place)
        if care.task != task or at not in (None, place):
            continue
        on = care.on if len(care.on) == 10 else local_date(instant(moment_ms(care.on)), zone)
        is_put_off = at is not None and on > local_date(instant(head.at_ms), zone)
        if not is_put_off or all(_stood(standing, lot, place, head.at_ms) for lot in lots):
            yield on


def _stood(standing: Standing, name: str, place: str, at_ms: int) -> bool:
    lot = standing.lots.get(name)
    return lot is not None and any(stay.place == place and stay.covers(at_ms) for stay in stays_of(standing, lot))
