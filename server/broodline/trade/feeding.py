"""What birds eat and drink by age: the range of all sources that speak of it, never one number.

Ages are whole days since hatching. Between the ages a source names its figures are joined by straight lines; before
and beyond them it says nothing. A species whose figures were read nowhere gives None.

    >>> [round(water_ml_a_day("chicken", 28)[end]) for end in (0, 1)]
    [71, 168]
    >>> protein_at("chicken", 10).percent, protein_at("chicken", 10).stage
    ((18, 22), 'starter')
    >>> feed_g_a_day("duck", 10) is None
    True
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Any

from broodline.trade.brooding import WEEK, Range, ends_of
from broodline.trade.sources import Cell, cell, read_table
from broodline.trade.units import GRAMS_PER_POUND, MILLILITRES_PER_US_GALLON

_TABLE = read_table("feeding")
LOOK: str = _TABLE["look"]
_SPREAD_PCT: float = cell(_TABLE["spread"]).value
FLOCK_OF_100 = 100


@dataclass(frozen=True, slots=True)
class Protein:
    """Protein of the feed for an age, percent, and the stage it is called. cells: all that the range holds."""

    stage: str
    percent: Range
    cells: tuple[Cell, ...]


def protein_at(species: str, age_days: int) -> Protein | None:
    """The protein that sources ask for at that age; None where none does."""
    now = _rows_at(_TABLE["protein"].get(species, ()), age_days)
    if not now:
        return None
    figures = [cell(row["protein"]) for row in now]
    ends = [end for figure in figures for end in ends_of(figure.value)]
    return Protein(now[0]["stage"], (min(ends), max(ends)), tuple(figures))


def turkey_protein_pct(weeks: float, sex: str) -> float | None:
    """Protein that turkeys of Medium White stock need, percent, by sex ("male" or "female") and weeks of age.

    None before the hatch and for grown turkeys.

    Potter and Shelton 1980, Poult. Sci. 59:1268.

    >>> round(turkey_protein_pct(8, "male") or 0, 2), round(turkey_protein_pct(12, "female") or 0, 2)
    (25.42, 20.94)
    >>> turkey_protein_pct(25, "male") is None
    True
    """
    line = _TABLE["protein_line"]
    if not 0 <= weeks <= cell(line["until"]).value:
        return None
    return float(cell(line["start"]).value - cell(line[sex]).value * weeks)


def feed_change(species: str) -> tuple[Range, Cell] | None:
    """The days between which the starter gives way to the next feed, and where that was read; None where it was not."""
    written = _TABLE["change"].get(species)
    return None if written is None else (ends_of(cell(written).value), cell(written))


def grit_mm(species: str, age_days: int) -> tuple[Range, Cell] | None:
    """The size of grit for that age, millimetres; None for all but chickens, of which alone it was read.

    age_days of 0 or more.
    """
    if species != "chicken":
        return None
    (row,) = _rows_at(_TABLE["grit"], age_days)
    return ends_of(cell(row["size"]).value), cell(row["size"])


def feed_g_a_day(species: str, age_days: int, growth: str = "slow") -> Range | None:
    """Feed of one bird on that day, grams. growth: "slow" (layers, old breeds) or "fast" (meat birds)."""
    return _range(eaten_by(row, age_days) for row in _feed_rows(species, growth))


def feed_g_between(species: str, first_day: int, last_day: int, growth: str = "slow") -> Range | None:
    """Feed of one bird from first_day to before last_day, grams; None where no source speaks of all those days."""
    return _range(
        None if None in days else sum(day for day in days if day is not None)
        for row in _feed_rows(species, growth)
        for days in [[eaten_by(row, day) for day in range(first_day, last_day)]]
    )


def feed_cells(species: str, first_day: int, last_day: int, growth: str = "slow") -> list[tuple[str, Cell]]:
    """(kind of bird, figures) of every source that speaks of all days from first_day to before last_day."""
    return [
        (row["kind"], cell(row["weekly"] if "weekly" in row else row["total"]))
        for row in _feed_rows(species, growth)
        if all(eaten_by(row, day) is not None for day in range(first_day, last_day))
    ]


def water_ml_a_day(species: str, age_days: int) -> Range | None:
    """Water of one bird a day at about 21 °C, millilitres; above 32 °C half as much again (see `hot_weather`)."""
    ends = [end for row in _TABLE["water"].get(species, ()) for end in _drunk(row, age_days)]
    return (min(ends), max(ends)) if ends else None


def water_cells(species: str, age_days: int) -> list[tuple[str, Cell]]:
    """(kind of bird, figure) of every source that speaks of water at that age."""
    names = ("daily", "weekly", "per_day_of_age", "per_week_of_age", "weekly_100")
    return [
        (row["kind"], cell(row[name]))
        for row in _TABLE["water"].get(species, ())
        if _drunk(row, age_days)
        for name in names
        if name in row
    ]


def with_spread(ends: Range | None, cells: Iterable[Cell]) -> Range | None:
    """What to reckon with: a range wider by a stated share each way where all of it is of one source.

    >>> cells = [figure for _, figure in water_cells("chicken", 3)]
    >>> [round(end, 9) for end in with_spread((100, 120), cells) or ()]
    [90.0, 132.0]
    """
    if ends is None or not _is_one_source(cells):
        return ends
    return ends[0] * (100 - _SPREAD_PCT) / 100, ends[1] * (100 + _SPREAD_PCT) / 100


def source_words(cells: Iterable[Cell]) -> str:
    """Whether the sources behind a range differ, or one speaks alone and how wide it is shown."""
    words: str = _TABLE["one" if _is_one_source(cells) else "differ"]
    return words.format(pct=f"{_SPREAD_PCT:g}")


def _is_one_source(cells: Iterable[Cell]) -> bool:
    """Two columns of one table are one source."""
    return len({figure.source for figure in cells}) == 1


def memory_words(cells: Iterable[Cell]) -> str | None:
    """That a range rests on figures from memory, all of it or a part; None where none of it does."""
    statuses = {figure.status for figure in cells}
    if "memory" not in statuses:
        return None
    words: str = _TABLE["from_memory"]["all" if statuses == {"memory"} else "some"]
    return words


def hot_weather(water_ml: float) -> Range:
    """Water above 32 °C of a bird that drinks so much at 21 °C (Poultry CRC).

    >>> hot_weather(160)
    (208.0, 240.0)
    """
    low, high = cell(_TABLE["hot"]).value
    return water_ml * low, water_ml * high


def totals(weekly: Sequence[float]) -> list[float]:
    """Running totals of weekly feed.

    >>> totals([110, 240, 355])
    [110, 350, 705]
    """
    return list(accumulate(weekly))


def note_for(species: str) -> Cell | None:
    """What to mind with this species' feed or water."""
    written = _TABLE["notes"].get(species)
    return None if written is None else cell(written)


def eaten_by(row: Mapping[str, Any], age_days: int) -> float | None:
    """What one source's bird eats that day, grams; None outside its ages.

    Of weekly figures each stands for the week it ends (week 0: the first days), of running totals the difference.
    """
    weeks: list[int] = row["weeks"]
    if "total" in row:
        pounds = [0.0, *cell(row["total"]).value]
        for (start, end), (before, after) in zip(pairwise([0, *weeks]), pairwise(pounds), strict=True):
            if start * WEEK <= age_days < end * WEEK:
                return float(after - before) * GRAMS_PER_POUND / ((end - start) * WEEK)
        return None
    figures: list[float] = [figure / WEEK for figure in cell(row["weekly"]).value]
    if weeks[0] == 1:
        week = age_days // WEEK
        return float(figures[week]) if 0 <= week < len(figures) else None
    return _between([week * WEEK for week in weeks], figures, age_days)


def _feed_rows(species: str, growth: str) -> list[Mapping[str, Any]]:
    return [row for row in _TABLE["feed"].get(species, ()) if row["growth"] == growth]


def _drunk(row: Mapping[str, Any], age_days: int) -> list[float]:
    """What one source's bird drinks that day, millilitres: nothing, one figure, or the ends of a range."""
    if "days" in row:
        daily = "daily" in row
        figures = [figure if daily else figure / WEEK for figure in cell(row["daily" if daily else "weekly"]).value]
        days = row["days"] if daily else [0, *row["days"]]  # a week's total stands for all of its first days
        found = _between(days, figures if daily else [figures[0], *figures], age_days)
        return [] if found is None else [found]
    if not row["from_day"] <= age_days < row["to_day"] + 1:
        return []
    if "per_day_of_age" in row:
        return [cell(row["per_day_of_age"]).value * age_days]
    if "per_week_of_age" in row:
        gallons = cell(row["per_week_of_age"]).value * age_days / WEEK
        return [gallons * MILLILITRES_PER_US_GALLON / FLOCK_OF_100]
    return [end * MILLILITRES_PER_US_GALLON / FLOCK_OF_100 / WEEK for end in cell(row["weekly_100"]).value]


def _between(days: Sequence[float], figures: Sequence[float], age_days: int) -> float | None:
    """On the straight line between two known days; None outside all of them."""
    for (first, last), (before, after) in zip(pairwise(days), pairwise(figures), strict=True):
        if first <= age_days <= last:
            return before + (after - before) * (age_days - first) / (last - first)
    return None


def _rows_at(rows: Iterable[Mapping[str, Any]], age_days: int) -> list[Mapping[str, Any]]:
    return [row for row in rows if row["from_day"] <= age_days < row.get("to_day", age_days + 1)]


def _range(figures: Iterable[float | None]) -> Range | None:
    known = [figure for figure in figures if figure is not None]
    return (min(known), max(known)) if known else None
