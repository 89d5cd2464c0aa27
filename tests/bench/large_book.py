"""Large books for measuring: seasons of settings, candled, hatched and opened, as a busy holding writes them."""

import json
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from broodline.book.wire import canonical_bytes
from tests.faults.keeper_model import new_id

LAST_SEASON = 2026
MINUTE_MS = 60_000
BETWEEN_SETTINGS_MS = 14 * 60 * MINUTE_MS
RUNNING = 35  # settings that are not over at the end of the book: three weeks' worth
ENTRIES_OF_A_SETTING = 50


def large_book(entries: int, seed: int = 1, seasons: int = 1) -> list[bytes]:
    """Canonical bytes of that many entries, in the order they were written, over seasons up to 2026."""
    rng = Random(seed)
    documents: list[dict[str, Any]] = []
    clock_ms = 0

    def write(kind: str, body: dict[str, Any], amends: str | None = None) -> str:
        nonlocal clock_ms
        clock_ms += rng.randrange(MINUTE_MS)
        documents.append(
            {
                "id": new_id(rng, clock_ms),
                "v": 1,
                "kind": kind,
                "device": "phone-1",
                "at": moment(clock_ms),
                "zone": "Europe/Dublin",
                "skew_ms": 120,
                "amends": amends,
                "void": False,
                "body": body,
            }
        )
        return str(documents[-1]["id"])

    place, families = "", [""]
    for season in range(seasons):
        clock_ms = round(datetime(LAST_SEASON - seasons + 1 + season, 2, 1, tzinfo=UTC).timestamp() * 1000)
        if season == 0:
            write("keeper", {"holding": "Gorse Bank", "zone": "Europe/Dublin", "temperature": "C", "mass": "g"})
            place = write("place", {"name": "Loft box", "role": "incubator"})
            families = [
                write("family", {"name": f"Line {n}", "species": "chicken", "breed": "Marsh Speckle"})
                for n in range(20)
            ]
        while len(documents) < entries * (season + 1) // seasons:
            over = len(documents) < entries - RUNNING * ENTRIES_OF_A_SETTING
            _write_setting(rng, write, place, families, clock_ms, over)
            clock_ms += BETWEEN_SETTINGS_MS
    return [canonical_bytes(document) for document in documents[:entries]]


def _write_setting(rng: Random, write: Any, place: str, families: list[str], clock_ms: int, over: bool) -> None:
    lots = [(new_id(rng, clock_ms), rng.choice(families), rng.randint(10, 40)) for _ in range(4)]
    body = {"place": place, "species": "chicken", "set_at": moment(clock_ms)}
    laid = [
        {"laid_from": day_of(clock_ms, age + 3), "laid_to": day_of(clock_ms, age)} for age in rng.sample(range(12), 4)
    ]
    told = [{"lot": lot, "family": family, "n": n, **when} for (lot, family, n), when in zip(lots, laid, strict=True)]
    setting = write("set", {**body, "lots": told})
    for lot, _, n in lots:
        left, hatched = n, 0
        for day in (7, 14):
            write("looked", {"setting": setting, "lot": lot, "what": "candled", "day": day, "live": n - 5})
        for stage in ("clear", "blood_ring", "quitter"):
            left -= _write_move(rng, write, lot, stage, 1, "candled")
        for _ in range(rng.randint(2, 6) if left > 15 else 2):  # few enough that none goes below zero
            out = _write_move(rng, write, lot, "hatched", rng.randint(1, 1 + max(0, left) // 7), "hatch")
            left, hatched = left - out, hatched + out
        if over:
            rest = [("set", "unhatched", left), ("unhatched", "dead_late", left), ("hatched", "brooding", hatched)]
            moves = [{"lot": lot, "from": source, "to": target, "n": n} for source, target, n in rest if n > 0]
            write("moved", {"moves": moves, "why": "opened"})
    for _ in range(6):
        write("air", {"place": place, "dry_c": round(37 + rng.random(), 1), "humidity_pct": 45})


def _write_move(rng: Random, write: Any, lot: str, stage: str, n: int, why: str) -> int:
    """Now and then it is corrected; gives how many were moved in the end."""
    one = write("moved", {"moves": [{"lot": lot, "from": "set", "to": stage, "n": n}], "why": why})
    if rng.random() < 0.05:
        write("moved", {"moves": [{"lot": lot, "from": "set", "to": stage, "n": n + 1}], "why": why}, one)
        return n + 1
    return n


def moment(ms: int) -> str:
    return datetime.fromtimestamp(ms / 1000, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def day_of(ms: int, days_before: int) -> str:
    return (datetime.fromtimestamp(ms / 1000, UTC).date() - timedelta(days=days_before)).isoformat()


def push_requests(book: list[bytes], at_once: int) -> list[bytes]:
    """The book as bodies of push requests."""
    return [
        b'{"entries":[' + b",".join(book[start : start + at_once]) + b'],"v":1}'
        for start in range(0, len(book), at_once)
    ]


def id_in(document: bytes) -> str:
    return str(json.loads(document)["id"])
