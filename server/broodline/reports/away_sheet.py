"""While the keeper is away: what is due day by day, what runs where, what is done every day. Each thing is told once.

The agenda is asked for every day, of the book as it is now. A task that comes anew each day is told on its first with
how long it lasts, or among what is done every day where it lasts all the time; why is told with the first of its kind.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.reports.agenda import open_tasks, task_json
from broodline.reports.agenda_task import Task, added
from broodline.reports.held_back import held_back
from broodline.reports.setting import setting_report
from broodline.trade.calendar import day_of, local_date, zone_named
from broodline.trade.counted import many
from broodline.trade.sources import cell, read_table
from broodline.trade.species import in_a_sentence

MOST_DAYS = 60
_DAY = timedelta(days=1)
_SOON_DAYS = 3
"""What was left undone last week waits for this week's, where that comes within so many days. Our judgement."""
_LATE = time(23, 59)  # of a day: what becomes due in its course is asked for too
_ROUND = ("hatch", "drinkers", "water", "vitamins", "eat")
"""What the agenda asks for anew each day, in the order in which it is done: clean and fill, then see who eats."""

_AGENDA = read_table("agenda")
_PULL_WHY: str = _AGENDA["tasks"]["pull"]["why"]
_WITHOUT_FEED = timedelta(hours=cell(_AGENDA["hours"]["pull_at_latest"]).value)

_Days = dict[str, list[Task]]


def away_sheet(standing: Standing, first: date, last: date, now: datetime) -> dict[str, Any]:
    """{days: [{on, words, tasks: [{words, why}]}], machines: [{place, holds, day, next}], daily: [words], held:
    [words]}.

    first, last: local days, both included, at most 60 days apart. now: aware. What was due before stands on the first
    day, with the day it was due on. machines: as of the first day, or of now where that is later. held: eggs and meat
    that are not for eating (`held_back`).
    """
    last = min(last, first + MOST_DAYS * _DAY)
    days, always = _told_once(_asked(standing, first, last), first, last)
    said: set[str] = set()
    told: list[dict[str, Any]] = []
    chicks = _chicks_due(standing, first, last, now)
    for on in sorted({*days, *chicks}):
        tasks = [_telling(standing, task, until, on, said) for task, until in sorted(days.get(on, ()), key=_turn)]
        for words in chicks.get(on, ()):
            tasks.append({"words": words, "why": "" if _PULL_WHY in said else _PULL_WHY})
            said.add(_PULL_WHY)
        told.append({"on": on, "words": _day_words(on, standing.keeper.region), "tasks": tasks})
    return {
        "days": told,
        "machines": _machines(standing, first, now),
        "daily": _daily(standing, always),
        "held": held_back(standing, first.isoformat(), last.isoformat()),
    }


def _asked(standing: Standing, first: date, last: date) -> _Days:
    """What is asked for on each day, by its date; what stays open, on the first of its days alone."""
    zone = zone_named(standing.keeper.zone) or UTC
    seen: set[tuple[str | None, ...]] = set()
    days: _Days = {}
    for day in _days(first, last):
        late = datetime.combine(day, _LATE, zone).astimezone(UTC)
        tasks = list(open_tasks(standing, late))
        opened = {task.setting for task in tasks if task.task == "open" and task.due <= day.isoformat()}
        for task in tasks:
            if task.task == "lockdown" and task.setting in opened:
                continue  # it is over: what is to be opened needs no lockdown any more
            one = (*_kind(task), task.lot, task.since)
            on = max(task.due, first.isoformat())
            if on <= last.isoformat() and one not in seen:
                seen.add(one)
                days.setdefault(on, []).append(task)
    return {on: _together(tasks) for on, tasks in days.items()}


def _together(tasks: list[Task]) -> list[Task]:
    """What several batches of one place ask for alike is one task, late where it is late for all of them."""
    found: dict[tuple[str | None, ...], Task] = {}
    for task in tasks:
        other = found.get(_kind(task))
        found[_kind(task)] = (
            task if other is None else replace(other, lot=None, n=added(other.n, task.n), due=max(other.due, task.due))
        )
    return list(found.values())


def _kind(task: Task) -> tuple[str | None, ...]:
    setting = task.setting if task.lot is None else None
    return task.task, setting, task.place, task.plan, task.figure, task.says


def _told_once(asked: _Days, first: date, last: date) -> tuple[dict[str, list[tuple[Task, str]]], list[Task]]:
    """({date: [(task, last day of those on which it comes anew)]}, what comes anew every day to the last)."""
    found: dict[str, list[tuple[Task, str]]] = {}
    always = []
    for on, tasks in asked.items():
        for task in tasks:
            day = date.fromisoformat(on)
            waits = task.since < on and any(_comes(asked, task, day + n * _DAY) for n in range(1, _SOON_DAYS + 1))
            if not waits and (task.since != on or not _comes(asked, task, day - _DAY)):
                until = day
                while task.since == on and _comes(asked, task, until + _DAY):
                    until += _DAY
                if first < last == until and day <= first + _DAY:  # that of today may be done
                    always.append(task)
                else:
                    found.setdefault(on, []).append((task, until.isoformat()))
    return found, always


def _comes(asked: _Days, task: Task, on: date) -> bool:
    """Whether a task comes anew on that day."""
    day = on.isoformat()
    return any(_kind(other) == _kind(task) and other.since == day for other in asked.get(day, ()))


def _turn(one: tuple[Task, str]) -> tuple[Any, ...]:
    """By the hour of the day; what has waited since an earlier day comes first."""
    task, _ = one
    return task.at, task.place, task.task, task.setting or ""


def _telling(standing: Standing, task: Task, until: str, on: str, said: set[str]) -> dict[str, str]:
    written = task_json(standing, task, on)
    words, region = written["words"], standing.keeper.region
    if until != on:
        words = f"{words} Every day until {_day_words(until, region)}."
    if written["overdue"]:
        words = f"{words} Was due {day_told(task.due, region)}: only if it is not done yet."
    why = "" if written["why"] in said else written["why"]
    said.add(written["why"])
    return {"words": words, "why": why}


def _days(first: date, last: date) -> Iterator[date]:
    return (first + n * _DAY for n in range((last - first).days + 1))


def _chicks_due(standing: Standing, first: date, last: date, now: datetime) -> dict[str, list[str]]:
    """Day -> words, of settings that hatch by the calendar: no chick is in the book yet that could be asked for."""
    found: dict[str, list[str]] = {}
    for setting in sorted(standing.settings.values(), key=lambda one: (one.set_at_ms, one.id)):
        if not setting.runs:
            continue
        dates = setting_report(standing, setting.id, now)["calendar"]
        begins, ends = dates["hatch_from"], dates["hatch_to"]
        if begins is None or begins > last.isoformat() or ends < (first - _WITHOUT_FEED).isoformat():
            continue
        place = standing.places.get(standing.root_of.get(setting.locked_place or setting.place, ""))
        name = "a place that is not in the book" if place is None else place.name
        on = max(begins, first.isoformat())
        found.setdefault(on, []).append(
            f"Chicks may be out under {name} from this day on: feed and water within her reach."
            if place is not None and place.role == "hen"
            else f"Chicks may be out in {name} from this day on: look each day, bring the dry ones to feed and water."
        )
    return found


def _machines(standing: Standing, first: date, now: datetime) -> list[dict[str, Any]]:
    today = max(local_date(now, standing.keeper.zone), first.isoformat())
    zone = zone_named(standing.keeper.zone) or UTC
    on = max(now, datetime.combine(first, time(12), zone).astimezone(UTC))
    found = []
    for setting in sorted(standing.settings.values(), key=lambda one: (one.set_at_ms, one.id)):
        if setting.runs:
            report = setting_report(standing, setting.id, now)
            dates = report["calendar"]
            left = sum(setting.stages.get(stage, 0) for stage in ("set", "locked"))
            ahead = [*(("candle", on) for on in dates["candle"])]
            ahead += [("lockdown", dates["lockdown"]), ("first chicks", dates["hatch_from"])]
            region = standing.keeper.region
            coming = [f"{what} {day_told(on, region)}" for what, on in ahead if on is not None and on >= today]
            place = standing.places.get(standing.root_of.get(setting.locked_place or setting.place, ""))
            found.append(
                {
                    "place": report["place_name"] if place is None else place.name,
                    "holds": many(left, f"{in_a_sentence(report['species_name'])} egg"),
                    "day": day_of(instant(setting.set_at_ms), on),
                    "next": "; ".join(coming) or "hatching, or to be opened",
                }
            )
    return found


def _daily(standing: Standing, always: list[Task]) -> list[str]:
    """By what is kept now, in the order of a round: from the eggs to the young, from the young to the grown birds."""
    lots = standing.lots.values()
    young = sum(max(0, lot.stages.get(stage, 0)) for lot in lots for stage in ("hatched", "brooding", "growing"))
    running = [one for one in standing.settings.values() if one.runs and one.locked_at_ms is None]
    hand = {one for one, place in standing.places.items() if place.turns == "hand"}
    told = []
    if any(one.runs for one in standing.settings.values()):
        told.append("Machines: read warmth and humidity, fill the water.")
    if any(standing.root_of.get(one.place, one.place) in hand for one in running):
        told.append("Turn the eggs that are turned by hand, an odd number of times a day.")
    if young:
        told.append("Brooder: are they spread out, and warm enough? Lamp or plate fast and clear of litter?")
    for task in sorted(always, key=lambda task: (_ROUND.index(task.task), task.place)):
        told.append(task_json(standing, task, task.due)["words"])
    watered = any(task.task == "water" for task in always)
    told.append(f"{'Feed for all, water for the others' if watered else 'Water and feed for all'}; look at every bird.")
    if young:
        told.append("Count the young ones before they are shut in.")
    return told


def _day_words(on: str, region: str | None) -> str:
    return f"{date.fromisoformat(on):%A}, {day_told(on, region)}"
