"""Writes books for tests: entries with ids that can be foretold, and short words for the common ones."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from broodline.book.wire import Entry, read_entry

START = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)


def entry_id(number: int) -> str:
    """The id of the n-th entry: ids grow with their number."""
    return f"01950000-0000-7000-8000-{number:012x}"


def lot_id(number: int) -> str:
    """The id of the n-th lot."""
    return f"01950000-0000-7000-9000-{number:012x}"


@dataclass
class BookWriter:
    """Collects entries; each call gives the new entry's id."""

    documents: list[dict[str, Any]] = field(default_factory=list)
    minutes: int = 0
    lots_made: int = 0

    def write(self, kind: str, body: dict[str, Any], *, at: datetime | None = None, **envelope: Any) -> str:
        number = len(self.documents) + 1
        self.minutes += 1
        moment = at or START + timedelta(minutes=self.minutes)
        document = {
            "id": entry_id(number),
            "v": 1,
            "kind": kind,
            "device": "phone-1",
            "at": moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
            "zone": "Europe/Dublin",
            "skew_ms": None,
            "amends": None,
            "void": False,
            "body": body,
        }
        document.update(envelope)
        self.documents.append(document)
        return str(document["id"])

    def keeper(self, zone: str = "Europe/Dublin", **more: Any) -> str:
        return self.write("keeper", {"holding": "Gorse Bank", "zone": zone, "temperature": "C", "mass": "g", **more})

    def family(self, name: str, species: str = "chicken") -> str:
        return self.write("family", {"name": name, "species": species, "breed": "Marsh Speckle"})

    def incubator(self, name: str = "Loft box") -> str:
        return self.write("place", {"name": name, "role": "incubator"})

    def lot(self) -> str:
        self.lots_made += 1
        return lot_id(self.lots_made)

    def set_eggs(
        self,
        place: str,
        lots: list[tuple[str, str, int]],
        *,
        set_at: datetime = START,
        species: str = "chicken",
        **more: Any,
    ) -> str:
        """lots: (lot, family, n)."""
        body = {
            "place": place,
            "species": species,
            "set_at": set_at.astimezone(UTC).isoformat().replace("+00:00", "Z"),
            "lots": [{"lot": lot, "family": family, "n": n} for lot, family, n in lots],
            **more,
        }
        return self.write("set", body, at=set_at)

    def move(self, lot: str, source: str, target: str, n: int = 1, *, at: datetime | None = None, **more: Any) -> str:
        return self.write("moved", {"moves": [{"lot": lot, "from": source, "to": target, "n": n}], **more}, at=at)

    def look(self, setting: str, lot: str, what: str = "candled", *, at: datetime | None = None, **more: Any) -> str:
        return self.write("looked", {"setting": setting, "lot": lot, "what": what, **more}, at=at)

    def take_back(self, entry: str) -> str:
        kind = next(one["kind"] for one in self.documents if one["id"] == entry)
        return self.write(kind, {}, amends=entry, void=True)

    def entries(self) -> list[Entry]:
        return [read_entry(document) for document in self.documents]
