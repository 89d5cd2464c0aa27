"""What marked chicks ask for: webs looked at again after two weeks, rings looked at weekly until legs are grown.

Mirrored in pwa/src/book/chores-marks.ts over tests/vectors/agenda.json.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import cast

from broodline.book.bodies_flock import Came
from broodline.book.marks import Mark, living, marks_of_lots
from broodline.book.moments import day_of_text, instant
from broodline.book.standing import Lot, Standing
from broodline.book.tied import tied_to
from broodline.reports.agenda_task import Task
from broodline.reports.cared import cared_on
from broodline.trade.calendar import day_of, later, local_date
from broodline.trade.sources import cell, read_table

_DAYS = {name: int(cell(written).value) for name, written in read_table("agenda")["days"].items()}
_LAST = date(9999, 12, 29)


def mark_tasks(standing: Standing) -> Iterator[Task]:
    """All that marked chicks still ask for, however far ahead."""
    for name, marks in marks_of_lots(standing.heads).items():
        lot = standing.lots.get(name)
        if lot is None or living(lot) <= 0 or (lot.setting is None and not lot.came):
            continue
        yield from _webs(standing, lot, marks)
        yield from _rings(standing, lot, marks)


def _webs(standing: Standing, lot: Lot, marks: list[Mark]) -> Iterator[Task]:
    """The oldest marks that nobody looked at again; a look up to two days early counts.

    A look that names a pattern is one at the chicks that bear it; one that names none is at all of the lot.
    """
    after = _DAYS["webs_again"]
    seen = [(frozenset(mark.webs), _day(standing, mark)) for mark in marks if mark.recheck]
    early = timedelta(days=after - _DAYS["done_early"])
    open_ = [
        mark
        for mark in marks
        if mark.webs
        and not mark.recheck
        and not any(
            webs in (frozenset(), frozenset(mark.webs)) and day >= _plus(_day(standing, mark), early)
            for webs, day in seen
        )
    ]
    if open_:
        n = sum(living(lot) if mark.n is None else mark.n for mark in open_)
        yield _task(standing, lot, "webs_again", open_[0], _day(standing, open_[0]), after, min(n, living(lot)))


def _rings(standing: Standing, lot: Lot, marks: list[Mark]) -> Iterator[Task]:
    """A week after the rings went on, were changed or were last looked at."""
    rings = [mark for mark in marks if mark.ring]
    n = living(lot) - max(0, lot.stages.get("flock", 0))
    if not rings or n <= 0:
        return
    days = [_day(standing, mark) for mark in rings]
    place = place_of_chicks(standing, lot)
    cared = cared_on(standing, "rings", place, (lot.id,))
    days += [day_of_text(on) for on in cared if on >= days[0].isoformat()]
    if (max(days) - days[0]).days + _DAYS["rings_every"] <= _DAYS["rings_until"]:
        after = (max(days) - days[0]).days + _DAYS["rings_every"]
        yield _task(standing, lot, "rings", rings[0], days[0], after, n)


def _task(standing: Standing, lot: Lot, task: str, mark: Mark, day: date, after: int, n: int) -> Task:
    due = _plus(day, timedelta(days=after)).isoformat()
    since = due if task == "rings" else _plus(day, timedelta(days=after - _DAYS["done_early"])).isoformat()
    written = day_of_text(local_date(instant(mark.at_ms), standing.keeper.zone))
    at = later(instant(mark.at_ms), day - written + timedelta(days=after))
    begun = _begun(standing, lot)
    return Task(
        task,
        lot.setting,
        place_of_chicks(standing, lot),
        at,
        0 if begun is None else day_of(begun, at),
        n if tied_to(standing, lot).can_be(lot) else None,
        since,
        due,
        lot.id,
        lots=(lot.id,),
    )


def _plus(day: date, span: timedelta) -> date:
    return min(day, _LAST - span) + span


def _day(standing: Standing, mark: Mark) -> date:
    """The date the chicks were marked, in the holding's zone."""
    return day_of_text(mark.on or local_date(instant(mark.at_ms), standing.keeper.zone))


def _begun(standing: Standing, lot: Lot) -> datetime | None:
    """When the eggs were set, or the chicks came."""
    if lot.setting is not None:
        return instant(standing.settings[lot.setting].set_at_ms)
    bodies = [cast(Came, head.body) for head in standing.heads.get("came", ())]
    days = [day_of_text(body.on) for body in bodies if body.lot == lot.id]
    return None if not days else datetime(days[0].year, days[0].month, days[0].day, tzinfo=UTC)


def place_of_chicks(standing: Standing, lot: Lot) -> str:
    """Where chicks of the lot were last brought; until then, where they hatched."""
    for move in reversed(lot.moves):
        if move.place is not None and move.target in ("brooding", "growing", "flock"):
            return standing.root_of.get(move.place, move.place)
    if lot.setting is None:
        return ""
    setting = standing.settings[lot.setting]
    return setting.locked_place or setting.place
