"""What a brood asks for by the age of its chicks: heat, eating, feed, weighing, the daily chores, and what `kit` asks.

Mirrored in pwa/src/book/brood-chores.ts over tests/vectors/agenda.json. The real act makes a task done, and so does a
`care` for it at that place; one dated ahead silences it until then for the birds that stand there (`cared`). Tasks of
age belong to a lot, chores to a place. Where nobody wrote when the chicks hatched, or where they are, nothing is asked.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import datetime
from itertools import chain
from math import floor
from typing import Any, cast

from broodline.book.bodies_flock import Weighed
from broodline.book.bodies_rooms import BrooderCheck
from broodline.book.hatch_day import brood_hatched_ms
from broodline.book.standing import Standing
from broodline.book.tied import tied_to
from broodline.book.whereabouts import Brood, broods
from broodline.reports.agenda_task import Task, added
from broodline.reports.brood_course import DAYS, Course
from broodline.reports.brood_kit import kit_of_lot, kit_of_place
from broodline.reports.cared import is_cared
from broodline.trade.brooding import Heat, Range, heat_steps
from broodline.trade.feeding import feed_change
from broodline.trade.sources import read_table
from broodline.trade.units import to_celsius

WORDS: dict[str, dict[str, Any]] = read_table("brood_tasks")["tasks"]
_HEATED = ("hatched", "brooding")


def brood_tasks(standing: Standing, now: datetime) -> list[Task]:
    """All that every brood still asks for, however far ahead; what several lots in one place ask for at once is one."""
    together: dict[tuple[str, str, str, str], Task] = {}
    for task in _tasks(standing, now):
        if is_cared(standing, task):  # before those of other batches join it: it may be put off for one of them
            continue
        key = task.task, task.place, task.due, task.figure
        other = together.get(key)
        together[key] = task if other is None else _both(other, task)
    return list(together.values())


def _both(one: Task, other: Task) -> Task:
    first = min(one, other, key=lambda task: (task.at, task.day))
    n, since = added(one.n, other.n), min(one.since, other.since)
    return replace(first, lot=None, n=n, since=since, lots=(*one.lots, *other.lots))


def _tasks(standing: Standing, now: datetime) -> Iterator[Task]:
    now_ms = round(now.timestamp() * 1000)
    by_place: dict[str, list[Course]] = {}
    for brood in broods(standing):
        lot = standing.lots[brood.lot]
        born_ms = brood_hatched_ms(standing, brood)
        if brood.place is None or not _is_brooded(brood) or born_ms is None or born_ms > now_ms:
            continue
        tied = tied_to(standing, lot)
        can_be = all(tied.can_be(standing.lots[name]) for name in brood.lots)
        course = Course(standing, brood, lot, born_ms, now_ms, can_be)
        for of_age in (_heat, _eating, _feed, _weighing, kit_of_lot):
            yield from of_age(course)
        by_place.setdefault(brood.place, []).append(course)
    for place in sorted(by_place):
        yield from _chores(by_place[place])


def heat_words(band_f: Range, scale: str) -> str:
    """A band of heat, °F, in whole degrees of the keeper's scale, "C" or "F".

    >>> heat_words((85, 90), "C"), heat_words((85, 90), "F")
    ('29 to 32 °C', '85 to 90 °F')
    """
    low, high = (floor((end if scale == "F" else to_celsius(end)) + 0.5) for end in band_f)
    return f"{low} °{scale}" if low == high else f"{low} to {high} °{scale}"


def _heat(course: Course) -> Iterator[Task]:
    """The step that stands and those to come, until the one after it is due; none under a hen or in a machine."""
    n = sum(course.brood.stages.get(stage, 0) for stage in _HEATED)
    if n == 0 or course.role in ("hen", "incubator", "hatcher"):
        return
    steps = list(heat_steps(course.species))
    for number, (day, heat) in enumerate(steps):
        over = steps[number + 1][0] if number + 1 < len(steps) else day + DAYS["week"]
        if course.age < over and not course.checked(course.on(day), _is_done(heat)):
            task = course.task("heat", day, n=n)
            yield _told(task, heat, course.standing.keeper.temperature)


def _is_done(heat: Heat | None) -> Callable[[BrooderCheck], bool]:
    """A reading makes a step done; where the chicks alone say how much, how they lie does too."""
    by_chicks = heat is not None and heat.published_f is None
    return lambda check: check.heat_c is not None or (by_chicks and check.look is not None)


def _told(task: Task, heat: Heat | None, scale: str) -> Task:
    """Which words a step is told in, and their figure."""
    if heat is None:
        return replace(task, says="words_off")
    if heat.published_f is None:
        return replace(task, says="words_chicks", figure=" and ".join(f"day {day}" for day in heat.off_days or ()))
    return replace(task, figure=heat_words(heat.published_f, scale))


def _eating(course: Course) -> Iterator[Task]:
    """Every day of the first days anew; vitamins beside it where weak chicks were written down."""
    first, last = DAYS["eat"]
    if first <= course.age <= last:
        yield course.daily("eat")
    first, last = DAYS["vitamins"]
    if first <= course.age <= last and any(move.weak for move in course.moves):
        yield course.daily("vitamins")


def _feed(course: Course) -> Iterator[Task]:
    change = feed_change(course.species)
    if change is not None and course.age <= change[0][1] + DAYS["feed_open"]:
        yield course.task("feed", int(change[0][0]))


def _weighing(course: Course) -> Iterator[Task]:
    """At each age of selection, until the birds have another; a weighing of the lot makes it done."""
    weighed = [cast(Weighed, head.body) for head in course.standing.heads.get("weighed", ())]
    own = [body.on for body in weighed if body.lot in course.lots]
    for day in DAYS["weigh"]:
        early = course.on(day - DAYS["weigh_early"])
        end = course.on(day + DAYS["weigh_open"])
        if course.age < day + DAYS["weigh_open"] and not any(early <= on < end for on in own):
            yield course.task("weigh", day, early=DAYS["weigh_early"])


def _chores(courses: list[Course]) -> Iterator[Task]:
    """Water and drinkers daily, litter weekly, for all chicks of a place; under a hen water alone."""
    youngest = max(courses, key=lambda course: (course.born_ms, course.lot.id))
    today = youngest.daily("water")
    if not youngest.checked(today.due, lambda check: bool(check.water)):
        yield _of_place(today, courses)
    if youngest.role == "hen":
        return
    yield _of_place(youngest.daily("drinkers"), courses)
    litter = youngest.weekly("litter")
    if litter is not None and not youngest.checked(litter.since, lambda check: bool(check.litter)):
        yield _of_place(litter, courses)
    for task in kit_of_place(courses, youngest):
        yield _of_place(task, courses)


def _of_place(task: Task, courses: list[Course]) -> Task:
    n = sum(course.brood.n for course in courses) if all(course.can_be for course in courses) else None
    return replace(task, lot=None, n=n, lots=tuple(chain.from_iterable(course.lots for course in courses)))


def _is_brooded(brood: Brood) -> bool:
    return any(brood.stages.get(stage, 0) for stage in ("brooding", "growing"))
