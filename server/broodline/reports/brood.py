"""One brood: where its chicks are, how many live, what they need by their age, and whether too many died."""

from collections import Counter
from collections.abc import Iterable
from datetime import datetime
from itertools import chain
from typing import Any

from broodline.book.gone_birds import gone_birds
from broodline.book.hatch_day import brood_hatched_ms, hatched_ms, whole_days
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Lot, Standing
from broodline.book.tied import Tied, most_lost, tied_to
from broodline.book.whereabouts import LIVING, YOUNG, broods, broods_with
from broodline.errors import NotFound
from broodline.reports.agenda import task_json
from broodline.reports.agenda_marks import mark_tasks
from broodline.reports.agenda_task import Task
from broodline.reports.brood_course import species_of
from broodline.reports.brood_losses import alarms_json, first_week_json, to_watch_json
from broodline.reports.brood_needs import feed_json, heat_json, space_json, water_json
from broodline.reports.brood_parents import parents_json
from broodline.reports.brood_problems import brood_problems
from broodline.reports.brood_survival import fates_of, survival_by, survival_json, tied_name
from broodline.reports.brood_tasks import brood_tasks
from broodline.reports.cared import is_cared
from broodline.reports.untold import count_untold
from broodline.trade.brooding import CAUTIONS
from broodline.trade.calendar import instant_text, local_date
from broodline.trade.sources import origin


def brood_report(standing: Standing, lot_id: str, now: datetime) -> dict[str, Any]:
    """The report of one lot's chicks (contract of reports: brood). now: aware. Raises NotFound for an unknown lot.

    hatched_at, age_days and all that goes by age are None where nobody wrote when they hatched; alive and all that is
    reckoned for so many is None where the counts cannot be, which is among the problems. young: those that are not kept
    yet; room, feed and water are reckoned for them and for shared. shared: {families, n} of young that may be of this
    lot or of others; else None. birds_left: how -> how many kept left since. alive_least: were all of them this lot's
    that are gone and nobody knows whose they were. open: stage -> up to how many more, of
    chicks whose family nobody knows.
    """
    lot = standing.lots.get(lot_id)
    if lot is None:
        raise NotFound(f"There is no batch {lot_id} in the book.")
    now_ms = round(now.timestamp() * 1000)
    born_ms = hatched_ms(standing, lot)
    age = None if born_ms is None else whole_days(born_ms, now_ms)
    species = species_of(standing, lot)
    family = standing.families.get(lot.family or "")
    tied, alone = tied_to(standing, lot), Tied((lot,), ())
    today = local_date(now, standing.keeper.zone)
    gone = gone_birds(standing, today)
    left = gone.get(lot.id, ())
    alive = max(0, _in_stages(lot, LIVING) - len(left)) if tied.can_be(lot) else None
    young = None if alive is None else min(alive, _in_stages(lot, YOUNG))
    shared = sum(brood.n for brood in broods_with(standing, lot) if brood.among)
    fed = None if young is None else young + shared
    fates, tied_fates = (
        fates_of(one, born_ms, now_ms, gone) if born_ms is not None and born_ms <= now_ms and is_told else []
        for one, is_told in ((alone, alive is not None), (tied, True))
    )

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
        "alive_least": None if alive is None else max(0, alive - most_lost(lot, tied)),
        "young": young,
        "shared": {"families": tied_name(standing, tied), "n": shared} if shared else None,
        "birds_left": dict(Counter(bird.how for bird in left)),
        "stages": dict(lot.stages),
        "not_written": count_untold(lot.moves),
        "open": dict(lot.open),
        "places": _places(standing, lot, now_ms),
        "survival": {
            **survival_json(fates),
            "together": {"families": tied_name(standing, tied), **survival_json(tied_fates)} if tied.among else None,
        },
        "survival_by": survival_by(standing, lot, now_ms, gone),
        "first_week": first_week_json(standing, lot, tied, species, born_ms, now_ms),
        "alarms": []
        if born_ms is None or age is None
        else alarms_json(standing, tied, species, born_ms, age, tied_fates),
        "to_watch": to_watch_json(species, age, young),
        "heat": heat_json(standing, lot, species, age, date_of),
        "space": space_json(species, age, fed, date_of),
        "feed": feed_json(species, age, fed, date_of),
        "water_ml": water_json(species, age, fed)["range_ml"],
        "water": water_json(species, age, fed),
        "parents": parents_json(standing, lot),
        "cautions": [{"words": caution.value, "source": origin(caution)} for caution in CAUTIONS],
        "tasks": [
            task_json(standing, task, today)
            for task in sorted(chain(brood_tasks(standing, now), mark_tasks(standing)), key=_turn)
            if _is_for(standing, lot, task) and not is_cared(standing, task)
        ],
        "problems": [problem.as_json() for problem in brood_problems(standing, lot, now_ms)],
    }


def _in_stages(lot: Lot, stages: Iterable[str]) -> int:
    return sum(lot.stages.get(stage, 0) for stage in stages)


def _turn(task: Task) -> tuple[datetime, str, str]:
    return task.at, task.task, task.place


def _is_for(standing: Standing, lot: Lot, task: Task) -> bool:
    if task.lot is not None:
        return task.lot == lot.id
    return any((one.place or "") == task.place for one in broods_with(standing, lot))


def _can_be(standing: Standing, name: str) -> bool:
    lot = standing.lots[name]
    return tied_to(standing, lot).can_be(lot)


def _places(standing: Standing, lot: Lot, now_ms: int) -> list[dict[str, Any]]:
    """Where the chicks are, and who else is there with their age; how many is None where the counts cannot be.

    lots: those they may be of, where nobody knows the family.
    """
    every = broods(standing)
    is_told = _can_be(standing, lot.id)
    found = []
    for brood in broods_with(standing, lot):
        place = standing.places.get(brood.place or "")
        others = [one for one in every if one.place == brood.place is not None and lot.id not in one.lots]
        found.append(
            {
                "place": brood.place,
                "place_name": place.name if place is not None else None,
                "n": brood.n if is_told else None,
                "stages": dict(brood.stages) if is_told else {},
                "lots": list(brood.lots),
                "with": [
                    {
                        "lot": other.lot,
                        "n": other.n if all(_can_be(standing, name) for name in other.lots) else None,
                        "age_days": None if born is None else whole_days(born, now_ms),
                    }
                    for other in others
                    for born in [brood_hatched_ms(standing, other)]
                ],
            }
        )
    return found
