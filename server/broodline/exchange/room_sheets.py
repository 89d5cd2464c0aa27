"""Sheets about the holding: its rooms, their air, power cuts, notes."""

from collections.abc import Set
from typing import cast

from broodline.book.bodies_rooms import Air, Note, Outage
from broodline.book.moments import DAY_MS, moment_ms
from broodline.book.standing import Standing
from broodline.exchange.cells import ENTRY, Names, Rows, ids, moment
from broodline.exchange.sheet import Column, Sheet

_LONGEST_MS = 70 * DAY_MS  # the longest of ours, emu, sit some 50 days; the last looks come after

_PLACES = (
    Column("place_id", "string", "Place (id)"),
    Column("name", "string", "Name"),
    Column("role", "string", "What it is"),
    Column("air", "string", "Air"),
    Column("turns", "string", "Turning"),
    Column("capacity", "integer", "Room for eggs"),
)
_AIR = (
    ENTRY,
    *ids("place", "Place"),
    Column("at", "datetime", "At", "UTC"),
    Column("dry_c", "number", "Dry bulb", "°C, as read"),
    Column("wet_c", "number", "Wet bulb", "°C, as read"),
    Column("humidity_pct", "number", "Humidity", "% relative, as read"),
    Column("by", "string", "By"),
)
_OUTAGES = (
    ENTRY,
    Column("places", "string", "Places", "empty: everywhere"),
    Column("from", "datetime", "From", "UTC"),
    Column("until", "datetime", "Until", "UTC"),
)
_NOTES = (
    ENTRY,
    Column("at", "datetime", "At", "UTC"),
    Column("about_id", "string", "About (id)"),
    Column("text", "string", "Note"),
)


def room_sheets(standing: Standing, settings: Set[str] | None) -> list[Sheet]:
    """settings: only the air from their setting to 70 days after; None: all of it."""
    names = Names(standing)
    places: Rows = [
        (one, body.name, body.role, body.air, body.turns, body.capacity) for one, body in standing.places.items()
    ]
    outages: Rows = []
    for head in standing.heads.get("outage", ()):
        cut = cast(Outage, head.body)
        where = "; ".join(names.place(place) or place for place in cut.places or ()) or None
        until = None if cut.until is None else moment(moment_ms(cut.until))
        outages.append((head.id, where, moment(moment_ms(cut.from_)), until))
    notes: Rows = []
    for head in standing.heads.get("note", ()):
        body = cast(Note, head.body)
        notes.append((head.id, moment(head.at_ms), names.root(body.about), body.text))
    return [
        Sheet("places", "Places", _PLACES, places, "place_id"),
        Sheet("air", "Air", _AIR, _air_rows(standing, names, settings), "entry_id"),
        Sheet("power_cuts", "Power cuts", _OUTAGES, outages, "entry_id"),
        Sheet("notes", "Notes", _NOTES, notes, "entry_id"),
    ]


def _air_rows(standing: Standing, names: Names, settings: Set[str] | None) -> Rows:
    spans = [
        (one.set_at_ms, one.set_at_ms + _LONGEST_MS) for one in standing.settings.values() if one.id in (settings or ())
    ]
    rows: Rows = []
    for head in standing.heads.get("air", ()):
        if settings is not None and not any(first <= head.at_ms <= last for first, last in spans):
            continue
        one = cast(Air, head.body)
        where = names.place_cells(one.place)
        rows.append((head.id, *where, moment(head.at_ms), one.dry_c, one.wet_c, one.humidity_pct, one.by))
    return rows
