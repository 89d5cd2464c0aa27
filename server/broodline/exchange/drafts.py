"""Entries made from the rows of a table, with ids that the same row gets again.

An id has the shape of a UUIDv7: its time is the row's day, the rest a hash of what the row says and of how often the
file says it. So a file that is taken in twice adds nothing. `attempt` is part of the hash: after an import was undone,
the same file can be taken in anew under other ids.
"""

import hashlib
from collections import Counter
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from broodline.book.imported import UNDATED, noon_ms
from broodline.book.standing import Head
from broodline.book.wire import Entry, canonical_bytes, read_entry
from broodline.trade.calendar import instant_text, zone_named

DEVICE = "import"


@dataclass(slots=True)
class Drafts:
    """The entries of one import. zone: of the holding. now: aware; the time of entries that no day is known of."""

    zone: str
    now: datetime
    attempt: int
    entries: dict[str, Entry] = field(default_factory=dict)
    seen: Counter[bytes] = field(default_factory=Counter)

    def write(
        self, kind: str, body: dict[str, Any], on: date | None = None, at: time = time(12), said: object = None
    ) -> str:
        """One more entry; its id. on, at: the day and the time on the wall when it happened. said: what the id is made
        from in the body's place, where the body names things by ids that may be the book's own."""
        name = self.name(kind, body if said is None else said, on)
        self.put(name, kind, body, on, at)
        return name

    def put(
        self,
        name: str,
        kind: str,
        body: dict[str, Any],
        on: date | None = None,
        at: time = time(12),
        amends: str | None = None,
    ) -> None:
        """An entry under a name it was given."""
        moment = self.now if on is None else self.moment(on, at)
        self.entries[name] = read_entry(
            {
                "id": name,
                "v": 1,
                "kind": kind,
                "device": DEVICE,
                "at": instant_text(moment),
                "zone": self.zone,
                "skew_ms": None,
                "amends": amends,
                "void": False,
                "body": body,
            }
        )

    def moment(self, on: date, at: time) -> datetime:
        """That time of that day in the holding."""
        return datetime.combine(on, at, zone_named(self.zone) or UTC)

    def name(self, kind: str, said_by: object, on: date | None) -> str:
        """An id for what a row says; another one each time it says it."""
        said = canonical_bytes([kind, said_by, None if on is None else on.isoformat(), self.attempt])
        self.seen[said] += 1
        return _named(said, on, self.seen[said])

    def name_once(self, kind: str, body: dict[str, Any], day: date | None = None) -> str:
        """An id for what many rows may say together, such as a family: always the same. day: marks it."""
        return _named(canonical_bytes([kind, body, None, self.attempt]), day, 0)


def _named(said: bytes, on: date | None, times: int) -> str:
    return shaped_id(noon_ms(on or UNDATED), said + str(times).encode())


def _ms(at: datetime) -> int:
    return (at - _EPOCH) // timedelta(milliseconds=1)


_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def shaped_id(ms: int, said: bytes) -> str:
    """A UUIDv7 of that time, the rest from a hash. ms: since 1970."""
    rest = int.from_bytes(hashlib.sha256(said).digest()[:10])
    high, low = rest >> 68, rest & ((1 << 62) - 1)
    digits = f"{(max(ms, 0) << 80) | (7 << 76) | ((high & 0xFFF) << 64) | (2 << 62) | low:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))


def taking_back(head: Head, zone: str, now: datetime, stays: dict[str, Any] | None = None) -> Entry:
    """The entry that takes another back. head: the one of its tree that counts now. stays: the body of what is left of
    it, None for nothing."""
    document = {
        "id": shaped_id(_ms(now), f"undo {head.root} {head.id}".encode()),
        "v": 1,
        "kind": head.kind,
        "device": DEVICE,
        "at": instant_text(now),
        "zone": zone,
        "skew_ms": None,
        "amends": head.id,
        "void": stays is None,
        "body": stays or {},
    }
    return read_entry(document)
