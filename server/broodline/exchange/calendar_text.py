"""Happenings as an iCalendar file (RFC 5545), with the rules of their time zone and an alarm each.

The zone is written out for the time the file speaks of, change by change: no calendar needs to know its name.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from typing import Protocol

from broodline.trade.calendar import zone_named

MOST_OCTETS = 75  # RFC 5545, section 3.1
AROUND = timedelta(days=370)  # how far before and after its happenings the zone is written out
LASTS = "PT30M"
PRODUCT = "-//Broodline//Calendar of what is due//EN"
_DAY = timedelta(days=1)


class Happening(Protocol):
    """What is written down. uid: stays the same when its time is corrected. at: aware."""

    @property
    def uid(self) -> str: ...
    @property
    def at(self) -> datetime: ...
    @property
    def title(self) -> str: ...
    @property
    def words(self) -> str: ...
    @property
    def path(self) -> str: ...


def calendar_file(happenings: Sequence[Happening], *, zone: str, origin: str, now: datetime, sequence: int) -> bytes:
    """The file. zone: IANA name; one that is not known is UTC. sequence: only grows from file to file, so that a
    calendar takes a later file's times. origin: of the server, as its readers write it."""
    known = zone_named(zone)
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN", "METHOD:PUBLISH"]
    lines += [f"X-WR-CALNAME:{_text('Broodline')}", "REFRESH-INTERVAL;VALUE=DURATION:PT1H", "X-PUBLISHED-TTL:PT1H"]
    times = [one.at for one in happenings] or [now]
    if known is not None:
        lines += _zone_lines(zone, known, min(times) - AROUND, max(times) + AROUND)
    elif not happenings:  # a calendar has at least one component (section 3.6): with nothing due, a zone
        lines += _zone_lines("UTC", UTC, now - AROUND, now + AROUND)
    for one in happenings:
        start = f":{_utc(one.at)}" if known is None else f";TZID={zone}:{one.at.astimezone(known):%Y%m%dT%H%M%S}"
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_text(one.uid)}",
            f"DTSTAMP:{_utc(now)}",
            f"SEQUENCE:{sequence}",
            f"DTSTART{start}",
            f"DURATION:{LASTS}",
            f"SUMMARY:{_text(one.title)}",
            f"DESCRIPTION:{_text(one.words)}",
            f"URL:{origin}{one.path}",
            "TRANSP:TRANSPARENT",
            "BEGIN:VALARM",
            "ACTION:DISPLAY",
            f"DESCRIPTION:{_text(one.title)}",
            "TRIGGER:PT0S",
            "END:VALARM",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return b"".join(_folded(lines))


def _zone_lines(name: str, zone: tzinfo, first: datetime, last: datetime) -> Iterator[str]:
    """The zone between two instants: what holds at the first, and each change after it."""
    yield from ("BEGIN:VTIMEZONE", f"TZID:{name}")
    usual = min(_offset(zone, first + n * 30 * _DAY) for n in range(13))
    before = _offset(zone, first)
    for at in (first, *_changes(zone, first, last)):
        offset = _offset(zone, at)
        kind = "DAYLIGHT" if offset > usual else "STANDARD"
        yield from (
            f"BEGIN:{kind}",
            f"DTSTART:{(at + before).strftime('%Y%m%dT%H%M%S')}",
            f"TZOFFSETFROM:{_offset_text(before)}",
            f"TZOFFSETTO:{_offset_text(offset)}",
            f"TZNAME:{at.astimezone(zone).tzname()}",
            f"END:{kind}",
        )
        before = offset
    yield "END:VTIMEZONE"


def _changes(zone: tzinfo, first: datetime, last: datetime) -> Iterator[datetime]:
    """The first second of each new offset. Days are walked, and the second looked for within a day that changes."""
    day = first
    while day < last:
        morrow = day + _DAY
        if _offset(zone, day) != _offset(zone, morrow):
            low, high = 0, int(_DAY.total_seconds())
            while high - low > 1:
                middle = (low + high) // 2
                same = _offset(zone, day + timedelta(seconds=middle)) == _offset(zone, day)
                low, high = (middle, high) if same else (low, middle)
            yield day + timedelta(seconds=high)
        day = morrow


def _offset(zone: tzinfo, at: datetime) -> timedelta:
    return at.astimezone(zone).utcoffset() or timedelta(0)


def _offset_text(offset: timedelta) -> str:
    seconds = int(offset.total_seconds())
    hours, rest = divmod(abs(seconds), 3600)
    minutes, odd = divmod(rest, 60)
    return f"{'-' if seconds < 0 else '+'}{hours:02}{minutes:02}" + (f"{odd:02}" if odd else "")


def _utc(at: datetime) -> str:
    return at.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")


def _text(text: str) -> str:
    """A value of type TEXT (section 3.3.11); other control characters are left out."""
    plain = text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    lines = plain.replace("\r\n", "\n").replace("\r", "\n").replace("\n", "\\n")
    return "".join(letter for letter in lines if letter.isprintable() or letter == " ")


def _folded(lines: Iterable[str]) -> Iterator[bytes]:
    """Lines of at most 75 octets, never broken inside a letter (section 3.1)."""
    for line in lines:
        part, room = b"", MOST_OCTETS
        for letter in line:
            octets = letter.encode("utf-8", "replace")
            if len(octets) > room:
                yield part + b"\r\n"
                part, room = b" ", MOST_OCTETS - 1
            part += octets
            room -= len(octets)
        yield part + b"\r\n"
