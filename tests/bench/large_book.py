"""Large books for measuring: seasons of settings, candled and hatched, as a busy holding writes them."""

import json
from random import Random
from typing import Any

from broodline.book.wire import canonical_bytes
from tests.faults.keeper_model import new_id

START_MS = 1_740_000_000_000
MINUTE_MS = 60_000


def large_book(entries: int, seed: int = 1) -> list[bytes]:
    """Canonical bytes of that many entries, in the order they were written."""
    rng, clock_ms = Random(seed), START_MS
    documents: list[dict[str, Any]] = []

    def write(kind: str, body: dict[str, Any], amends: str | None = None) -> str:
        nonlocal clock_ms
        clock_ms += rng.randrange(MINUTE_MS)
        documents.append(
            {
                "id": new_id(rng, clock_ms),
                "v": 1,
                "kind": kind,
                "device": "phone-1",
                "at": "2026-03-08T19:40:12.345Z",
                "zone": "Europe/Dublin",
                "skew_ms": 120,
                "amends": amends,
                "void": False,
                "body": body,
            }
        )
        return str(documents[-1]["id"])

    write("keeper", {"holding": "Gorse Bank", "zone": "Europe/Dublin", "temperature": "C", "mass": "g"})
    place = write("place", {"name": "Loft box", "role": "incubator"})
    families = [
        write("family", {"name": f"Line {n}", "species": "chicken", "breed": "Marsh Speckle"}) for n in range(20)
    ]
    while len(documents) < entries:
        _write_setting(rng, write, place, families, clock_ms)
    return [canonical_bytes(document) for document in documents[:entries]]


def _write_setting(rng: Random, write: Any, place: str, families: list[str], clock_ms: int) -> None:
    lots = [(new_id(rng, clock_ms), rng.choice(families), rng.randint(10, 40)) for _ in range(4)]
    body = {"place": place, "species": "chicken", "set_at": "2026-03-01T08:00:00Z"}
    setting = write("set", {**body, "lots": [{"lot": lot, "family": family, "n": n} for lot, family, n in lots]})
    for lot, _, n in lots:
        for day in (7, 14):
            write("looked", {"setting": setting, "lot": lot, "what": "candled", "day": day, "live": n - 5})
        for stage in ("clear", "blood_ring", "quitter"):
            one = write("moved", {"moves": [{"lot": lot, "from": "set", "to": stage, "n": 1}], "why": "candled"})
            if rng.random() < 0.1:
                write("moved", {"moves": [{"lot": lot, "from": "set", "to": stage, "n": 2}], "why": "candled"}, one)
        for _ in range(rng.randint(2, 6)):
            write("moved", {"moves": [{"lot": lot, "from": "set", "to": "hatched", "n": 1}], "why": "hatch"})
    for _ in range(6):
        write("air", {"place": place, "dry_c": round(37 + rng.random(), 1), "humidity_pct": 45})


def push_requests(book: list[bytes], at_once: int) -> list[bytes]:
    """The book as bodies of push requests."""
    return [
        b'{"entries":[' + b",".join(book[start : start + at_once]) + b'],"v":1}'
        for start in range(0, len(book), at_once)
    ]


def id_in(document: bytes) -> str:
    return str(json.loads(document)["id"])
