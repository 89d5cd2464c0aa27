"""What thermometers say becomes entries of the book: thinned, so that a season is thousands of rows and not millions.

A reading is kept where the nearest one kept of its place lies ten minutes away, before or after it, or where that one
lay elsewhere: in another tier, on the other side, or within the band. So red is never hidden by amber, and late ones
may come in any order. The same reading said twice is one entry: its id is made from who said it and when.
"""

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from broodline.book.moments import instant, moment_ms
from broodline.book.standing import Standing
from broodline.book.wire import Entry, parse_json, read_entry
from broodline.errors import EnvelopeError
from broodline.reports.air_alarm import WITHIN, band_of
from broodline.reports.readings import root
from broodline.store.sensors import Kept, Sensor
from broodline.store.shelf import Shelf
from broodline.trade.calendar import instant_text
from broodline.trade.climate import READABLE_C

EVERY_MS = 10 * 60 * 1000
MOST_A_MINUTE = 60  # heard of one thermometer: what it kept while off the network comes at once
OLDEST, NEWEST = timedelta(days=731), timedelta(minutes=5)  # one that was off the network brings what it kept
TOKEN_BYTES, ID_BYTES = 16, 4
_CLOCK = "Set the thermometer's clock, or leave `at` out: then it counts from when it arrives."

What = Literal["stored", "duplicate", "clash", "thinned"]


@dataclass(frozen=True, slots=True)
class Said:
    """A reading, checked. place: as the thermometer calls it, if it does. Degrees Celsius and percent."""

    at: datetime
    dry_c: float
    humidity_pct: float | None
    place: str | None


def read_reading(request: bytes, now: datetime) -> Said:
    """The fields of {place?, dry_c, humidity_pct?, at?}. now: aware. Raises EnvelopeError."""
    message = parse_json(request)
    if not isinstance(message, dict):
        raise EnvelopeError("$", "A reading is a JSON object with dry_c.", remedy='Send {"dry_c": 37.6}.')
    low, high = READABLE_C
    dry_c = _figure(message, "dry_c", low, high, "Send degrees Celsius, not Fahrenheit.")
    if dry_c is None:
        raise EnvelopeError("dry_c", "A reading has dry_c.", remedy='Send {"dry_c": 37.6}.')
    humidity = _figure(message, "humidity_pct", 0, 100, "Send relative humidity in percent.")
    place, at = message.get("place"), message.get("at")
    if place is not None and not isinstance(place, str):
        raise EnvelopeError("place", "place must be the id of a place, or left out.", remedy="Leave it out.")
    return Said(_time(at, now), round(dry_c, 2), None if humidity is None else round(humidity, 1), place)


def take_reading(shelf: Shelf, standing: Standing, sensor: Sensor, said: Said) -> tuple[What, bool | None]:
    """Keep a reading or pass it over; also says whether the air lies outside its band, None where none is known.

    Raises EnvelopeError for another place than the thermometer's own, DiskFull, Busy.
    """
    place = root(standing, sensor.place)
    if said.place is not None and root(standing, said.place) != place:
        raise EnvelopeError("place", "This thermometer writes of another place.", remedy="Leave place out.")
    at_ms = round(said.at.timestamp() * 1000)
    band = band_of(standing, place, said.dry_c, at_ms)
    beyond = None if band is None else band != WITHIN
    near = shelf.sensors.nearest_kept(place, at_ms)
    if near is not None and abs(at_ms - near.at_ms) < EVERY_MS:
        same = shelf.log.weigh(shelf.holdings.current().id, [_entry(standing, sensor, said)])[0]
        if band == near.band or same.status != "stored":
            shelf.sensors.heard(sensor)
            return ("thinned" if same.status == "stored" else same.status), beyond
    [placed] = shelf.log.append(shelf.holdings.current().id, [_entry(standing, sensor, said)], sensor.device)
    shelf.sensors.heard(sensor)
    if placed.status == "stored":
        shelf.sensors.keep(place, Kept(at_ms, band))
    return placed.status, beyond


def _entry(standing: Standing, sensor: Sensor, said: Said) -> Entry:
    body: dict[str, object] = {"place": root(standing, sensor.place), "dry_c": said.dry_c, "by": "sensor"}
    if said.humidity_pct is not None:
        body["humidity_pct"] = said.humidity_pct
    return read_entry(
        {
            "id": _id(sensor, said.at),
            "v": 1,
            "kind": "air",
            "device": sensor.device,
            "at": instant_text(said.at),
            "zone": standing.keeper.zone,
            "skew_ms": None,
            "amends": None,
            "void": False,
            "body": body,
        }
    )


def _id(sensor: Sensor, at: datetime) -> str:
    """A UUIDv7 (RFC 9562) whose chance is a hash: the same for the same thermometer and moment."""
    hashed = int.from_bytes(hashlib.sha256(f"{sensor.id} {instant_text(at)}".encode()).digest(), "big")
    ms = round(at.timestamp() * 1000) & (2**48 - 1)
    number = ms << 80 | 7 << 76 | (hashed & 0xFFF) << 64 | 0b10 << 62 | (hashed >> 12) & (2**62 - 1)
    text = f"{number:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def _figure(message: dict[str, object], name: str, low: float, high: float, remedy: str) -> float | None:
    value = message.get(name)
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not low <= value <= high:
        raise EnvelopeError(name, f"{name} must be a number from {low:g} to {high:g}.", remedy=remedy)
    return float(value)


def _time(written: object, now: datetime) -> datetime:
    if written is None:
        return now.replace(microsecond=now.microsecond // 1000 * 1000)
    try:
        at = instant(moment_ms(written)) if isinstance(written, str) else None
    except ValueError:
        at = None
    if at is None:
        raise EnvelopeError("at", "at must be a time in UTC, such as 2026-03-08T19:40:00Z.", remedy=_CLOCK)
    if not now - OLDEST <= at <= now + NEWEST:
        raise EnvelopeError("at", "at lies over two years back, or ahead.", remedy=_CLOCK)
    return at
