"""What keepers write in a schedule: ordinary entries, corrections, take-backs, and odd ones of every sort."""

import json
from datetime import UTC, datetime
from random import Random
from typing import Any

from broodline.book.wire import LARGEST_ENTRY_BYTES, canonical_bytes
from tests.faults.phone_model import PhoneStorage

Document = dict[str, Any]

KINDS = ("family", "place", "set", "moved", "moved", "looked", "note", "keeper", "counted")
STAGES = ("set", "locked", "clear", "hatched", "brooding", "died", "unaccounted", "stage_of_tomorrow")


def write_entry(rng: Random, storage: PhoneStorage, device: str, clock_ms: int) -> tuple[str, str]:
    """A new entry as (id, canonical text), made with what this phone knows."""
    known = [json.loads(row.text) for row in storage.rows.values()]
    chance = rng.random()
    if known and chance < 0.2:
        target = rng.choice(known)
        document = _envelope(rng, device, clock_ms, target["kind"], _body(rng, target["kind"], known))
        document |= {"amends": target["id"], "void": rng.random() < 0.4}
    elif chance < 0.26:
        # A correction that arrives before its target, or whose target never comes.
        document = _envelope(rng, device, clock_ms, "note", {"text": "later"}) | {"amends": new_id(rng, clock_ms)}
    elif chance < 0.264:
        document = _envelope(rng, device, clock_ms, "note", {"text": "x" * LARGEST_ENTRY_BYTES})
    elif chance < 0.36:
        document = _envelope(rng, device, clock_ms, "note", {}) | _oddness(rng)
    else:
        kind = rng.choice(KINDS)
        document = _envelope(rng, device, clock_ms, kind, _body(rng, kind, known))
    return document["id"], text_of(document)


def alter(rng: Random, text: str) -> str:
    """The same id with another content, as from a copy that somebody edited."""
    document = json.loads(text)
    document["body"]["edited"] = rng.randrange(1000)
    return text_of(document)


def is_too_large(text: str) -> bool:
    """Whether the server has to refuse it, whoever offers it."""
    return len(text.encode()) > LARGEST_ENTRY_BYTES


def text_of(document: Document) -> str:
    return canonical_bytes(document).decode()


def new_id(rng: Random, clock_ms: int) -> str:
    """A UUIDv7; a clock before 1970 counts as 1970."""
    value = max(0, clock_ms) << 80 | 7 << 76 | rng.getrandbits(12) << 64 | 2 << 62 | rng.getrandbits(62)
    digits = f"{value:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))


def _envelope(rng: Random, device: str, clock_ms: int, kind: str, body: Document) -> Document:
    at = datetime.fromtimestamp(max(0, clock_ms) / 1000, UTC).isoformat(timespec="milliseconds")
    return {
        "id": new_id(rng, clock_ms),
        "v": 1,
        "kind": kind,
        "device": device,
        "at": at.replace("+00:00", "Z"),
        "zone": rng.choice(("Europe/Dublin", "Australia/Hobart", "Nowhere/AtAll")),
        "skew_ms": rng.choice((None, 0, 500, -86_400_000 * 400)),
        "amends": None,
        "void": False,
        "body": body,
    }


def _oddness(rng: Random) -> Document:
    """What a newer app, a broken one or a hostile one may put into an envelope that is in order."""
    return rng.choice(
        (
            {"kind": "kind_of_tomorrow", "body": {"10": 1, "9": [0.5, "ü", {"b": None}]}},
            {"v": 7, "kind": "moved", "body": {"everything": "else"}},
            {"kind": "moved", "body": {"moves": "not a list"}},
            {"kind": "set", "body": {"lots": [{"lot": 3}]}},
            {"body": {"text": "x" * 7000}},
            {"body": {"text": "\u0000\u2028 🐣"}, "field_of_tomorrow": [1, 2]},
            {"device": "import", "body": {"text": "brought from elsewhere"}},
        )
    )


def _body(rng: Random, kind: str, known: list[Document]) -> Document:
    lots = [
        lot["lot"] for one in known if one["kind"] == "set" for lot in _dicts(one["body"].get("lots")) if "n" in lot
    ]
    lot = rng.choice(lots) if lots else new_id(rng, 0)
    if kind == "family":
        return {"name": f"Line {rng.randrange(9)}", "species": "chicken", "breed": "Marsh Speckle"}
    if kind == "place":
        return {"name": f"Box {rng.randrange(9)}", "role": "incubator"}
    if kind == "set":
        eggs = [
            {"lot": new_id(rng, 0), "family": _one(rng, known, "family"), "n": rng.randint(1, 30)}
            for _ in range(rng.randint(1, 2))
        ]
        place = _one(rng, known, "place")
        return {"place": place, "species": "chicken", "set_at": "2026-03-01T08:00:00Z", "lots": eggs}
    if kind == "moved":
        source, target = rng.sample(STAGES, 2)
        return {"moves": [{"lot": lot, "from": source, "to": target, "n": rng.randint(1, 9)}]}
    if kind == "looked":
        seen = {"day": rng.choice((7, 14)), "live": rng.randint(0, 9)}
        return {"setting": _one(rng, known, "set"), "lot": lot, "what": "candled", **seen}
    if kind == "counted":
        return {"lot": lot, "stage": "set", "n": rng.randint(0, 9), "ledger": rng.randint(0, 9)}
    if kind == "keeper":
        return {"holding": f"Gorse Bank {rng.randrange(9)}", "zone": "Europe/Dublin", "temperature": "C", "mass": "g"}
    return {"text": f"seen {rng.randrange(1000)}"}


def _dicts(value: Any) -> list[Document]:
    return [part for part in value if isinstance(part, dict)] if isinstance(value, list) else []


def _one(rng: Random, known: list[Document], kind: str) -> str:
    ids = [one["id"] for one in known if one["kind"] == kind]
    return rng.choice(ids) if ids else new_id(rng, 0)
