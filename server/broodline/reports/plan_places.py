"""Where and when planned eggs can be set: capacities, what runs already, and machines that species share."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

from broodline.book.imported import is_unnamed_machine
from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.reports.plan_families import MOST_AHEAD_DAYS
from broodline.reports.plan_store import Supply
from broodline.reports.readings import place_in
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.trade.sources import cell, read_table
from broodline.trade.species import Species, species_named

MOST_TURNS = 30
_LAST_DAY = date(9990, 1, 1)
_USUAL = read_table("breeding")["planning"]
_BETWEEN, _STAGGER, _LEAST = (
    int(cell(_USUAL[name]).value) for name in ("between_settings", "stagger", "least_setting")
)


class Held(NamedTuple):
    """Eggs in a machine: set on, lockdown, last day of hatching, how many, and of which species."""

    begins: date
    locks: date
    ends: date
    n: int
    species: str


@dataclass(frozen=True, slots=True)
class Place:
    """A machine. capacity: eggs, None where none was written."""

    id: str
    name: str
    capacity: int | None


@dataclass(frozen=True, slots=True)
class Round:
    """One setting. species: its code. lots: (family, eggs). place: None where no incubator is in the book."""

    species: str
    set_on: str
    lockdown_on: str
    hatch_on: str
    place: Place | None
    lots: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """rounds: the settings. waiting: family -> eggs that find no place or that nobody lays. notes: what to mind.

    locks: machine -> lockdowns of several days that fall into one another there. shared: machines in which eggs of the
    plan lie beside another species'.
    """

    rounds: tuple[Round, ...]
    waiting: Mapping[str, int]
    locks: Mapping[Place, frozenset[date]]
    shared: frozenset[Place]
    notes: tuple[str, ...]


def rounds(
    standing: Standing,
    species: Species,
    eggs: Mapping[str, int],
    hatch_on: str | None,
    today: str,
    planned: Sequence[Round] = (),
    store: Mapping[str, Supply] | None = None,
    homes: Mapping[Place, str] | None = None,
) -> Placed:
    """Settings for the eggs of each family, machine by machine: as many as the store gives, the rest a week later or
    when a machine is free; with what finds no place. hatch_on: of the first turn; None is as soon as can be. planned:
    what other species take already. store: by family; one that is not in it gives any number. homes: machine -> the
    species it is for, as `homes_of` gives them. A machine without another species in it is taken first.
    """
    notes: list[str] = []
    store = store or {}
    period = species.period_days[1]
    set_on = date.fromisoformat(today)
    if hatch_on is not None:
        set_on = date.fromisoformat(hatch_on) - timedelta(days=period)
        if set_on.isoformat() < today:
            hatch, then = (day_told(day, standing.keeper.region) for day in (hatch_on, set_on))
            notes.append(f"To hatch on {hatch}, eggs had to be set on {then}, which is past: they are set today.")
            set_on = date.fromisoformat(today)
    places = incubators(standing)
    if not places or any(place.capacity is None for place in places):
        notes.append("Not every incubator's capacity is written down; one without is taken to hold all.")
    waiting = {family: n for family, n in eggs.items() if n > 0}
    found: list[Round] = []
    locks: dict[Place, set[date]] = {}
    shared: set[Place] = set()
    few = min(_LEAST, sum(waiting.values()))
    end = set_on + timedelta(days=MOST_AHEAD_DAYS)
    for _ in range(MOST_TURNS):
        held = {place: [*running(standing, place), *held_by([*planned, *found], place)] for place in places}
        clashes = {place: _clashes(held[place], species, set_on) for place in places}
        mixed = {place: _is_shared(held[place], species, set_on) for place in places}
        strange = {place: (homes or {}).get(place, species.code) != species.code for place in places}
        rank = {place: (mixed[place], strange[place], len(clashes[place])) for place in places}
        freest: list[Place | None] = [*sorted(places, key=lambda machine: rank[machine])]
        for place in freest or [None]:
            free = None if place is None else _free(held[place], place, species, set_on)
            least = few if place is None or place.capacity is None else min(few, place.capacity)
            lots = _take(waiting, free, least, store, set_on)
            if lots:
                if place is not None and clashes[place]:
                    locks.setdefault(place, set()).update(clashes[place])
                if place is not None and mixed[place]:
                    shared.add(place)
                found.append(_round(species, set_on, place, lots))
        if not waiting:
            break
        frees = [one.ends + timedelta(days=_BETWEEN) for of in held.values() for one in of]
        frees += [date.fromisoformat(one.hatch_on) + timedelta(days=_BETWEEN) for one in found]
        later = set_on + timedelta(days=_STAGGER)
        limited = any(family in store for family in waiting)
        set_on = later if limited else min((day for day in frees if set_on < day <= end), default=later)
    notes.extend(_waiting_words(standing, waiting, store, few))
    days_of = {place: frozenset(days) for place, days in locks.items()}
    return Placed(tuple(found), waiting, days_of, frozenset(shared), tuple(notes))


def homes_of(places: Sequence[Place], eggs: Mapping[str, int]) -> dict[Place, str]:
    """Machine -> the species it is for, the roomiest for that with most eggs; none where machines are fewer.

    eggs: species -> how many are planned.

    >>> loft, box = Place("a", "Loft", 96), Place("b", "Box", 48)
    >>> [one for one in homes_of([box, loft], {"duck": 40, "chicken": 120}).values()]
    ['chicken', 'duck']
    """
    kinds = sorted(eggs, key=lambda code: (-eggs[code], code))
    if len(kinds) < 2 or len(places) < len(kinds):
        return {}
    roomiest = sorted(places, key=lambda one: (one.capacity is not None, -(one.capacity or 0), one.name, one.id))
    return {place: kinds[at % len(kinds)] for at, place in enumerate(roomiest)}


def _waiting_words(
    standing: Standing, waiting: Mapping[str, int], store: Mapping[str, Supply], least: int
) -> Iterator[str]:
    dry = [family for family in waiting if family in store and store[family].pace <= 0]
    for family in dry:
        yield (
            f"{standing.families[family].name}: no egg was kept in the last week, so nobody can say when "
            f"{waiting[family]} more are there."
        )
    crowded = {standing.families[family].name: n for family, n in waiting.items() if family not in dry}
    told = ", ".join(f"{n} of {name}" for name, n in crowded.items())
    if 0 < sum(crowded.values()) < least:
        yield (
            f"{told} would be left for a setting of its own; fewer than {least} are not worth a machine's weeks, so "
            "that is left out, and the chance is reckoned without."
        )
    elif crowded:
        n = sum(crowded.values())
        find = f"{many(n, 'egg')} {'finds' if n == 1 else 'find'}"
        yield f"{find} no place ({told}): more room is needed, or fewer chicks wished for."


def incubators(standing: Standing) -> list[Place]:
    """By name, without the one that only stands for those of past hatches."""
    found = [
        Place(key, place.name, None if place.capacity is None else int(place.capacity))
        for key, place in standing.places.items()
        if place.role == "incubator" and not is_unnamed_machine(key)
    ]
    return sorted(found, key=lambda place: (place.name, place.id))


def _free(held: Sequence[Held], place: Place, species: Species, set_on: date) -> int | None:
    """Eggs that the machine still takes that day; None where it takes any number.

    What counts is the fullest day until these would hatch: what goes out before another batch comes in is no crowd.
    """
    beside = _beside(held, species, set_on)
    days = {set_on} | {one.begins for one in beside if one.begins > set_on}
    there = max(sum(one.n for one in beside if one.begins <= day <= one.ends) for day in days)
    return None if place.capacity is None else max(0, place.capacity - there)


def _clashes(held: Sequence[Held], species: Species, set_on: date) -> set[date]:
    """Lockdowns of several days in one machine: all but the latest come while others still want turning."""
    own = set_on + timedelta(days=species.lockdown_day)
    days = {one.locks for one in _beside(held, species, set_on)} | {own}
    return days if len(days) > 1 else set()


def _is_shared(held: Sequence[Held], species: Species, set_on: date) -> bool:
    return any(one.species != species.code and one.n > 0 for one in _beside(held, species, set_on))


def _beside(held: Sequence[Held], species: Species, set_on: date) -> list[Held]:
    """What is in the machine while eggs set that day would be."""
    last = set_on + timedelta(days=species.period_days[1])
    return [one for one in held if one.ends >= set_on and one.begins <= last]


def running(standing: Standing, place: Place) -> Iterator[Held]:
    """Settings that run in a machine, be it a hatcher: from lockdown on where they were moved to."""
    for setting in standing.settings.values():
        species = species_named(setting.species)
        locked_ms = setting.locked_at_ms
        where = place_in(setting, "setter" if locked_ms is None else "hatcher")
        if standing.root_of.get(where, where) == place.id and setting.runs and species is not None:
            set_on = _held_day(local_date(instant(setting.set_at_ms), standing.keeper.zone))
            last = species.period_days[1]
            locks = set_on + timedelta(days=int(min(setting.lockdown_day or species.lockdown_day, last)))
            if locked_ms is not None:
                locks = _held_day(local_date(instant(locked_ms), standing.keeper.zone))
            eggs = sum(max(0, setting.stages.get(stage, 0)) for stage in ("set", "locked"))
            begins = locks if place.id != standing.root_of.get(setting.place, setting.place) else set_on
            yield Held(begins, locks, set_on + timedelta(days=last), eggs, species.code)


def _held_day(on: str) -> date:
    """The day, or the last from which a hatch can still be reckoned: entries may name any day of the calendar."""
    return min(date.fromisoformat(on), _LAST_DAY)


def held_by(planned: Sequence[Round], place: Place) -> Iterator[Held]:
    """Settings of a plan in a machine."""
    for one in planned:
        if one.place == place:
            begins, locks, ends = map(date.fromisoformat, (one.set_on, one.lockdown_on, one.hatch_on))
            yield Held(begins, locks, ends, sum(n for _, n in one.lots), one.species)


def _take(
    waiting: dict[str, int], free: int | None, least: int, store: Mapping[str, Supply], on: date
) -> list[tuple[str, int]]:
    """Eggs of as many families as find room, taken from those that wait; none where they are too few to set.

    Where any number can be had at any time, so many are held back that the last setting is not too small either.
    """
    whole = sum(waiting.values())
    room = whole if free is None else min(free, whole)
    there = sum(min(n, store[family].left(on)) if family in store else n for family, n in waiting.items())
    if not waiting or min(room, there) < least:
        return []
    short = least - (whole - room)
    if 0 < short < least and room - short >= least and not store.keys() & waiting.keys():
        room -= short
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
        species=species.code,
        set_on=set_on.isoformat(),
        lockdown_on=(set_on + timedelta(days=species.lockdown_day)).isoformat(),
        hatch_on=(set_on + timedelta(days=species.period_days[1])).isoformat(),
        place=place,
        lots=tuple(lots),
    )
