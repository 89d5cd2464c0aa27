"""Losses of chicks held against what was published, and when they are more than their age explains.

Expected deaths come from the highest published figures for the age: the first week's, then a weekly one. A species of
which none was read has no expectation, so only several deaths on one day are told.

    >>> first_week("chicken", 1, 60), first_week("chicken", 1, 120), first_week("duck", 1, 12) is None
    ('above', 'between', True)
    >>> [alarm.on_day for alarm in alarms("chicken", [(day, 60, 3 * (day == 3)) for day in range(7)])]
    [3]
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import ceil

from broodline.trade.loss_alarm import alarming_deaths, chance_of_so_many, cusum, reference_for
from broodline.trade.sources import Cell, cell, read_table

_TABLE = read_table("losses")
_ALARM = {name: cell(written) for name, written in _TABLE["alarm"].items()}
_REFERENCE = reference_for(_ALARM["rise"].value)
_WEEK = 7
TOGETHER: frozenset[str] = frozenset(_TABLE["together"]["causes"])
"""Causes that take several chicks at once: no chance, left out of the alarms."""
FEW: int = cell(_TABLE["few"]).value
WORDS: dict[str, str] = _TABLE["words"]


@dataclass(frozen=True, slots=True)
class Alarm:
    """Too many deaths. on_day: of age. died, expected: on that day ("day"), or since losses began to rise ("sum").

    p: the chance of so many on that day; None for a slow rise and where nothing is expected.
    """

    kind: str
    on_day: int
    died: int
    expected: float | None
    p: float | None


def daily_share(species: str, age_days: int) -> float | None:
    """The share of chicks of that age expected to die in a day: the highest published; None where none was read.

    >>> round(daily_share("chicken", 2), 6), round(daily_share("chicken", 30), 6), daily_share("goose", 2) is None
    (0.001429, 0.000286, True)
    """
    bounds = first_week_cells(species)
    if bounds is None:
        return None
    if age_days < _WEEK:
        return float(bounds[1].value) / 100 / _WEEK
    later = _TABLE["later_weeks"].get(species)
    return None if later is None else float(cell(later).value[1]) / 100 / _WEEK


def first_week_cells(species: str) -> tuple[Cell, Cell] | None:
    """What commercial flocks lose in the first week, percent: (at best, at most), or at most (of hens, of toms).

    None where none was read.
    """
    week = _TABLE["first_week"].get(species)
    if week is None:
        return None
    low, high = ("hens", "toms") if "hens" in week else ("ideal", "most")
    return cell(week[low]), cell(week[high])


def first_week_words(species: str) -> str | None:
    """What commercial flocks lose in the first week; None where none was read.

    >>> first_week_words("turkey")
    'Commercial flocks: at most 1.5 % of hens and 2.5 % of toms in a first week.'
    """
    week = _TABLE["first_week"].get(species)
    if week is None:
        return None
    kind = "week_by_sex" if "hens" in week else "week"
    return WORDS[kind].format(**{name: f"{cell(figure).value:g}" for name, figure in week.items()})


def first_week(species: str, died: int, n: int) -> str | None:
    """ "below", "between" or "above" the published bounds; None where there are none, or no chicks."""
    bounds = first_week_cells(species)
    if bounds is None or n <= 0:
        return None
    share = 100 * died / n
    if share > bounds[1].value:
        return "above"
    return "between" if share > bounds[0].value else "below"


def expected_alive(weekly_pct: float, weeks: int) -> float:
    """The percent alive after so many weeks of a steady loss.

    >>> round(expected_alive(0.2, 17), 2), round(expected_alive(0.05, 17), 2)
    (96.65, 99.15)
    """
    return 100 * (1 - weekly_pct / 100) ** weeks


def alarms(species: str, days: Sequence[tuple[int, int, int]]) -> list[Alarm]:
    """Days on which too many died. days: (age, chicks that morning, died by chance), every day in order.

    A day alarms where so many deaths were rarer than 0.27 %, or, with nothing to expect, where two or more died. A
    slow rise alarms on the day its running sum reaches the limit, and begins anew after it; a day that reaches it
    alone is told as a day.
    """
    shares = [daily_share(species, age) for age, _, _ in days]
    least = _ALARM["least"].value
    found = []
    for (age, n, died), share in zip(days, shares, strict=True):
        if died < least:
            continue
        p = None if share is None else chance_of_so_many(died, n, share)
        if p is None or p <= _ALARM["at_most"].value:
            found.append(Alarm("day", age, died, None if share is None else n * share, p))
    told = {alarm.on_day for alarm in found}
    found += [alarm for alarm in _rises(days, shares) if alarm.kind == "sum" or alarm.on_day not in told]
    return sorted(found, key=lambda alarm: (alarm.on_day, alarm.kind))


def alarm_from(species: str, age_days: int, n: int) -> int | None:
    """How many of n dead on one day of that age would alarm; None where not even all of them would.

    >>> alarm_from("chicken", 2, 60), alarm_from("chicken", 30, 60), alarm_from("goose", 2, 60)
    (3, 2, 2)
    """
    least = int(_ALARM["least"].value)
    share = daily_share(species, age_days)
    if share is None:
        return least if least <= n else None
    rare = alarming_deaths(n, share, at_most=_ALARM["at_most"].value)
    some = max(least, min(rare, ceil(_ALARM["sum"].value + _REFERENCE * n * share)))
    return some if some <= n else None


def later_alive_pct(species: str, age_days: int) -> tuple[float, float] | None:
    """Of a hundred chicks a week old, how many of commercial flocks live at that age: at worst, at best.

    None in the first week, and where no later figure was read.

    >>> [round(end, 2) for end in later_alive_pct("chicken", 18 * 7) or ()], later_alive_pct("duck", 30)
    ([96.65, 99.15], None)
    """
    later = _TABLE["later_weeks"].get(species)
    weeks = age_days // _WEEK - 1
    if later is None or weeks < 1:
        return None
    least, most = cell(later).value
    return expected_alive(most, weeks), expected_alive(least, weeks)


def later_alive_cell(species: str) -> Cell:
    """Where the weekly losses behind `later_alive_pct` were read."""
    return cell(_TABLE["later_weeks"][species])


def words_for_age(age_days: int) -> Cell:
    """What to think of first when chicks of that age die."""
    return next(
        cell(row["words"])
        for row in _TABLE["ages"]
        if row["from_day"] <= max(0, age_days) < row.get("to_day", age_days + 1)
    )


def _rises(days: Sequence[tuple[int, int, int]], shares: Sequence[float | None]) -> list[Alarm]:
    """The running sum over days of which something is expected; kind "day" where one day alone reached the limit."""
    counted = [(day, share) for day, share in zip(days, shares, strict=True) if share is not None]
    known = [(age, n * share, died) for (age, n, died), share in counted]
    chances = {age: chance_of_so_many(died, n, share) for (age, n, died), share in counted if died}
    found = []
    while known:
        levels = cusum(
            [died for _, _, died in known],
            [due for _, due, _ in known],
            reference=_REFERENCE,
            alarm_at=_ALARM["sum"].value,
        )
        last = next((number for number, level in enumerate(levels) if level.alarm), None)
        if last is None:
            break
        first = max((number + 1 for number, level in enumerate(levels[:last]) if level.sum == 0), default=0)
        died = sum(one for _, _, one in known[first : last + 1])
        *_, due = accumulate(one for _, one, _ in known[first : last + 1])
        on_day = known[last][0]
        alone = first == last
        found.append(Alarm("day" if alone else "sum", on_day, died, due, chances[on_day] if alone else None))
        known = known[last + 1 :]
    return found
