"""Sheets about rooms, their air and power cuts, an authority's orders, notes and pictures."""

from collections.abc import Callable
from typing import cast

from broodline.book.bodies_rooms import Air, Note, Order, Outage, Photo
from broodline.book.moments import moment_ms
from broodline.book.standing import Standing
from broodline.exchange.cell_words import in_words
from broodline.exchange.cells import AT, ENTRY, Names, Rows, day, ids, moment
from broodline.exchange.sheet import Column, Sheet

_PLACES = (
    Column("place_id", "string", "Place (id)"),
    Column("name", "string", "Name"),
    Column("role", "string", "What it is"),
    Column("air", "string", "Air"),
    Column("turns", "string", "Turning"),
    Column("capacity", "integer", "Room for eggs"),
    *ids("hen", "Hen"),
    Column("thermometer", "string", "Thermometer"),
)
_AIR = (
    ENTRY,
    *ids("place", "Place"),
    AT,
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
    AT,
    Column("about_id", "string", "About (id)"),
    Column("text", "string", "Note"),
    Column("planned_on", "date", "Setting planned on"),
    Column("planned_species", "string", "Species planned"),
    *ids("planned_place", "Place planned"),
)
_ORDERS = (
    ENTRY,
    Column("text", "string", "Order"),
    Column("kind", "string", "About", "housing or movement"),
    Column("since", "date", "Since"),
    Column("until", "date", "Until"),
)
_PHOTOS = (
    ENTRY,
    AT,
    Column("about_id", "string", "About (id)"),
    Column("sha256", "string", "Picture (SHA-256)"),
    Column("type", "string", "Type"),
    Column("width", "integer", "Width", "pixels"),
    Column("height", "integer", "Height", "pixels"),
)


def room_sheets(standing: Standing, within: Callable[[int], bool]) -> list[Sheet]:
    """within: whether air read at a moment belongs here."""
    names = Names(standing)
    places: Rows = []
    for one, place in standing.places.items():
        kind = (in_words("role", place.role), place.air, place.turns, place.capacity)
        places.append((one, place.name, *kind, *names.bird_cells(place.bird), place.sensor))
    outages: Rows = []
    for head in standing.heads.get("outage", ()):
        cut = cast(Outage, head.body)
        where = "; ".join(names.place(one) or one for one in cut.places or ()) or None
        until = None if cut.until is None else moment(moment_ms(cut.until))
        outages.append((head.id, where, moment(moment_ms(cut.from_)), until))
    notes: Rows = []
    for head in standing.heads.get("note", ()):
        body = cast(Note, head.body)
        plan = body.plan
        when = (None, None) if plan is None else (day(plan.set_on), plan.species)
        where_to = names.place_cells(None if plan is None else plan.place)
        notes.append((head.id, moment(head.at_ms), names.root(body.about), body.text, *when, *where_to))
    return [
        Sheet("places", "Places", _PLACES, places, "place_id"),
        Sheet("air", "Air", _AIR, _air_rows(standing, names, within), "entry_id"),
        Sheet("power_cuts", "Power cuts", _OUTAGES, outages, "entry_id"),
        Sheet("notes", "Notes", _NOTES, notes, "entry_id"),
        Sheet("orders", "Orders of authorities", _ORDERS, _order_rows(standing), "entry_id"),
        Sheet("photos", "Pictures", _PHOTOS, _photo_rows(standing, names), "entry_id"),
    ]


def _air_rows(standing: Standing, names: Names, within: Callable[[int], bool]) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("air", ()):
        if within(head.at_ms):
            one = cast(Air, head.body)
            where = names.place_cells(one.place)
            rows.append((head.id, *where, moment(head.at_ms), one.dry_c, one.wet_c, one.humidity_pct, one.by))
    return rows


def _order_rows(standing: Standing) -> Rows:
    told = [(head.id, cast(Order, head.body)) for head in standing.heads.get("order", ())]
    return [(entry, one.text, one.kind, day(one.since), day(one.until)) for entry, one in told]


def _photo_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("photo", ()):
        one = cast(Photo, head.body)
        rows.append((head.id, moment(head.at_ms), names.root(one.about), one.sha256, one.type, one.width, one.height))
    return rows
