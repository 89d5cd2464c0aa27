"""Where and when planned eggs can be set: capacities, what runs already, and lockdowns that would clash."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.reports.plan_store import Supply
from broodline.trade.calendar import local_date
from broodline.trade.sources import cell, read_table
from broodline.trade.species import Species, species_named

MOST_TURNS = 30
_USUAL = read_table("breeding")["planning"]
_BETWEEN, _STAGGER, _LEAST = (
    int(cell(_USUAL[name]).value) for name in ("between_settings", "stagger", "least_setting")
)
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
    store: Mapping[str, Supply] | None = None,
) -> tuple[list[Round], list[str]]:
    """Settings for the eggs of each family, machine by machine: as many as the store gives, the rest a week later or
    when a machine is free; and what to mind, in words. hatch_on: of the first turn; None is as soon as can be. planned:
    what other species take already. store: by family; one that is not in it gives any number.
    """
    notes: list[str] = []
    store = store or {}
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
    locks: dict[Place, set[date]] = {}
    for _ in range(MOST_TURNS):
        held = {place: [*_running(standing, place), *_planned([*planned, *found], place)] for place in places}
        clashes = {place: _clashes(held[place], species, set_on) for place in places}
        freest: list[Place | None] = [*sorted(places, key=lambda machine: len(clashes[machine]))]
        for place in freest or [None]:
            free = None if place is None else _free(held[place], place, species, set_on)
            lots = _take(waiting, free, store, set_on)
            if lots:
                if place is not None and clashes[place]:
                    locks.setdefault(place, set()).update(clashes[place])
                found.append(_round(species, set_on, place, lots))
        if not waiting:
            break
        frees = [one[2] + timedelta(days=_BETWEEN) for of in held.values() for one in of]
        frees += [date.fromisoformat(one.hatch_on) + timedelta(days=_BETWEEN) for one in found]
        later = set_on + timedelta(days=_STAGGER)
        limited = any(family in store for family in waiting)
        set_on = later if limited else min((day for day in frees if day > set_on), default=later)
    notes.extend(_clash_words(standing, locks))
    notes.extend(_waiting_words(standing, waiting, store))
    return found, list(dict.fromkeys(notes))


def _waiting_words(standing: Standing, waiting: Mapping[str, int], store: Mapping[str, Supply]) -> Iterator[str]:
    dry = [family for family in waiting if family in store and store[family].pace <= 0]
    for family in dry:
        yield (
            f"{standing.families[family].name}: no egg was kept in the last week, so nobody can say when "
            f"{waiting[family]} more are there."
        )
    crowded = sum(n for family, n in waiting.items() if family not in dry)
    if crowded:
        yield f"{crowded} eggs find no place: more room is needed, or fewer chicks wished for."


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


def _clashes(held: Sequence[_Held], species: Species, set_on: date) -> set[date]:
    """Lockdowns of several days in one machine: all but the latest come while others still want turning."""
    own = set_on + timedelta(days=species.lockdown_day)
    days = {one[1] for one in _beside(held, species, set_on)} | {own}
    return days if len(days) > 1 else set()


def _clash_words(standing: Standing, locks: Mapping[Place, set[date]]) -> Iterator[str]:
    """While one batch is locked down the machine must not turn, and is moister than the others want."""
    hatcher = next((one.name for one in standing.places.values() if one.role == "hatcher"), None)
    for place, days in locks.items():
        told = ", ".join(day.isoformat() for day in sorted(days))
        cure = (
            f"On each of these days move what is due to {hatcher}, and keep that free for it."
            if hatcher
            else "Move what is due to a hatcher, or use another machine."
        )
        yield (
            f"{place.name} will hold eggs of several days, with lockdowns on {told}. While one batch is locked down, "
            f"the others still want turning. {cure}"
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


def _take(waiting: dict[str, int], free: int | None, store: Mapping[str, Supply], on: date) -> list[tuple[str, int]]:
    """Eggs of as many families as find room, taken from those that wait; none where they are too few to set."""
    room = sum(waiting.values()) if free is None else free
    there = sum(min(n, store[family].left(on)) if family in store else n for family, n in waiting.items())
    if min(room, there) < min(_LEAST, sum(waiting.values())):
        return []
    lots = []
    for family in list(waiting):
        wanted = min(waiting[family], room)
        n = store[family].give(on, wanted) if family in store else wanted
        if n > 0:
            lots.append((family, n))
            room -= n
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
