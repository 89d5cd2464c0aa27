"""What a brood asks for by the age of its chicks: heat, eating, feed, weighing, and the daily chores.

Mirrored in pwa/src/book/brood-chores.ts over tests/vectors/agenda.json. The real act makes a task done, and so does a
`care` for it at that place; a `care` dated far ahead silences a task until then. Tasks of age belong to a lot, chores
to a place. Where nobody wrote when the chicks hatched, or where they are, nothing is asked.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from math import floor
from typing import Any, cast

from broodline.book.bodies_flock import Weighed
from broodline.book.bodies_rooms import BrooderCheck
from broodline.book.hatch_day import hatched_ms, whole_days
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Lot, Standing
from broodline.book.whereabouts import Brood, broods
from broodline.reports.agenda_task import Task
from broodline.trade.brooding import Heat, heat_steps
from broodline.trade.calendar import local_date
from broodline.trade.feeding import feed_change
from broodline.trade.sources import cell, read_table

_TABLE = read_table("brood_tasks")
WORDS: dict[str, dict[str, Any]] = _TABLE["tasks"]
_DAYS = {name: cell(written).value for name, written in _TABLE["ages"].items()}
_HEATED = ("hatched", "brooding")


@dataclass(frozen=True, slots=True)
class _Course:
    """What the tasks of one brood are worked out from."""

    standing: Standing
    brood: Brood
    lot: Lot
    born_ms: int
    now_ms: int

    def at(self, day: int) -> datetime:
        return instant(self.born_ms + day * DAY_MS)

    def on(self, day: int) -> str:
        return local_date(self.at(day), self.standing.keeper.zone)

    @property
    def age(self) -> int:
        return whole_days(self.born_ms, self.now_ms)

    def task(self, name: str, day: int, *, n: int | None = None, early: int = 0, heat: str = "") -> Task:
        """Due when the chicks are so many days old."""
        many, dates = self.brood.n if n is None else n, (self.on(day - early), self.on(day))
        return Task(name, None, self.brood.place or "", self.at(day), day, many, *dates, lot=self.lot.id, heat=heat)

    def daily(self, name: str, since: str | None = None) -> Task:
        """Due today, at the hour they hatched; since: from when on it counts as done, where that is not today."""
        today = local_date(instant(self.now_ms), self.standing.keeper.zone)
        task = self.task(name, self.age)
        at = task.at if task.due == today else self.at(self.age + 1)
        return replace(task, at=at, since=since or today, due=today)


def brood_tasks(standing: Standing, now: datetime) -> list[Task]:
    """All that every brood still asks for, however far ahead; what several lots in one place ask for at once is one."""
    together: dict[tuple[str, str, str, str], Task] = {}
    for task in _tasks(standing, now):
        key = task.task, task.place, task.due, task.heat
        other = together.get(key)
        together[key] = task if other is None else _both(other, task)
    return list(together.values())


def _both(one: Task, other: Task) -> Task:
    first = min(one, other, key=lambda task: (task.at, task.day))
    return replace(first, lot=None, n=one.n + other.n, since=min(one.since, other.since))


def _tasks(standing: Standing, now: datetime) -> Iterator[Task]:
    now_ms = round(now.timestamp() * 1000)
    by_place: dict[str, list[_Course]] = {}
    for brood in broods(standing):
        lot = standing.lots[brood.lot]
        born_ms = hatched_ms(standing, lot)
        if brood.place is None or not _is_brooded(brood) or born_ms is None or born_ms > now_ms:
            continue
        course = _Course(standing, brood, lot, born_ms, now_ms)
        for of_age in (_heat, _eating, _feed, _weighing):
            yield from of_age(course)
        by_place.setdefault(brood.place, []).append(course)
    for place in sorted(by_place):
        yield from _chores(by_place[place])


def species_of(standing: Standing, lot: Lot) -> str:
    """The species of a lot: its setting's, else its family's; "" where nobody knows."""
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    family = standing.families.get(lot.family or "")
    return setting.species if setting is not None else family.species if family is not None else ""


def heat_words(heat: Heat, scale: str) -> str:
    """A band of heat in whole degrees of the keeper's scale, "C" or "F".

    >>> heat_words(next(heat_steps("chicken"))[1], "C"), heat_words(next(heat_steps("chicken"))[1], "F")
    ('29 to 32 °C', '85 to 90 °F')
    """
    ends = heat.published_f if scale == "F" else (heat.low_c, heat.high_c)
    low, high = (floor(end + 0.5) for end in ends)
    return f"{low} °{scale}" if low == high else f"{low} to {high} °{scale}"


def _heat(course: _Course) -> Iterator[Task]:
    """The step that stands and those to come, until the one after it is due; none under a hen or in a machine."""
    brood = course.brood
    n = sum(brood.stages.get(stage, 0) for stage in _HEATED)
    place = course.standing.places.get(brood.place or "")
    if n == 0 or (place is not None and place.role in ("hen", "incubator", "hatcher")):
        return
    steps = list(heat_steps(species_of(course.standing, course.lot)))
    for number, (day, heat) in enumerate(steps):
        over = steps[number + 1][0] if number + 1 < len(steps) else day + _DAYS["week"]
        if course.age < over and not _checked(course, course.on(day), lambda check: check.heat_c is not None):
            told = "" if heat is None else heat_words(heat, course.standing.keeper.temperature)
            yield course.task("heat", day, n=n, heat=told)


def _eating(course: _Course) -> Iterator[Task]:
    """Every day of the first days anew; vitamins beside it where weak chicks were written down."""
    first, last = _DAYS["eat"]
    if first <= course.age <= last:
        yield course.daily("eat")
    first, last = _DAYS["vitamins"]
    if first <= course.age <= last and any(move.weak for move in course.lot.moves):
        yield course.daily("vitamins")


def _weekly(course: _Course, name: str) -> Iterator[Task]:
    first, last = _DAYS[name]
    week: int = _DAYS["week"]
    day = course.age // week * week
    if first <= day <= last:
        yield course.daily(name, since=course.on(day))


def _feed(course: _Course) -> Iterator[Task]:
    change = feed_change(species_of(course.standing, course.lot))
    if change is not None and course.age <= change[0][1] + _DAYS["feed_open"]:
        yield course.task("feed", int(change[0][0]))


def _weighing(course: _Course) -> Iterator[Task]:
    """At each age of selection, until the birds have another; a weighing of the lot makes it done."""
    weighed = [cast(Weighed, head.body) for head in course.standing.heads.get("weighed", ())]
    own = [body.on for body in weighed if body.lot == course.lot.id]
    for day in _DAYS["weigh"]:
        early = course.on(day - _DAYS["weigh_early"])
        end = course.on(day + _DAYS["weigh_open"])
        if course.age < day + _DAYS["weigh_open"] and not any(early <= on < end for on in own):
            yield course.task("weigh", day, early=_DAYS["weigh_early"])


def _chores(courses: list[_Course]) -> Iterator[Task]:
    """Water and drinkers daily, litter weekly, for all chicks of a place; under a hen water alone."""
    youngest = max(courses, key=lambda course: (course.born_ms, course.lot.id))
    n = sum(course.brood.n for course in courses)
    place = youngest.standing.places.get(youngest.brood.place or "")
    today = youngest.daily("water")
    if not _checked(youngest, today.due, lambda check: bool(check.water)):
        yield _of_place(today, n)
    if place is not None and place.role == "hen":
        return
    yield _of_place(youngest.daily("drinkers"), n)
    for task in _weekly(youngest, "litter"):
        if not _checked(youngest, task.since, lambda check: bool(check.litter)):
            yield _of_place(task, n)


def _of_place(task: Task, n: int) -> Task:
    return replace(task, lot=None, n=n)


def _is_brooded(brood: Brood) -> bool:
    return any(brood.stages.get(stage, 0) for stage in ("brooding", "growing"))


def _checked(course: _Course, since: str, says: Callable[[BrooderCheck], bool]) -> bool:
    """Whether a round at the brood's place, on that date or later, says so."""
    standing = course.standing
    for head in standing.heads.get("brooder_check", ()):
        check = cast(BrooderCheck, head.body)
        here = standing.root_of.get(check.place, check.place) == course.brood.place
        if here and says(check) and local_date(instant(head.at_ms), standing.keeper.zone) >= since:
            return True
    return False
