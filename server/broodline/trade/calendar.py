"""The calendar of an incubation: candling, lockdown, hatch window. UTC inside, local dates only at the edge.

Day n begins n x 24 h after the eggs were set, so a change of the clocks moves the local time of a milestone,
never its distance from setting.

    >>> from broodline.trade.species import SPECIES
    >>> set_at = datetime(2026, 3, 8, 23, 30, tzinfo=UTC)
    >>> plan = incubation_calendar(SPECIES["chicken"], set_at)
    >>> [local_date(stone.at, "Europe/Dublin") for stone in (plan.lockdown, plan.hatch_from)]
    ['2026-03-26', '2026-03-30']
    >>> day_of(set_at, datetime(2026, 3, 9, 23, 29, tzinfo=UTC))
    0
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from broodline.trade.species import DARK_SHELL_DAY, Species

DAY = timedelta(hours=24)
FIRST_YEAR, LAST_YEAR = 1900, 2199
_FIRST = datetime(1, 1, 2, tzinfo=UTC)
_LAST = datetime(9999, 12, 30, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Milestone:
    """day: days since setting, whole unless a keeper chose a part of a day. at: when it begins, UTC."""

    day: float
    at: datetime


@dataclass(frozen=True, slots=True)
class Calendar:
    """candle: in order. lockdown: turning stops. hatch_from, hatch_to: first and last day of the usual hatch."""

    candle: tuple[Milestone, ...]
    lockdown: Milestone
    hatch_from: Milestone
    hatch_to: Milestone


def day_of(set_at: datetime, now: datetime) -> int:
    """Whole days since setting; set day is 0, before setting is negative. Both instants aware."""
    return (now - set_at) // DAY


def later(at: datetime, span: timedelta) -> datetime:
    """at + span in UTC, held a day inside the years 1 and 9999, so that every zone can show it. at: aware.

    >>> later(datetime(9999, 12, 30, tzinfo=UTC), timedelta(days=9)).year
    9999
    """
    try:
        return max(_FIRST, min(at.astimezone(UTC) + span, _LAST))
    except OverflowError:
        return _LAST if span > timedelta(0) else _FIRST


def milestone(set_at: datetime, day: float) -> Milestone:
    """The beginning of day `day`: day x 24 h after setting, held within the calendar's years."""
    try:
        return Milestone(day, later(set_at, day * DAY))
    except OverflowError:
        return Milestone(day, _LAST)


def incubation_calendar(
    species: Species, set_at: datetime, lockdown_day: float | None = None, *, dark_shells: bool = False
) -> Calendar:
    """The milestones of a setting. lockdown_day: the setting's own, which wins over the species table.

    Candling days at or after lockdown fall away: the eggs then rest. dark_shells: no egg lets light through before
    day 10 or so, so that the first candling waits until then (tables/species.json, common practice).
    """
    locked = species.lockdown_day if lockdown_day is None else lockdown_day
    low, high = species.period_days
    days = sorted({max(day, DARK_SHELL_DAY) for day in species.candle_days}) if dark_shells else species.candle_days
    return Calendar(
        candle=tuple(milestone(set_at, day) for day in days if day < locked),
        lockdown=milestone(set_at, locked),
        hatch_from=milestone(set_at, low),
        hatch_to=milestone(set_at, high),
    )


def day_asked(text: str) -> date:
    """A day that somebody asks about, from YYYY-MM-DD. Raises ValueError for what is none, and for one outside the
    years 1900 to 2199: no flock is asked about there, and nothing that is reckoned from it leaves the calendar.

    >>> day_asked("2026-03-08").isoformat()
    '2026-03-08'
    """
    day = date.fromisoformat(text)
    if text != day.isoformat() or not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError("not a day such as 2026-03-08 of the years 1900 to 2199")
    return day


def zone_named(name: str) -> tzinfo | None:
    """The time zone with this IANA name, or None when there is none."""
    try:
        return ZoneInfo(name)
    except (LookupError, ValueError, OSError):
        return None


def local_date(at: datetime, zone: str) -> str:
    """The date at that instant in the zone, YYYY-MM-DD; in UTC where the zone is not known."""
    return at.astimezone(zone_named(zone) or UTC).date().isoformat()


def local_time(at: datetime, zone: str) -> str:
    """Date and time of day at that instant in the zone, YYYY-MM-DD HH:MM; in UTC where the zone is not known."""
    return at.astimezone(zone_named(zone) or UTC).isoformat(sep=" ", timespec="minutes")[:16]


def instant_text(at: datetime) -> str:
    """The instant in UTC to the millisecond, as entries write it: 2026-03-08T19:40:12.345Z."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
