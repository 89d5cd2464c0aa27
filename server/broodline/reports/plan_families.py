"""Whom a plan of eggs is for, and the day it is to hatch on: only what can come true is planned."""

from collections import Counter
from collections.abc import Mapping
from datetime import date, timedelta

from broodline.book.birds import birds_of
from broodline.book.own_words import own_words
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.book.whereabouts import LIVING
from broodline.reports.pens import pens_of, root

MOST_AHEAD_DAYS = 730
"""Which hens lay more than two years from now nobody can say. Our judgement."""


def planned_families(
    standing: Standing, family: str | None, stored: Mapping[str, int], today: str
) -> tuple[list[str], list[str]]:
    """(families to set eggs of, by name; what to mind). family: id or name; None: all that have not died out.

    stored: family -> eggs in store. today: a local day. A family has died out where birds of it are written down and
    no hen, no bird of unknown sex and no batch of it lives here; one of whose birds nothing is written may well live.
    """
    own = own_words(standing.keeper)
    names = sorted(standing.families, key=lambda key: (standing.families[key].name, key))
    if family is not None:
        asked = root(standing, family)
        found = [key for key in names if asked == key or family == standing.families[key].name]
        there = ", ".join(standing.families[key].name for key in names)
        known = f": there are {there}" if there else ""
        return found, [] if found else [f"No {own.family} in the book is called {family}{known}."]
    gone = _died_out(standing, stored, today)
    left = ", ".join(standing.families[key].name for key in names if key in gone)
    notes = [f"No hen and no egg of {left} is left: nothing is planned for {left}."] if left else []
    return [key for key in names if key not in gone], notes


def planned_day(hatch_on: str | None, today: str, region: str | None) -> tuple[str | None, list[str]]:
    """(the day to hatch on, None: as soon as can be; what to mind). hatch_on: as asked for. today: a local day."""
    if hatch_on is None:
        return None, []
    day, now = date.fromisoformat(hatch_on), date.fromisoformat(today)
    if day < now:
        return None, [f"{day_told(day, region)} is past: the eggs are set as soon as can be."]
    if (day - now).days > MOST_AHEAD_DAYS:
        wished, last = (day_told(one, region) for one in (day, now + timedelta(days=MOST_AHEAD_DAYS)))
        return None, [f"{wished} is too far away to plan for, {last} at most: the eggs are set as soon as can be."]
    return day.isoformat(), []


def _died_out(standing: Standing, stored: Mapping[str, int], today: str) -> set[str]:
    birds = birds_of(standing, today).values()
    pens = pens_of(standing)
    families = {one.id: root(standing, one.body.family) for one in birds if one.body.family}
    named = Counter(lot.lot for one in birds for lot in one.body.lots or ())
    living = {
        families[one.id] for one in birds if one.id in families and one.where == "here" and one.body.sex != "male"
    }
    living |= {family for family, n in stored.items() if n > 0}
    for stay in pens.stays:
        if stay.stands_on(today) and any(pens.was_here(dam, today) for dam in stay.dams):
            living.add(stay.family)
    for lot in standing.lots.values():
        here = sum(max(0, lot.stages.get(stage, 0)) for stage in ("set", "locked", *LIVING))
        if lot.family is not None and here > named[lot.id]:
            living.add(lot.family)
    return {*families.values(), *(stay.family for stay in pens.stays)} - living
