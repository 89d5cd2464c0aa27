"""Settings that are planned and not begun: each asks for its eggs on its day, until a setting names it or it goes.

Mirrored in pwa/src/book/chores-plans.ts over tests/vectors/agenda.json. A plan is a `note` with a `plan`; the `set`
that takes it up names that note. Taken back, it asks no more.
"""

from collections.abc import Iterator
from datetime import date
from typing import cast

from broodline.book.bodies_eggs import Set
from broodline.book.bodies_rooms import Note, Plan
from broodline.book.moments import HOUR_MS, instant, moment_ms
from broodline.book.standing import Standing
from broodline.reports.agenda_task import Task
from broodline.trade.calendar import local_date, milestone
from broodline.trade.species import in_a_sentence, species_named


def plan_tasks(standing: Standing) -> Iterator[Task]:
    """All that plans still ask for, however far ahead; nothing for a species the tables do not know."""
    root_of = standing.root_of
    begun = {
        root_of.get(body.plan, body.plan)
        for head in standing.heads.get("set", ())
        if (body := cast(Set, head.body)).plan is not None
    }
    for head in standing.heads.get("note", ()):
        plan = cast(Note, head.body).plan
        if plan is None or head.root in begun or species_named(plan.species) is None:
            continue
        place = "" if plan.place is None else root_of.get(plan.place, plan.place)
        at = instant(_noon_ms(plan.set_on, standing.keeper.zone))
        yield Task("set", None, place, at, 0, 0, plan.set_on, plan.set_on, plan=head.root)


def plan_named(standing: Standing, root: str) -> Plan | None:
    """The plan of a note, by the note's root."""
    return next(
        (cast(Note, head.body).plan for head in standing.heads.get("note", ()) if head.root == root),
        None,
    )


def plan_words(standing: Standing, plan: Plan) -> dict[str, str]:
    """What the words of a planned setting are filled with: {species} and {hatch}, as "4 April"."""
    species = species_named(plan.species)
    if species is None:
        return {"species": plan.species, "hatch": plan.set_on}
    zone = standing.keeper.zone
    hatch = date.fromisoformat(
        local_date(milestone(instant(_noon_ms(plan.set_on, zone)), species.period_days[0]).at, zone)
    )
    return {"species": in_a_sentence(species.name), "hatch": f"{hatch.day} {hatch:%B}"}


def _noon_ms(day: str, zone: str) -> int:
    """Noon in Greenwich on that date; half a day off where another date is written there then."""
    noon = moment_ms(f"{day}T12:00:00Z")
    there = local_date(instant(noon), zone)
    return noon if there == day else noon + (12 if there < day else -12) * HOUR_MS
