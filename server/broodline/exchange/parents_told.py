"""Parents that a book works out from pens and batches, written for a bird's travelling papers as a correction of the
bird's own entry, since neither pens nor batches travel. The giver's book stays as it is.

The same entry and the same parents give the same bytes. Its id is of the time of the entry it corrects: a correction
that the keeper makes later stands before it.
"""

from collections.abc import Callable, Mapping
from typing import Any, Literal

from broodline.book.wire import Entry, canonical_bytes, read_entry
from broodline.errors import EnvelopeError
from broodline.exchange.drafts import DEVICE, shaped_id

Side = Literal["sires", "dams"]
SIDES: tuple[Side, ...] = ("sires", "dams")
Candidates = Callable[[str, Side], Mapping[str, float]]
"""The birds that may be a bird's parents on one side, with their chances; what these leave to one is not known."""
_MOST = 24  # candidates of one side: with all of them, an entry would pass its size
_LEAST = 0.0001  # of a number in an entry
_SURE = 1 - 1e-9


def parents_told(entry: Entry, bird: str, candidates: Candidates) -> Entry | None:
    """The bird's entry again with the parents it names none of; None where the book knows of none, or where all of it
    would not fit."""
    worked_out = {side: _shares(candidates(bird, side)) for side in SIDES if not entry.body.get(side)}
    if not any(worked_out.values()):
        return None
    body = {**entry.body, **{str(side): shares for side, shares in worked_out.items() if shares}}
    said = canonical_bytes(["parents", entry.id, body])
    document = {
        "id": shaped_id(int(entry.id.replace("-", "")[:12], 16), said),
        "v": entry.v,
        "kind": "bird",
        "device": DEVICE,
        "at": entry.at,
        "zone": entry.zone,
        "skew_ms": entry.skew_ms,
        "amends": entry.id,
        "void": False,
        "body": body,
    }
    try:
        return read_entry(document)
    except EnvelopeError:
        return None


def only_tells_parents(entry: Entry, above: Entry) -> bool:
    """Whether an entry says of a bird what the one it corrects says, and parents."""
    return _but_parents(entry.body) == _but_parents(above.body)


def _but_parents(body: Mapping[str, Any]) -> dict[str, Any]:
    return {field: value for field, value in body.items() if field not in SIDES}


def _shares(chances: Mapping[str, float]) -> list[dict[str, Any]]:
    likeliest = sorted(chances.items(), key=lambda one: (-one[1], one[0]))[:_MOST]
    return [
        {"bird": bird} if chance > _SURE else {"bird": bird, "share": round(chance, 10)}
        for bird, chance in likeliest
        if chance >= _LEAST
    ]
