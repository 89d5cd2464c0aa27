"""One brood: where its chicks are, how many live, what they need by their age, and whether too many died."""

from collections import Counter
from datetime import datetime
from itertools import chain
from typing import Any

from broodline.book.hatch_day import hatched_ms, whole_days
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Lot, Standing
from broodline.book.whereabouts import LIVING, broods, broods_of
from broodline.errors import NotFound
from broodline.reports.agenda import is_cared, task_json
from broodline.reports.agenda_marks import mark_tasks
from broodline.reports.agenda_task import Task
from broodline.reports.brood_course import species_of
from broodline.reports.brood_needs import feed_json, heat_json, space_json, water_json
from broodline.reports.brood_parents import parents_json
from broodline.reports.brood_problems import brood_problems
from broodline.reports.brood_survival import LOST, fates_of, survival_by, survival_json
from broodline.reports.brood_tasks import brood_tasks
from broodline.reports.first_week import left_within_seven_days
from broodline.trade.brooding import CAUTIONS
from broodline.trade.calendar import instant_text, local_date
from broodline.trade.losses import FEW, TOGETHER, WORDS, alarms, first_week, first_week_cells, words_for_age
from broodline.trade.proportions import rate_of
from broodline.trade.sources import cell, origin, read_table
from broodline.trade.survival import Fate

_LAST_DAY = 180
"""Alarms speak of growing birds: no day of an older one is judged."""


def brood_report(standing: Standing, lot_id: str, now: datetime) -> dict[str, Any]:
    """The report of one lot's chicks (contract of reports: brood). now: aware. Raises NotFound for an unknown lot.

    hatched_at, age_days and all that goes by age are None where nobody wrote when they hatched.
    """
    lot = standing.lots.get(lot_id)
    if lot is None:
        raise NotFound(f"There is no batch {lot_id} in the book.")
    now_ms = round(now.timestamp() * 1000)
    born_ms = hatched_ms(standing, lot)
    age = None if born_ms is None else whole_days(born_ms, now_ms)
    species = species_of(standing, lot)
    family = standing.families.get(lot.family or "")
    alive = sum(max(0, lot.stages.get(stage, 0)) for stage in LIVING)
    today = local_date(now, standing.keeper.zone)
    fates = [] if born_ms is None else fates_of(lot, born_ms, now_ms)

    def date_of(day: int) -> str | None:
        return None if born_ms is None else local_date(instant(born_ms + day * DAY_MS), standing.keeper.zone)

    return {
        "lot": lot.id,
        "family": lot.family,
        "family_name": family.name if family is not None else None,
        "species": species,
        "hatched_at": None if born_ms is None else instant_text(instant(born_ms)),
        "age_days": age,
        "alive": alive,
        "stages": dict(lot.stages),
        "places": _places(standing, lot, now_ms),
        "survival": survival_json(fates),
        "survival_by": survival_by(standing, lot, now_ms),
        "first_week": _first_week_json(lot, species, born_ms, now_ms),
        "alarms": [] if born_ms is None or age is None else _alarms_json(standing, lot, species, born_ms, age, fates),
        "heat": heat_json(standing, lot, species, age, date_of),
        "space": space_json(species, age, alive, date_of),
        "feed": feed_json(species, age, alive, date_of),
        "water_ml": water_json(species, age, alive)["range_ml"],
        "water": water_json(species, age, alive),
        "parents": parents_json(standing, lot),
        "cautions": [{"words": caution.value, "source": origin(caution)} for caution in CAUTIONS],
        "tasks": [
            task_json(standing, task, today)
            for task in sorted(chain(brood_tasks(standing, now), mark_tasks(standing)), key=_turn)
            if _is_for(standing, lot, task) and not is_cared(standing, task)
        ],
        "problems": [problem.as_json() for problem in brood_problems(standing, lot, now_ms)],
    }


def _turn(task: Task) -> tuple[datetime, str, str]:
    return task.at, task.task, task.place


def _is_for(standing: Standing, lot: Lot, task: Task) -> bool:
    if task.lot is not None:
        return task.lot == lot.id
    return any((one.place or "") == task.place for one in broods_of(standing, lot))


def _places(standing: Standing, lot: Lot, now_ms: int) -> list[dict[str, Any]]:
    """Where the chicks are, and who else is there with their age."""
    every = broods(standing)
    found = []
    for brood in broods_of(standing, lot):
        place = standing.places.get(brood.place or "")
        others = [one for one in every if one.place == brood.place is not None and one.lot != lot.id]
        found.append(
            {
                "place": brood.place,
                "place_name": place.name if place is not None else None,
                "n": brood.n,
                "stages": dict(brood.stages),
                "with": [
                    {
                        "lot": other.lot,
                        "n": other.n,
                        "age_days": None if born is None else whole_days(born, now_ms),
                    }
                    for other in others
                    for born in [hatched_ms(standing, standing.lots[other.lot])]
                ],
            }
        )
    return found


def _first_week_json(lot: Lot, species: str, born_ms: int | None, now_ms: int) -> dict[str, Any]:
    """The share that died or was lost in its first seven days, beside what commercial flocks lose.

    Nothing is known of chicks that came from elsewhere.
    """
    left, n = (Counter[str](), 0) if lot.came else left_within_seven_days(lot.moves, now_ms)
    k = sum(left[how] for how in LOST)
    rate = rate_of(k, n, sound=min(lot.stages.values(), default=0) >= 0)
    bounds = first_week_cells(species)
    where = first_week(species, k, n)
    return {
        **rate.as_json(),
        "culled": left["culled"],
        "words": _few_words(k, n),
        "commercial": None
        if bounds is None
        else {
            "ideal_pct": bounds[0].value,
            "most_pct": bounds[1].value,
            "where": where,
            "words": f"Commercial flocks: at most {bounds[1].value:g} % in a first week, at best {bounds[0].value:g}.",
            "source": origin(bounds[1]),
        },
        "advice": WORDS["first_week"] if where == "above" and (k > 1 or n >= FEW) else None,
    }


def _few_words(k: int, n: int) -> str:
    """How many of how many: below a hundred a percentage would say more than is known."""
    if n == 0:
        return "Not known yet: no chick of this batch is a week old."
    if n >= FEW:
        return f"{k} of {n}, {100 * k / n:.1f} %"
    return f"{k} of {n}" + ("; one death is no pattern" if k == 1 else "")


def _alarms_json(
    standing: Standing, lot: Lot, species: str, born_ms: int, age: int, fates: list[Fate]
) -> list[dict[str, Any]]:
    """[{on, day, died, expected, p, words, think_of, source}]; causes that take many at once are left out."""
    by_chance: Counter[int] = Counter()
    for move in lot.moves:
        if move.target == "died" and move.source in LIVING and move.cause not in TOGETHER:
            by_chance[max(0, whole_days(born_ms, move.at_ms))] += move.n
    days = [
        (day, sum(fate.n for fate in fates if fate.day >= day), by_chance[day])
        for day in range(min(age, _LAST_DAY) + 1)
    ]
    source = origin(cell(read_table("losses")["alarm"]["at_most"]))
    told = []
    for alarm in alarms(species, days):
        expected = None if alarm.expected is None else f"{alarm.expected:.1f}"
        words = WORDS["day_alone" if expected is None else alarm.kind].format(died=alarm.died, expected=expected)
        told.append(
            {
                "on": local_date(instant(born_ms + alarm.on_day * DAY_MS), standing.keeper.zone),
                "day": alarm.on_day,
                "died": alarm.died,
                "expected": alarm.expected,
                "p": alarm.p,
                "words": f"{words} {WORDS['call']}",
                "think_of": words_for_age(alarm.on_day).value,
                "source": source,
            }
        )
    return told
