"""What a brood asks for in things: pans, feeders raised, grit, rings of the next size, a dust bath.

Mirrored in pwa/src/book/brood-kit.ts over tests/vectors/agenda.json.
"""

from collections.abc import Iterator
from dataclasses import replace

from broodline.book.hatch_day import noon_ms, whole_days
from broodline.book.marks import marks_of_lots
from broodline.book.moments import DAY_MS, instant
from broodline.reports.agenda_task import Task
from broodline.reports.brood_course import DAYS, Course
from broodline.reports.cared import cared_on
from broodline.trade.calendar import local_date
from broodline.trade.feeding import grit_mm


def kit_of_lot(course: Course) -> Iterator[Task]:
    """A pan instead of paper, grit of the next size, rings of the next size. Nothing but rings under a hen."""
    if course.role != "hen":
        first, last = DAYS["pan"]
        if course.age < last:
            yield course.task("pan", first)
        yield from _grit(course)
    yield from _ring_size(course)


def kit_of_place(courses: list[Course], youngest: Course) -> Iterator[Task]:
    """Feeders and drinkers raised every week; the dust bath filled up, once the keeper chose to have one."""
    task = youngest.weekly("raise")
    if task is not None:
        yield task
    yield from _dust_bath(courses, youngest)


def _grit(course: Course) -> Iterator[Task]:
    """At each change of size, until the next; four weeks after the last no more."""
    days: list[int] = DAYS["grit"]
    for number, day in enumerate(days):
        end = days[number + 1] if number + 1 < len(days) else day + DAYS["feed_open"]
        size = grit_mm(course.species, day)
        if course.age < end and size is not None:
            low, high = size[0]
            yield course.task("grit", day, figure=f"{low:g} to {high:g} mm")


def _ring_size(course: Course) -> Iterator[Task]:
    """Where chicks wear rings: at each age at which they are outgrown, until others were put on."""
    every = marks_of_lots(course.standing.heads)
    marks = [mark for lot in course.lots for mark in every.get(lot, ()) if mark.ring]
    zone = course.standing.keeper.zone
    put_on = [mark.on or local_date(instant(mark.at_ms), zone) for mark in marks]
    for day in DAYS["ring_size"]:
        early = course.on(day - DAYS["ring_early"])
        if marks and course.age < day + DAYS["ring_open"] and max(put_on) < early:
            yield course.task("ring_size", day)


def _dust_bath(courses: list[Course], youngest: Course) -> Iterator[Task]:
    """Two weeks after it was last filled, while these birds are here. Never where chicks are under heat or a hen."""
    is_heated = any(course.brood.stages.get(stage, 0) for course in courses for stage in ("hatched", "brooding"))
    if is_heated or youngest.role == "hen":
        return
    born = min(course.on(0) for course in courses)
    lots = [lot for course in courses for lot in course.lots]
    cared = cared_on(youngest.standing, "dust_bath", youngest.brood.place or "", lots)
    filled = [on for on in cared if on >= born]
    if not filled:
        return
    at_ms = noon_ms(max(filled)) + DAYS["dust_bath"] * DAY_MS
    due = local_date(instant(at_ms), "UTC")
    task = youngest.task("dust_bath", whole_days(youngest.born_ms, at_ms))
    yield replace(task, at=instant(at_ms), since=due, due=due)
