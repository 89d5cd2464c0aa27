"""Birds and chicks that came and are kept apart: on the day that was written with them they may join, if all are well.

Mirrored in pwa/src/book/chores-apart.ts over tests/vectors/agenda.json. A batch is asked for at its place; single birds
that may join on one day are one task, at no place, since nobody writes where one bird is. Two weeks later, or when they
are gone, nothing is asked.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from operator import itemgetter
from typing import cast

from broodline.book.birds import bird_id, birds_of
from broodline.book.bodies_flock import Came
from broodline.book.hatch_day import noon_ms, whole_days
from broodline.book.marks import living
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Standing
from broodline.book.tied import tied_to
from broodline.reports.agenda_marks import place_of_chicks
from broodline.reports.agenda_task import Task
from broodline.reports.brood_course import DAYS
from broodline.trade.calendar import local_date


def apart_tasks(standing: Standing, now: datetime) -> Iterator[Task]:
    """All that is kept apart, however long still; of several days written for the same ones the last."""
    today = local_date(now, standing.keeper.zone)
    lots: dict[str, tuple[str, str]] = {}
    alone: dict[str, tuple[str, str]] = {}
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.apart_until is None or came.apart_until < came.on:
            continue
        told = (came.apart_until, came.on)
        if came.lot is not None:
            lots[came.lot] = max(lots.get(came.lot, told), told, key=itemgetter(0))
        elif came.bird is not None:
            bird = bird_id(standing, came.bird)
            alone[bird] = max(alone.get(bird, told), told, key=itemgetter(0))
    for name, (until, on) in lots.items():
        lot = standing.lots.get(name)
        if lot is not None and living(lot) > 0 and _is_open(until, today):
            n = living(lot) if tied_to(standing, lot).can_be(lot) else None
            yield _task(until, on, n, place_of_chicks(standing, lot), name)
    birds = birds_of(standing, today) if alone else {}
    here = [told for bird, told in alone.items() if bird in birds and birds[bird].where == "here"]
    for until, n in Counter(until for until, _ in here).items():
        if _is_open(until, today):
            yield _task(until, [on for day, on in here if day == until][-1], n, "", None)


def _is_open(until: str, today: str) -> bool:
    days: int = DAYS["apart_open"]
    return noon_ms(today) <= noon_ms(until) + days * DAY_MS


def _task(until: str, on: str, n: int | None, place: str, lot: str | None) -> Task:
    at_ms = noon_ms(until)
    return Task("apart", None, place, instant(at_ms), whole_days(noon_ms(on), at_ms), n, until, until, lot=lot)
