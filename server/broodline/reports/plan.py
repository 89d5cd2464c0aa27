"""How many eggs to set for the chicks wished for, when and where, and the chance to get them (shape: plan)."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from broodline.book.own_words import own_words
from broodline.book.standing import Standing
from broodline.reports.chance import in_words
from broodline.reports.egg_store import egg_store
from broodline.reports.plan_families import planned_day, planned_families
from broodline.reports.plan_lockdowns import clash_words, shared_words
from broodline.reports.plan_parents import parents_json, yard_of
from broodline.reports.plan_places import Place, Round, homes_of, incubators, rounds
from broodline.reports.plan_store import MOST_DAYS, Supply, store_json, supplies
from broodline.reports.rates import Outcome, add_outcomes, lot_outcome
from broodline.trade.calendar import day_asked, local_date
from broodline.trade.planning import MOST_EGGS, Share, chance_of, eggs_needed, family_share
from broodline.trade.proportions import Rate
from broodline.trade.sources import cell, read_table
from broodline.trade.species import species_named

STEPS = ("fertility", "hatch_of_fertile", "alive")
OFFERED = (0.6, 0.8, 1.0, 1.25)


@dataclass(frozen=True, slots=True)
class Wanted:
    """pullets, cockerels: of each family. chance: that all families' wishes come true. family: id or name, None all.

    hatch_on: the wished day of hatching; None is as soon as eggs can be set.
    """

    pullets: int = 4
    cockerels: int = 2
    chance: float = 0.9
    family: str | None = None
    hatch_on: str | None = None


def wanted_of(asked: Mapping[str, str | None]) -> Wanted | None:
    """Wishes from the words of a request (pullets, cockerels, chance in percent, family, hatch_on); None if odd."""
    try:
        pullets, cockerels = int(asked.get("pullets") or 4), int(asked.get("cockerels") or 2)
        chance = float(asked.get("chance") or 90) / 100
        hatch_on = asked.get("hatch_on") or None
        if hatch_on is not None:
            day_asked(hatch_on)
    except ValueError:
        return None
    sound = 0 <= pullets <= 100 and 0 <= cockerels <= 100 and 0.01 <= chance < 0.9991
    return Wanted(pullets, cockerels, chance, asked.get("family") or None, hatch_on) if sound else None


def plan_report(standing: Standing, wanted: Wanted, now: datetime) -> dict[str, Any]:
    """Eggs of each family, settings by machine, and what is taken for granted. now: aware.

    chance: with the eggs that the settings place, of each target and of all; eggs that find no place hatch nothing.
    """
    store = egg_store(standing, now)
    stored = {one["family"]: one["n"] for one in store["families"]}
    today = local_date(now, standing.keeper.zone)
    names, heeded = planned_families(standing, wanted.family, stored, today)
    hatch_on, days_heeded = planned_day(wanted.hatch_on, today, standing.keeper.region)
    outcomes = _outcomes(standing, round(now.timestamp() * 1000))
    each = wanted.chance ** (1 / len(names)) if names else wanted.chance
    steps = {key: _shares(standing, key, outcomes) for key in names}
    targets = [
        {**target, "store": store_json(supplies(store).get(key), target["eggs"])}
        for key in names
        for target in (_target(standing, key, wanted, each, steps[key], stored.get(key, 0)),)
    ]
    yard = yard_of(standing, today)
    parcels = {one["family"]: one["parcels"] for one in store["families"]}
    for target in targets:
        target["parents"] = parents_json(yard, target["family"], parcels.get(target["family"], ()))
    settings, waiting, notes = _settings(standing, targets, hatch_on, today, supplies(store))
    wish = {"pullets": wanted.pullets, "cockerels": wanted.cockerels}
    reached = 1.0
    for target in targets:
        target["placed"] = target["eggs"] - waiting.get(target["family"], 0)
        target["chance"] = chance_of(target["placed"], steps[target["family"]], **wish)
        reached *= target["chance"]
    return {
        "targets": targets,
        "eggs": sum(target["eggs"] for target in targets),
        "settings": settings,
        "chance": reached if targets else None,
        "assumptions": [
            *heeded,
            *days_heeded,
            *(_assumptions(standing, names, wanted, outcomes, store["families"]) if names else ()),
            *notes,
        ],
    }


def _outcomes(standing: Standing, now_ms: int) -> dict[str, Outcome]:
    """Each family's eggs in settings that are over."""
    found: dict[str, list[Outcome]] = {}
    for setting in standing.settings.values():
        for name in setting.lots if not setting.runs else ():
            lot = standing.lots[name]
            if lot.family is not None and not lot.bought_in:
                found.setdefault(lot.family, []).append(lot_outcome(lot, setting, now_ms))
    return {family: add_outcomes(outcomes) for family, outcomes in found.items()}


def _rates(outcome: Outcome) -> tuple[Rate, Rate, Rate]:
    return outcome.fertility, outcome.hatch_of_fertile, outcome.alive_7d


def _shares(standing: Standing, family: str, outcomes: Mapping[str, Outcome]) -> list[Share]:
    """The three steps; the flock is all families of the species."""
    usual = read_table("breeding")["planning"]
    species = standing.families[family].species
    kin = [key for key in outcomes if key in standing.families and standing.families[key].species == species]
    found = []
    for at, step in enumerate(STEPS):
        counts = {key: (rate.k, rate.n) for key in kin for rate in (_rates(outcomes[key])[at],) if rate.k <= rate.n}
        share, weight = cell(usual[step]).value / 100, cell(usual["weight"]).value
        found.append(family_share(counts.get(family, (0, 0)), list(counts.values()), share, weight))
    return found


def _target(
    standing: Standing, family: str, wanted: Wanted, chance: float, steps: Sequence[Share], stored: int
) -> dict[str, Any]:
    wish = {"pullets": wanted.pullets, "cockerels": wanted.cockerels}
    found = eggs_needed(steps, **wish, chance=chance)
    eggs = MOST_EGGS if found is None else found
    offered = sorted({round(eggs * part) for part in OFFERED if round(eggs * part) <= MOST_EGGS})
    return {
        "family": family,
        "name": standing.families[family].name,
        **wish,
        "eggs": eggs,
        "enough": found is not None,
        "options": [{"eggs": n, "chance": chance_of(n, steps, **wish)} for n in offered],
        "rates": dict(zip(STEPS, (step.mean for step in steps), strict=True)),
        "in_store": stored,
    }


def _settings(
    standing: Standing, targets: Sequence[dict[str, Any]], hatch_on: str | None, today: str, store: Mapping[str, Supply]
) -> tuple[list[dict[str, Any]], dict[str, int], list[str]]:
    """Settings, the eggs of each family that are in none, and what to mind."""
    settings: list[dict[str, Any]] = []
    planned: list[Round] = []
    notes: list[str] = []
    waiting: dict[str, int] = {}
    locks: dict[Place, set[date]] = {}
    shared: set[Place] = set()
    by_species: dict[str, dict[str, int]] = {}
    for one in targets:
        by_species.setdefault(standing.families[one["family"]].species, {})[one["family"]] = one["eggs"]
    homes = homes_of(incubators(standing), {code: sum(eggs.values()) for code, eggs in by_species.items()})
    for code, eggs in sorted(by_species.items()):
        species = species_named(code)
        if species is None:
            notes.append(f"How long {code} takes is not known here: no day of setting is given.")
            continue
        placed = rounds(standing, species, eggs, hatch_on, today, planned, store, homes)
        planned.extend(placed.rounds)
        notes.extend(placed.notes)
        waiting |= placed.waiting
        settings.extend(_setting_json(one) for one in placed.rounds)
        shared |= placed.shared
        for place, days in placed.locks.items():
            locks.setdefault(place, set()).update(days)
    notes.extend(shared_words(shared))
    notes.extend(clash_words(standing, locks, planned))
    settings.sort(key=lambda one: (one["set_on"], one["place"] or ""))
    return settings, waiting, list(dict.fromkeys(notes))


def _setting_json(one: Round) -> dict[str, Any]:
    return {
        "set_on": one.set_on,
        "place": one.place.id if isinstance(one.place, Place) else None,
        "species": one.species,
        "lockdown_on": one.lockdown_on,
        "hatch_on": one.hatch_on,
        "lots": [{"family": family, "n": n} for family, n in one.lots],
    }


def _assumptions(
    standing: Standing,
    names: Sequence[str],
    wanted: Wanted,
    outcomes: Mapping[str, Outcome],
    store: Sequence[Mapping[str, Any]],
) -> Iterator[str]:
    own = own_words(standing.keeper)
    if len(names) > 1:
        yield (
            f"Each {own.family} gets eggs for a chance of {in_words(wanted.chance ** (1 / len(names)))}, so that all "
            f"{len(names)} together come to {in_words(wanted.chance)}."
        )
    yield "Half of the chicks are taken to be pullets."
    yield "Chicks count as kept if alive after the first week; later losses are not reckoned."
    yield (
        f"Each rate is the {own.family}'s own, drawn to the other {own.families}' and, where the record is short, to a "
        "usual one."
    )
    if any(one["kept_7d"] for one in store if one["family"] in names):
        yield f"The hens are taken to lay on as in the last week; eggs older than {MOST_DAYS} days are not set."
    without = [standing.families[key].name for key in names if key not in outcomes]
    if without:
        yield (
            f"No finished hatch is on record for {', '.join(without)}: others' rates stand in for it, or usual ones, "
            "and the number of eggs is less sure."
        )
