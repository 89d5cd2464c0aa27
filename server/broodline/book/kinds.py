"""Every kind of entry this version reads, with the model of its body (v 1)."""

from collections.abc import Mapping
from types import MappingProxyType

from broodline.book import bodies_eggs, bodies_flock, bodies_rooms
from broodline.book.body import Body

VERSION = 1

KINDS: Mapping[str, type[Body]] = MappingProxyType(
    {
        "keeper": bodies_rooms.Keeper,
        "place": bodies_rooms.Place,
        "gauge_checked": bodies_rooms.GaugeChecked,
        "family": bodies_flock.Family,
        "bird": bodies_flock.Bird,
        "came": bodies_flock.Came,
        "left": bodies_flock.Left,
        "same": bodies_flock.Same,
        "penned": bodies_flock.Penned,
        "gathered": bodies_eggs.Gathered,
        "eggs_out": bodies_eggs.EggsOut,
        "set": bodies_eggs.Set,
        "looked": bodies_eggs.Looked,
        "moved": bodies_eggs.Moved,
        "counted": bodies_eggs.Counted,
        "air": bodies_rooms.Air,
        "eggs_weighed": bodies_eggs.EggsWeighed,
        "turned": bodies_rooms.Turned,
        "vented": bodies_rooms.Vented,
        "watered": bodies_rooms.Watered,
        "outage": bodies_rooms.Outage,
        "locked": bodies_eggs.Locked,
        "marked": bodies_flock.Marked,
        "brooder_check": bodies_rooms.BrooderCheck,
        "weighed": bodies_flock.Weighed,
        "treated": bodies_rooms.Treated,
        "order": bodies_rooms.Order,
        "care": bodies_rooms.Care,
        "scored": bodies_flock.Scored,
        "note": bodies_rooms.Note,
        "photo": bodies_rooms.Photo,
    }
)
