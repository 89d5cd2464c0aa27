"""What a keeper wants to be reminded of on one device, and when: times of day in the holding's zone, DST and all."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

from broodline.errors import EnvelopeError
from broodline.trade.calendar import zone_named
from broodline.trade.sources import cell, read_table

_TABLE = read_table("reminders")
TASKS: tuple[str, ...] = tuple(_TABLE["tasks"])
USUAL: tuple[str, ...] = tuple(task for task, told in _TABLE["tasks"].items() if not told.get("seldom", False))
"""What a device is reminded of until its keeper chooses: no daily rounds."""
_USUAL = {name: int(cell(written).value) for name, written in _TABLE["times"].items()}
_TIME = re.compile(r"([01]\d|2[0-3]):([0-5]\d)")
_REMEDY = "Choose the reminders again on the Phone page."


@dataclass(frozen=True, slots=True)
class Wishes:
    """what: tasks. morning, evening_before: minutes since midnight. quiet: from and until, may pass midnight."""

    what: frozenset[str] = frozenset(USUAL)
    morning: int = _USUAL["morning"]
    evening_before: int = _USUAL["evening_before"]
    quiet: tuple[int, int] | None = None

    def minutes(self, slot: str) -> int:
        """The time of day of a slot: morning or evening_before."""
        return self.evening_before if slot == "evening_before" else self.morning


def read_wishes(written: object) -> Wishes:
    """{what: [task], at: "07:00", evening: "18:00", quiet: {from, until} or null}; each may be left out.

    Tasks of a newer app are passed over. Raises EnvelopeError.
    """
    if not isinstance(written, Mapping):
        raise EnvelopeError("wishes", "The choice of reminders must be an object.", remedy=_REMEDY)
    what = written.get("what", list(USUAL))
    if not isinstance(what, list) or not all(isinstance(task, str) for task in what):
        raise EnvelopeError("what", "what must be a list of tasks.", remedy=_REMEDY)
    quiet = written.get("quiet")
    if quiet is not None and not isinstance(quiet, Mapping):
        raise EnvelopeError("quiet", "quiet must have from and until, or be null.", remedy=_REMEDY)
    hours = None if quiet is None else (_minutes(quiet.get("from")), _minutes(quiet.get("until")))
    if hours is not None and hours[0] == hours[1]:
        raise EnvelopeError("quiet", "Quiet hours cannot end when they begin.", remedy=_REMEDY)
    return Wishes(
        frozenset(what) & frozenset(TASKS),
        _minutes(written.get("at", _text(_USUAL["morning"]))),
        _minutes(written.get("evening", _text(_USUAL["evening_before"]))),
        hours,
    )


def wishes_json(wishes: Wishes) -> dict[str, Any]:
    """The wishes as `read_wishes` reads them."""
    quiet = wishes.quiet
    return {
        "what": [task for task in TASKS if task in wishes.what],
        "at": _text(wishes.morning),
        "evening": _text(wishes.evening_before),
        "quiet": None if quiet is None else {"from": _text(quiet[0]), "until": _text(quiet[1])},
    }


def time_on(day: date, minutes: int, zone: str) -> datetime:
    """The instant of a time of day, UTC. One that the clocks skip comes as much later as they skip; one that they
    show twice is the first of the two.

    >>> time_on(date(2026, 3, 29), 90, "Europe/Dublin").isoformat()  # 01:30 does not exist: 02:30 summer time
    '2026-03-29T01:30:00+00:00'
    """
    hour, minute = divmod(minutes, 60)
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=zone_named(zone) or UTC).astimezone(UTC)


def after_quiet(at: datetime, wishes: Wishes, zone: str) -> datetime:
    """The instant itself, or the end of the quiet hours it falls into. at: aware."""
    if wishes.quiet is None:
        return at
    start, end = wishes.quiet
    local = at.astimezone(zone_named(zone) or UTC)
    minute = local.hour * 60 + local.minute
    over_midnight = start > end
    inside = minute >= start or minute < end if over_midnight else start <= minute < end
    if not inside:
        return at
    day = local.date() + timedelta(days=1 if over_midnight and minute >= start else 0)
    return max(at, time_on(day, end, zone))


def _minutes(text: object) -> int:
    found = _TIME.fullmatch(text) if isinstance(text, str) else None
    if found is None:
        raise EnvelopeError("time", "A time of day is written as 07:00.", remedy=_REMEDY)
    return int(found[1]) * 60 + int(found[2])


def _text(minutes: int) -> str:
    return f"{minutes // 60:02}:{minutes % 60:02}"
