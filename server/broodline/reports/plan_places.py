"""Where and when planned eggs can be set: capacities, what runs already, and lockdowns that would clash."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.trade.calendar import local_date
from broodline.trade.sources import cell, read_table
from broodline.trade.species import Species, species_named

MOST_ROUNDS = 6
_Held = tuple[date, date, date, int]


@dataclass(frozen=True, slots=True)
class Place:
    """A machine. capacity: eggs, None where none was written."""

    id: str
    name: str
    capacity: int | None


@dataclass(frozen=True, slots=True)
class Round:
    """One setting of the plan. lots: (family, eggs). place: None where no incubator is in the book."""

    set_on: str
    lockdown_on: str
    hatch_on: str
    place: Place | None
    lots: tuple[tuple[str, int], ...]


def rounds(
    standing: Standing,
    species: Species,
    eggs: Mapping[str, int],
    hatch_on: str | None,
    today: str,
    planned: Sequence[Round] = (),
) -> tuple[list[Round], list[str]]:
    """Settings for the eggs of each family, machine by machine, in turns where one turn does not hold them; and what to
    mind, in words. hatch_on: of the first turn; None is as soon as can be. planned: what other species take already.
    """
    notes: list[str] = []
    period = species.period_days[1]
    set_on = date.fromisoformat(today)
    if hatch_on is not None:
        set_on = date.fromisoformat(hatch_on) - timedelta(days=period)
        if set_on.isoformat() < today:
            notes.append(f"To hatch on {hatch_on}, eggs had to be set on {set_on}, which is past: they are set today.")
            set_on = date.fromisoformat(today)
    places = _incubators(standing)
    if not places or any(place.capacity is None for place in places):
        notes.append("Not every incubator's capacity is written down; one without is taken to hold all.")
    waiting = {family: n for family, n in eggs.items() if n > 0}
    found: list[Round] = []
    for _ in range(MOST_ROUNDS):
        held = {place: [*_running(standing, place), *_planned(planned, place)] for place in places}
        clashes = {place: list(_clashes(held[place], place, species, set_on)) for place in places}
        freest: list[Place | None] = [*sorted(places, key=lambda machine: len(clashes[machine]))]
        for place in freest or [None]:
            lots = _take(waiting, None if place is None else _free(held[place], place, species, set_on))
            if lots:
                notes.extend([] if place is None else clashes[place])
                found.append(_round(species, set_on, place, lots))
        set_on += timedelta(days=period + cell(read_table("breeding")["planning"]["between_settings"]).value)
    if waiting:
        notes.append(f"{sum(waiting.values())} eggs find no place: more room is needed, or fewer chicks wished for.")
    return found, list(dict.fromkeys(notes))


def _incubators(standing: Standing) -> list[Place]:
    found = [
        Place(key, place.name, None if place.capacity is None else int(place.capacity))
        for key, place in standing.places.items()
        if place.role == "incubator"
    ]
    return sorted(found, key=lambda place: (place.name, place.id))


def _free(held: Sequence[_Held], place: Place, species: Species, set_on: date) -> int | None:
    """Eggs that the machine still takes that day; None where it takes any number."""
    there = sum(one[3] for one in _beside(held, species, set_on))
    return None if place.capacity is None else max(0, place.capacity - there)


def _clashes(held: Sequence[_Held], place: Place, species: Species, set_on: date) -> Iterator[str]:
    """While one setting is locked down the machine must not turn, and is moister than the other wants."""
    for begins, locks, _, _ in _beside(held, species, set_on):
        own = set_on + timedelta(days=species.lockdown_day)
        if locks != own:
            yield (
                f"{place.name}: eggs set on {begins} lock down on {locks}, those set on {set_on} on {own}. While one "
                "batch is locked down, the other still wants turning: move the first to a hatcher, or use another "
                "machine."
            )


def _beside(held: Sequence[_Held], species: Species, set_on: date) -> list[_Held]:
    """What is in the machine while eggs set that day would be."""
    last = set_on + timedelta(days=species.period_days[1])
    return [one for one in held if one[2] >= set_on and one[0] <= last]


def _running(standing: Standing, place: Place) -> Iterator[_Held]:
    """Settings that run in a machine: set on, lockdown, last day of hatching, eggs in it."""
    for setting in standing.settings.values():
        species = species_named(setting.species)
        if setting.place == place.id and setting.runs and species is not None:
            begins = date.fromisoformat(local_date(instant(setting.set_at_ms), standing.keeper.zone))
            locks = begins + timedelta(days=int(setting.lockdown_day or species.lockdown_day))
            eggs = sum(max(0, setting.stages.get(stage, 0)) for stage in ("set", "locked"))
            yield begins, locks, begins + timedelta(days=species.period_days[1]), eggs


def _planned(planned: Sequence[Round], place: Place) -> Iterator[_Held]:
    for one in planned:
        if one.place == place:
            begins, locks, ends = map(date.fromisoformat, (one.set_on, one.lockdown_on, one.hatch_on))
            yield begins, locks, ends, sum(n for _, n in one.lots)


def _take(waiting: dict[str, int], free: int | None) -> list[tuple[str, int]]:
    """Eggs of as many families as find room, taken from those that wait."""
    lots = []
    for family in list(waiting):
        n = waiting[family] if free is None else min(waiting[family], free)
        if n > 0:
            lots.append((family, n))
            free = None if free is None else free - n
            waiting[family] -= n
            if not waiting[family]:
                del waiting[family]
    return lots


def _round(species: Species, set_on: date, place: Place | None, lots: list[tuple[str, int]]) -> Round:
    return Round(
        set_on=set_on.isoformat(),
        lockdown_on=(set_on + timedelta(days=species.lockdown_day)).isoformat(),
        hatch_on=(set_on + timedelta(days=species.period_days[1])).isoformat(),
        place=place,
        lots=tuple(lots),
    )
