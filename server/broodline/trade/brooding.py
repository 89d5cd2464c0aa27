"""A brooder by species and age: how warm at the height of the chicks' backs, and how much room.

Ages are whole days since hatching; day 0 is the day they came out. Sources differ, so every figure is a range with
the cells it came from. A species whose figures were read nowhere gives None: nothing is borrowed from another.

    >>> week = heat_at("chicken", 16)
    >>> round(week.low_c, 1), round(week.high_c, 1), week.next_day
    (26.7, 29.4, 21)
    >>> heat_at("bobwhite", 10).published_f, heat_at("pheasant", 3) is None
    ((85, 90), True)
    >>> heat_at("coturnix", 10).published_f is None, heat_at("coturnix", 10).off_days, heat_at("coturnix", 28) is None
    (True, (21, 28), True)
    >>> room = space_at("chicken", 3)
    >>> round(room.floor_m2[0], 3), round(room.floor_m2[1], 3), room.next_day
    (0.018, 0.046, 14)
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from broodline.trade.sources import Cell, cell, read_table, source_of
from broodline.trade.units import (
    CENTIMETRES_PER_INCH,
    SQUARE_METRES_PER_SQUARE_CENTIMETRE,
    SQUARE_METRES_PER_SQUARE_FOOT,
    to_celsius,
)

_TABLE = read_table("brooding")
WHERE: str = _TABLE["where"]
CAUTIONS: tuple[Cell, ...] = tuple(map(cell, _TABLE["cautions"]))
WEEK = 7
Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Heat:
    """The band for an age. published_f: as the source has it; None, as low_c and high_c, where heat is needed but no
    figure was read for that age: the chicks alone say how much.

    next_day: the age of the next step, None after the last. off_days: the ages between which heat ends, where that was
    read; it is asked for until the later. cell: the figure the band begins with, without one that of the end.
    """

    low_c: float | None
    high_c: float | None
    published_f: Range | None
    next_day: int | None
    off_days: Range | None
    cell: Cell


@dataclass(frozen=True, slots=True)
class Space:
    """Room for one bird: floor in square metres, feeder and drinker edge in centimetres; None where none was read.

    next_day: the age from which the ranges are others, or the sources end. cells: all that the ranges hold.
    """

    floor_m2: Range | None
    feeder_cm: Range | None
    drinker_cm: Range | None
    next_day: int | None
    cells: tuple[Cell, ...]


def heat_at(species: str, age_days: int) -> Heat | None:
    """The heat for chicks of that age under the source; None for an unread species, or where no more is asked."""
    row = _TABLE["heat"].get(species)
    if row is None or age_days < 0:
        return None
    return _by_bands(row, age_days) if "bands" in row else _by_steps(row, age_days)


def heat_steps(species: str) -> Iterator[tuple[int, Heat | None]]:
    """(age, the heat from that age on) for every change after the first day; None where heat ends."""
    heat = heat_at(species, 0)
    while heat is not None and heat.next_day is not None:
        day = heat.next_day
        heat = heat_at(species, day)
        yield day, heat


def looks_like(look: str) -> Cell | None:
    """What it says when chicks lie so: spread, huddled, away or one_side."""
    written = _TABLE["looks"].get(look)
    return None if written is None else cell(written)


def looks_source(species: str) -> str:
    """Where it was read what such looks say: of quail; for all other young it is what keepers commonly go by.

    >>> looks_source("bobwhite")
    'Quail brooding temperatures'
    """
    read = source_of(cell(_TABLE["looks"]["spread"]).source).title
    return read if species in _TABLE["looks_read_of"] else f"common practice, no source; read of quail only ({read})"


def chicks_under_lamp(room_f: float, lamps: int = 1) -> int:
    """Chicks that lamps of 250 W keep warm in a room of that temperature (°F): 75 at 50 °F, one fewer a degree below.

    Plamondon. Above 50 °F no more than at 50 °F: no figure was read.

    >>> chicks_under_lamp(50), chicks_under_lamp(-20), chicks_under_lamp(-20, lamps=4)
    (75, 5, 20)
    """
    lamp = {name: cell(_TABLE["lamp"][name]).value for name in ("chicks", "at", "less")}
    below = max(0.0, lamp["at"] - room_f)
    return lamps * max(0, int(lamp["chicks"] - lamp["less"] * below))


def space_at(species: str, age_days: int) -> Space | None:
    """Room for one bird of that age: the range of all sources that speak of it. None where none does."""
    now = _room(species, age_days)
    if now is None:
        return None
    rows = _TABLE["space"][species]
    edges = {edge for row in rows for edge in (row["from_day"], row.get("to_day")) if edge and edge > age_days}
    return replace(now, next_day=next((edge for edge in sorted(edges) if _differ(now, _room(species, edge))), None))


def _room(species: str, age_days: int) -> Space | None:
    rows = _TABLE["space"].get(species, ())
    now = [row for row in rows if row["from_day"] <= age_days < row.get("to_day", age_days + 1)]
    if not now:
        return None
    found = {part: [cell(row[part]) for row in now if part in row] for part in ("floor", "feeder", "drinker")}
    return Space(
        _widest(found["floor"]),
        _widest(found["feeder"]),
        _widest(found["drinker"]),
        None,
        tuple(figure for part in found.values() for figure in part),
    )


def _differ(one: Space, other: Space | None) -> bool:
    return other is None or any(
        getattr(one, part) != getattr(other, part) for part in ("floor_m2", "feeder_cm", "drinker_cm")
    )


def ends_of(value: Any) -> Range:
    """The ends of a figure that is a number or a range."""
    return (value[0], value[-1]) if isinstance(value, list) else (value, value)


def _by_steps(row: Mapping[str, Any], age_days: int) -> Heat | None:
    """A start, so many degrees less each week down to a floor; the widest band its ranges allow."""
    week = age_days // WEEK
    off_days = _ends_of_weeks(row)
    held = cell(row["hold_weeks"]).value if "hold_weeks" in row else 1
    steps = max(0, week + 1 - held)
    start = cell(row["start"])
    (low, high), (small, large) = ends_of(start.value), ends_of(cell(row["step"]).value)
    floor = cell(row["floor"]).value if "floor" in row else None
    is_over = floor is not None and steps > 0 and high - small * (steps - 1) <= floor
    if is_over or (off_days is not None and age_days >= off_days[1]):
        return None
    band = low - large * steps, high - small * steps
    if floor is not None:
        band = max(floor, band[0]), max(floor, band[1])
    is_endless = floor is None and off_days is None  # a row that says neither how low nor how long has no step to come
    next_day = None if is_endless else max(week + 1, held) * WEEK
    return Heat(to_celsius(band[0]), to_celsius(band[1]), band, next_day, off_days, start)


def _ends_of_weeks(row: Mapping[str, Any]) -> Range | None:
    if "weeks" not in row:
        return None
    low, high = ends_of(cell(row["weeks"]).value)
    return low * WEEK, high * WEEK


def _by_bands(row: Mapping[str, Any], age_days: int) -> Heat | None:
    """Bands as printed, each from its day on; the last has no next.

    Where only the start was read the chicks alone say how much from then on, looked at anew each week until heat ends.
    """
    bands = row["bands"]
    until = cell(row["bands_until"]) if "bands_until" in row else None
    off = cell(row["off"]) if "off" in row else None
    off_days = None if off is None else ends_of(off.value)
    if off_days is not None and age_days >= off_days[1]:
        return None
    if until is not None and age_days >= until.value:
        week_end = age_days - age_days % WEEK + WEEK
        following = None if off_days is None else int(min(week_end, off_days[1]))
        return Heat(None, None, None, following, off_days, until if off is None else off)
    number = max(n for n, band in enumerate(bands) if band["from_day"] <= age_days)
    figure = cell(bands[number]["heat"])
    low, high = ends_of(figure.value)
    next_day = bands[number + 1]["from_day"] if number + 1 < len(bands) else None if until is None else until.value
    return Heat(to_celsius(low), to_celsius(high), (low, high), next_day, off_days, figure)


def _widest(figures: list[Cell]) -> Range | None:
    """The range of all figures, in square metres or centimetres."""
    turned = [end * _factor(figure.unit) for figure in figures for end in ends_of(figure.value)]
    return (min(turned), max(turned)) if turned else None


def _factor(unit: str) -> float:
    if unit.startswith("ft²"):
        return SQUARE_METRES_PER_SQUARE_FOOT
    return SQUARE_METRES_PER_SQUARE_CENTIMETRE if unit.startswith("cm²") else CENTIMETRES_PER_INCH
