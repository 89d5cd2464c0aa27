"""Where and when planned eggs can be set: capacities, what runs already, and lockdowns that would clash."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.reports.plan_store import Supply
from broodline.trade.calendar import local_date
from broodline.trade.sources import cell, read_table
from broodline.trade.species import Species, species_named

MOST_TURNS = 30
_MOST_NAMED = 4
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


@dataclass(frozen=True, slots=True)
class Placed:
    """rounds: the settings. waiting: family -> eggs that find no place or that nobody lays. notes: what to mind.

    locks: machine -> lockdowns of several days that fall into one another there.
    """

    rounds: tuple[Round, ...]
    waiting: Mapping[str, int]
    locks: Mapping[Place, frozenset[date]]
    notes: tuple[str, ...]


def rounds(
    standing: Standing,
    species: Species,
    eggs: Mapping[str, int],
    hatch_on: str | None,
    today: str,
    planned: Sequence[Round] = (),
    store: Mapping[str, Supply] | None = None,
) -> Placed:
    """Settings for the eggs of each family, machine by machine: as many as the store gives, the rest a week later or
    when a machine is free; with what finds no place. hatch_on: of the first turn; None is as soon as can be. planned:
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
            least = _LEAST if place is None or place.capacity is None else min(_LEAST, place.capacity)
            lots = _take(waiting, free, least, store, set_on)
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
    notes.extend(_waiting_words(standing, waiting, store))
    return Placed(tuple(found), waiting, {place: frozenset(days) for place, days in locks.items()}, tuple(notes))


def _waiting_words(standing: Standing, waiting: Mapping[str, int], store: Mapping[str, Supply]) -> Iterator[str]:
    dry = [family for family in waiting if family in store and store[family].pace <= 0]
    for family in dry:
        yield (
            f"{standing.families[family].name}: no egg was kept in the last week, so nobody can say when "
            f"{waiting[family]} more are there."
        )
    crowded = {standing.families[family].name: n for family, n in waiting.items() if family not in dry}
    if crowded:
        told = ", ".join(f"{n} of {name}" for name, n in crowded.items())
        yield f"{sum(crowded.values())} eggs find no place ({told}): more room is needed, or fewer chicks wished for."


def _incubators(standing: Standing) -> list[Place]:
    found = [
        Place(key, place.name, None if place.capacity is None else int(place.capacity))
        for key, place in standing.places.items()
        if place.role == "incubator"
    ]
    return sorted(found, key=lambda place: (place.name, place.id))


def _free(held: Sequence[_Held], place: Place, species: Species, set_on: date) -> int | None:
    """Eggs that the machine still takes that day; None where it takes any number.

    What counts is the fullest day until these would hatch: what goes out before another batch comes in is no crowd.
    """
    beside = _beside(held, species, set_on)
    days = {set_on} | {begins for begins, _, _, _ in beside if begins > set_on}
    there = max(sum(n for begins, _, ends, n in beside if begins <= day <= ends) for day in days)
    return None if place.capacity is None else max(0, place.capacity - there)


def _clashes(held: Sequence[_Held], species: Species, set_on: date) -> set[date]:
    """Lockdowns of several days in one machine: all but the latest come while others still want turning."""
    own = set_on + timedelta(days=species.lockdown_day)
    days = {one[1] for one in _beside(held, species, set_on)} | {own}
    return days if len(days) > 1 else set()


def clash_words(standing: Standing, locks: Mapping[Place, Iterable[date]]) -> Iterator[str]:
    """While one batch is locked down the machine must not turn, and is moister than the others want."""
    hatcher = next((one.name for one in standing.places.values() if one.role == "hatcher"), None)
    for place, days in locks.items():
        on = [day.isoformat() for day in sorted(days)]
        told = f"lockdowns on {', '.join(on)}"
        if len(on) > _MOST_NAMED:
            told = f"{len(on)} lockdowns from {on[0]} to {on[-1]}"
        cure = (
            f"On each of these days move what is due to {hatcher}, and keep that free for it."
            if hatcher
            else "Move what is due to a hatcher, or use another machine."
        )
        yield (
            f"{place.name} will hold eggs of several days, with {told}. While one batch is locked down, "
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


def _take(
    waiting: dict[str, int], free: int | None, least: int, store: Mapping[str, Supply], on: date
) -> list[tuple[str, int]]:
    """Eggs of as many families as find room, taken from those that wait; none where they are too few to set."""
    room = sum(waiting.values()) if free is None else free
    there = sum(min(n, store[family].left(on)) if family in store else n for family, n in waiting.items())
    if min(room, there) < min(least, sum(waiting.values())):
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
