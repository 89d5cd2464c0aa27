"""Books as a keeper's taps make them, from a seeded chance: eggs leave only stages that hold some, time goes on."""

from collections import Counter
from datetime import datetime, timedelta
from random import Random
from typing import Any

from broodline.book.stages import ALLOWED
from tests.server.book.odd_books import LOTS, entry_id

BEGIN = datetime.fromisoformat("2026-03-01T08:00:00+00:00")
MOVES = sorted(ALLOWED)


def hatched_among_book(seed: int) -> list[dict[str, Any]]:
    """As `tallied_book`; half of what moves is of unknown family, and it is taken to a brooder."""
    return tallied_book(seed, among=0.5)


def tallied_book(seed: int, among: float = 0.1) -> list[dict[str, Any]]:
    """One setting of three lots in a hatcher-to-be, and some sixty taps over some forty days. among: the share of moves
    of unknown family."""
    chance = Random(seed)
    held = {lot: Counter({"set": chance.randint(4, 12)}) for lot in LOTS[:3]}
    lots = [{"lot": lot, "family": entry_id(1), "n": stages["set"]} for lot, stages in held.items()]
    written: list[dict[str, Any]] = []

    def write(kind: str, body: dict[str, Any], at: datetime = BEGIN) -> None:
        written.append(
            {
                "id": entry_id(len(written)),
                "v": 1,
                "kind": kind,
                "device": "phone-1",
                "at": at.isoformat().replace("+00:00", "Z"),
                "zone": "Europe/Dublin",
                "skew_ms": None,
                "amends": None,
                "void": False,
                "body": body,
            }
        )

    write("place", {"name": "Loft box", "role": "incubator"})
    write("family", {"name": "Rowan", "species": "chicken", "breed": "Marsh Speckle"})
    setting = entry_id(2)
    write("set", {"place": entry_id(0), "species": "chicken", "set_at": "2026-03-01T08:00:00Z", "lots": lots})
    at = BEGIN
    if among > 0.1:
        write("place", {"name": "Brooder one", "role": "brooder"})
    for _ in range(chance.randrange(70)):
        at += timedelta(hours=chance.randrange(30))
        lot = chance.choice(LOTS[:3])
        ways = [move for move in MOVES if held[lot][move[0]] > 0]
        if chance.random() < 0.15 or not ways:
            what = chance.choice(["candled", "candled", "hatch"])
            write("looked", {"setting": setting, "lot": lot, "what": what, "live": chance.randint(0, 9)}, at)
            continue
        source, target = chance.choice(ways)
        n = chance.randint(1, held[lot][source])
        held[lot][source] -= n
        move: dict[str, Any] = {"from": source, "to": target, "n": n}
        if chance.random() < among:
            move["among"] = sorted({lot, chance.choice(LOTS[:3])})
        else:
            held[lot][target] += n
            move["lot"] = lot
        taken = among > 0.1 and target == "brooding"
        write("moved", {"moves": [move]} | ({"place": entry_id(3)} if taken else {}), at)
    if chance.random() < 0.3:
        write("locked", {"setting": setting}, BEGIN + timedelta(days=18))
    return written
