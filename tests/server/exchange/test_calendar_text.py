"""The calendar file, read back by the library icalendar: another hand than ours, for times, zones, texts and lines.

Changes of the clocks: IANA tz database, as Python's zoneinfo has it; the zone's rules written into the file are read
by icalendar alone.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from broodline.exchange.calendar_text import MOST_OCTETS, calendar_file

NOW = datetime(2026, 3, 8, 12, 0, tzinfo=UTC)
ORIGIN = "https://book.example"


@dataclass(frozen=True)
class Told:
    at: datetime
    title: str = "Lockdown"
    words: str = "Lock down Loft box: stop turning, raise the humidity."
    path: str = "/setting/x"
    uid: str = "one"


def read(*told: Told, zone: str = "Europe/Dublin") -> Calendar:
    content = calendar_file(told, zone=zone, origin=ORIGIN, now=NOW, sequence=7)
    return Calendar.from_ical(content)


ZONES = [
    "Europe/Dublin", "Europe/Berlin", "Africa/Casablanca", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu",
    "Pacific/Kiritimati", "America/Sao_Paulo", "UTC", "Nowhere/Land",
]  # fmt: skip


@pytest.mark.parametrize("zone", ZONES)
def test_every_time_is_read_back_as_the_instant_it_was(zone: str) -> None:
    """Every 44 hours over two years, so that each change of the clocks is passed; by the rules in the file alone."""
    told = [Told(NOW + n * timedelta(hours=44), uid=str(n)) for n in range(400)]
    calendar = read(*told, zone=zone)
    rules = [part.to_tz(lookup_tzid=False) for part in calendar.walk("VTIMEZONE")]
    events = calendar.walk("VEVENT")
    assert len(events) == len(told)
    for event, one in zip(events, told, strict=True):
        start = event["dtstart"].dt
        assert start.astimezone(UTC) == one.at
        if rules:
            assert start.replace(tzinfo=rules[0]).astimezone(UTC) == one.at
            assert start.utcoffset() == one.at.astimezone(ZoneInfo(zone)).utcoffset()
    assert len(rules) == (zone != "Nowhere/Land")


def test_an_event_has_all_that_a_calendar_asks_for() -> None:
    """RFC 5545, sections 3.4, 3.6.1 and 3.6.6: what must be there, and each once."""
    calendar = read(Told(NOW))
    assert calendar.errors == []
    assert (calendar["version"], calendar["method"], calendar["calscale"]) == ("2.0", "PUBLISH", "GREGORIAN")
    assert "Broodline" in calendar["prodid"]
    [event] = calendar.walk("VEVENT")
    assert event.errors == []
    assert (event["uid"], event["sequence"], event["dtstamp"].dt) == ("one", 7, NOW)
    assert event["url"] == f"{ORIGIN}/setting/x"
    assert event["duration"].dt == timedelta(minutes=30)
    [alarm] = event.walk("VALARM")
    assert (alarm["action"], alarm["description"], alarm["trigger"].dt) == ("DISPLAY", "Lockdown", timedelta(0))


@pytest.mark.parametrize("zone", ZONES)
def test_a_calendar_without_events_is_one(zone: str) -> None:
    """RFC 5545, section 3.6: `component = 1*(eventc / todoc / journalc / freebusyc / timezonec / iana-comp / x-comp)`.
    Section 3.6.5: a zone has a TZID and at least one rule, each with DTSTART and both offsets."""
    calendar = read(zone=zone)
    assert calendar.errors == []
    [part] = calendar.subcomponents
    assert (part.name, part["tzid"]) == ("VTIMEZONE", "UTC" if zone == "Nowhere/Land" else zone)
    assert part.subcomponents
    for rule in part.subcomponents:
        assert rule.name in {"STANDARD", "DAYLIGHT"}
        assert {"DTSTART", "TZOFFSETFROM", "TZOFFSETTO"} <= set(rule)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=120), st.text(max_size=200))
def test_any_text_is_read_back_and_no_line_is_too_long(title: str, words: str) -> None:
    """What no calendar can show (control characters) is left out; a line break stays one."""
    content = calendar_file([Told(NOW, title, words)], zone="UTC", origin=ORIGIN, now=NOW, sequence=0)
    assert all(len(line) <= MOST_OCTETS for line in content.split(b"\r\n"))
    assert b"\n" not in content.replace(b"\r\n", b"")
    [event] = Calendar.from_ical(content).walk("VEVENT")
    one_break = words.replace("\r\n", "\n").replace("\r", "\n")
    assert event["description"] == "".join(letter for letter in one_break if letter.isprintable() or letter in " \n")
    assert event["summary"].splitlines() == title.splitlines() or not title.isprintable()


def test_a_name_cannot_add_a_line_of_its_own() -> None:
    [event] = read(Told(NOW, "Loft\r\nATTACH:https://evil.example/x", "a\nEND:VEVENT")).walk("VEVENT")
    assert "attach" not in event
    assert event["summary"] == "Loft\nATTACH:https://evil.example/x"
