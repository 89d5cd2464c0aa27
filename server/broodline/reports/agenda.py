"""What is due for the settings that run: candle, lock down, watch the hatch, pull chicks, open what did not hatch.

Mirrored in pwa/src/book/agenda.ts over tests/vectors/agenda.json; no statistics here. The real act makes a task
done, and so does a `care` for it at that place. A task is shown a week ahead.
"""

import re
from collections.abc import Iterator
from datetime import datetime, timedelta
from itertools import chain
from typing import Any

from broodline.book.moments import instant
from broodline.book.out_of_shell import out_of_shell
from broodline.book.own_words import own_words
from broodline.book.standing import Lot, Move, Setting, Standing
from broodline.reports.agenda_air import air_tasks
from broodline.reports.agenda_apart import apart_tasks
from broodline.reports.agenda_marks import mark_tasks
from broodline.reports.agenda_task import Task
from broodline.reports.brood_tasks import WORDS, brood_tasks
from broodline.reports.cared import is_cared
from broodline.reports.plan_tasks import plan_named, plan_tasks, plan_words
from broodline.reports.shells import Shells, setting_calendar, shells_of
from broodline.trade.calendar import Calendar, day_of, instant_text, later, local_date, milestone
from broodline.trade.sources import cell, read_table, source_of
from broodline.trade.species import DARK_SHELL_DAY, species_named

_TABLE = read_table("agenda")
_HOURS = {name: timedelta(hours=cell(written).value) for name, written in _TABLE["hours"].items()}
_DAYS = {name: int(cell(written).value) for name, written in _TABLE["days"].items()}
_EARLY = timedelta(days=-_DAYS["done_early"])
_WAITING = ("set", "locked", "hatched", "unhatched")  # where nothing is, nothing is asked
_SEEN_AT_CANDLING = frozenset({"clear", "blood_ring", "quitter"})


def due(standing: Standing, now: datetime) -> dict[str, Any]:
    """What is due at `now` and within a week, overdue first; dates in the holding's zone.

    {on, tasks: [{due, at, place, setting, lot, plan, task, day, n, words, why, source, overdue}]}; setting, lot and
    plan or null. A planned setting whose place is not decided has place "".
    """
    zone = standing.keeper.zone
    today = local_date(now, zone)
    last = local_date(later(now, timedelta(days=_DAYS["shown_ahead"])), zone)
    asked = chain(open_tasks(standing, now), air_tasks(standing, now))
    tasks = [task for task in asked if task.due <= last]
    tasks.sort(key=lambda one: _turn(one, today))
    return {"on": today, "tasks": [task_json(standing, task, today) for task in tasks]}


def _turn(one: Task, today: str) -> tuple[Any, ...]:
    return one.due >= today, one.at, one.place, one.setting or "", one.task, one.lot or "", one.plan or ""


def open_tasks(standing: Standing, now: datetime) -> Iterator[Task]:
    """All that the book still asks for and nobody noted as done, however far ahead. A silent thermometer is not in it:
    it is a matter of now, and its alarms have a way of their own (air_alarm)."""
    every = chain(
        (task for setting in standing.settings.values() for task in tasks_of(standing, setting, now)),
        mark_tasks(standing),
        brood_tasks(standing, now),
        apart_tasks(standing, now),
        plan_tasks(standing),
    )
    return (task for task in every if not is_cared(standing, task))


def tasks_of(standing: Standing, setting: Setting, now: datetime) -> Iterator[Task]:
    """All that one setting still asks for, however far ahead; nothing for a species the tables do not know."""
    species = species_named(setting.species)
    lots = [standing.lots[name] for name in setting.lots]
    held = (setting.stages, *(lot.stages for lot in lots))
    if species is None or not any(stages.get(stage, 0) > 0 for stages in held for stage in _WAITING):
        return
    zone = standing.keeper.zone
    calendar = setting_calendar(standing, setting, species)
    hatches = _hatches(setting, lots)
    yield from _candling(setting, lots, calendar, zone, now, shells_of(standing, setting))
    yield from _locking(standing, setting, calendar)
    yield from _hatching(setting, lots, calendar, hatches, zone, now)
    yield from _pulling(setting, hatches, zone)
    yield from _opening(setting, calendar, hatches, zone, now)


def _candling(
    setting: Setting, lots: list[Lot], calendar: Calendar, zone: str, now: datetime, shells: Shells
) -> Iterator[Task]:
    """Each candling until the next one may begin, or until lockdown; eggs seen by then are left out."""
    ends = [*(later(stone.at, _EARLY) for stone in calendar.candle[1:]), calendar.lockdown.at]
    for stone, end in zip(calendar.candle, ends, strict=False):
        since = later(stone.at, _EARLY)
        waiting = _in_hand(setting, lots, int(stone.day), since)
        if waiting and now < end and setting.locked_at_ms is None:
            dates = local_date(since, zone), local_date(stone.at, zone)
            seen: Shells = shells if stone.day <= DARK_SHELL_DAY else "plain"
            yield Task("candle", setting.id, setting.place, stone.at, int(stone.day), waiting, *dates, shells=seen)


def _in_hand(setting: Setting, lots: list[Lot], day: int, since: datetime) -> int:
    """Eggs of a setting nobody has held to the light for this candling.

    An egg that left the setter without its family being known stands in no lot: it is taken off one it may be of.
    """
    left = {lot.id: _unseen(lot, day, since) for lot in lots}
    for move in setting.among:
        gone = move.n if move.source == "set" != move.target else 0
        for name in move.among:
            taken = min(gone, left[name])
            left[name] -= taken
            gone -= taken
    return sum(left.values())


def _unseen(lot: Lot, day: int, since: datetime) -> int:
    """Eggs in the setter beyond those seen live or not sure on the day of this candling on which most were.

    Without a look none is left where something was taken out as candling does: the rest was seen and put back.
    """
    early = day - _DAYS["done_early"]
    seen = [live + unsure for on, (live, unsure, _) in lot.seen("candled").items() if on >= early]
    if not seen and any(
        move.source == "set" and move.target in _SEEN_AT_CANDLING and instant(move.at_ms) >= since for move in lot.moves
    ):
        return 0
    return max(0, lot.stages.get("set", 0) - max(seen, default=0))


def _locking(standing: Standing, setting: Setting, calendar: Calendar) -> Iterator[Task]:
    """Lockdown, until it is written down: eggs carried over already are still turned. A hen does the turning."""
    place = standing.places.get(setting.place)
    n = _resting(setting)
    if n <= 0 or setting.locked_at_ms is not None or (place is not None and place.role == "hen"):
        return
    zone = standing.keeper.zone
    stone = calendar.lockdown
    dates = local_date(later(stone.at, _EARLY), zone), local_date(stone.at, zone)
    yield Task("lockdown", setting.id, setting.place, stone.at, int(stone.day), n, *dates)


def _hatching(
    setting: Setting, lots: list[Lot], calendar: Calendar, hatches: list[Move], zone: str, now: datetime
) -> Iterator[Task]:
    """Every day from the window's first until opening; a look at the hatch on that date makes it done."""
    n = _resting(setting)
    if n <= 0 or now >= _opening_at(calendar, hatches):
        return
    stone = calendar.hatch_from
    date = max(local_date(stone.at, zone), local_date(now, zone))
    looked = [look.at_ms for lot in lots for look in lot.looks if look.what == "hatch"]
    if not any(local_date(instant(ms), zone) >= date for ms in [*looked, *(move.at_ms for move in hatches)]):
        yield Task("hatch", setting.id, _hatcher(setting), stone.at, int(stone.day), n, date, date)


def _pulling(setting: Setting, hatches: list[Move], zone: str) -> Iterator[Task]:
    """Chicks still where they hatched are the last that came out; the first of those says when."""
    n = setting.stages.get("hatched", 0)
    if n <= 0 or not hatches:
        return
    counted = 0
    oldest = hatches[-1]
    for move in reversed(hatches):
        oldest = move
        counted += move.n
        if counted >= n:
            break
    out = instant(oldest.at_ms)
    at = later(out, _HOURS["pull_after_hatch"])
    day = day_of(instant(setting.set_at_ms), at)
    yield Task("pull", setting.id, _hatcher(setting), at, day, n, local_date(out, zone), local_date(at, zone))


def _opening(setting: Setting, calendar: Calendar, hatches: list[Move], zone: str, now: datetime) -> Iterator[Task]:
    n = _resting(setting) + max(0, setting.stages.get("unhatched", 0))
    at = _opening_at(calendar, hatches)
    if n > 0 and now >= calendar.lockdown.at:
        day, date = day_of(instant(setting.set_at_ms), at), local_date(at, zone)
        yield Task("open", setting.id, _hatcher(setting), at, day, n, date, date)


def _opening_at(calendar: Calendar, hatches: list[Move]) -> datetime:
    """Not before the last day of the window is over, nor 24 h after the last chick; a day more where none came."""
    window_over = milestone(calendar.hatch_to.at, 1).at
    if not hatches:
        return later(window_over, _HOURS["open_after_window_without_chick"])
    return max(window_over, later(instant(hatches[-1].at_ms), _HOURS["open_after_last_chick"]))


def _hatches(setting: Setting, lots: list[Lot]) -> list[Move]:
    """Every move of eggs into hatched, in order of time."""
    moves = [*setting.among, *(move for lot in lots for move in lot.moves)]
    return out_of_shell(moves)


def _resting(setting: Setting) -> int:
    return sum(max(0, setting.stages.get(stage, 0)) for stage in ("set", "locked"))


def _hatcher(setting: Setting) -> str:
    return setting.locked_place or setting.place


def words_of(standing: Standing, task: Task) -> str:
    """What to do, how many eggs or chicks, and where."""
    words: dict[str, Any] = _TABLE["tasks"].get(task.task) or WORDS[task.task]
    place = standing.places.get(task.place)
    said: str = words.get("words_hen", words["words"]) if place is not None and place.role == "hen" else words["words"]
    if task.says != "words":
        said = words[task.says]
    if not task.place:
        said = words.get("words_anywhere", said)
    plan = plan_named(standing, task.plan) if task.plan is not None else None
    if plan is not None:
        for name, filling in plan_words(standing, plan).items():
            said = said.replace("{" + name + "}", filling)
    said = own_words(standing.keeper).told(_one_or_many(said, task.n)).replace("{figure}", task.figure)
    said = _uncounted(said) if task.n is None else said
    return said.replace("{n}", str(task.n)).replace("{place}", place.name if place is not None else "an unknown place")


def _one_or_many(said: str, n: int | None) -> str:
    """Of two words with a bar between them the first for one, the second for any other number.

    >>> [_one_or_many("{n} egg|eggs is|are due", n) for n in (1, 2)]
    ['{n} egg is due', '{n} eggs are due']
    """
    return re.sub(r"(\w+)\|(\w+)", r"\1" if n == 1 else r"\2", said)


def _uncounted(said: str) -> str:
    """Words for so many as words for however many.

    >>> [_uncounted(one) for one in ("Feed {n} chicks.", "The {n} birds", "Look. {n} chicks.")]
    ['Feed the chicks.', 'The birds', 'Look.']
    """
    said = re.sub(r"\. \{n\} chicks\.$", ".", said)
    return re.sub(r"(the )?\{n\} ", lambda found: found[1] or "the ", said, flags=re.IGNORECASE)


def task_json(standing: Standing, task: Task, today: str) -> dict[str, Any]:
    """A task as reports write it."""
    words: dict[str, Any] = _TABLE["tasks"].get(task.task) or WORDS[task.task]
    grounds = words.get("shells", {}).get(task.shells, words)
    return {
        "due": task.due,
        "at": instant_text(task.at),
        "place": task.place,
        "setting": task.setting,
        "lot": task.lot,
        "plan": task.plan,
        "task": task.task,
        "day": task.day,
        "n": task.n,
        "words": words_of(standing, task),
        "why": own_words(standing.keeper).told(grounds["why"]).replace("{dark_day}", str(DARK_SHELL_DAY)),
        "source": source_of(grounds["source"]).title,
        "overdue": task.due < today,
    }
