"""Birds that came out of one batch, were known by themselves, and have left since: the batch's count still holds them.

Moves carry chicks into the flock and none out of it; only the leaving of the bird tells. A bird that may have come from
several batches is taken off none. Mirrored in pwa/src/book/gone-birds.ts over tests/vectors/tied.json.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from broodline.book.birds import NEVER_HERE, bird_id, birds_of
from broodline.book.bodies_flock import Left
from broodline.book.standing import Standing


@dataclass(frozen=True, slots=True)
class GoneBird:
    """on: the local day it left. how: "died", "culled", "sold", "given" or "lost"."""

    on: str
    how: str


GoneBirds = Mapping[str, Sequence[GoneBird]]


def gone_birds(standing: Standing, today: str) -> GoneBirds:
    """The birds gone by a local day, of each lot that has any, in order of days. One lent out lives, one that is back
    is here."""
    return {lot: gone for (lot, *others), gone in gone_by_lots(standing, today).items() if not others}


def gone_by_lots(standing: Standing, today: str) -> Mapping[tuple[str, ...], Sequence[GoneBird]]:
    """As `gone_birds`, by all the lots a bird may have come from, these in order; birds of no lot are left out."""
    birds = birds_of(standing, today)
    last: dict[str, GoneBird] = {}
    for head in standing.heads.get("left", ()):
        left = cast(Left, head.body)
        bird = bird_id(standing, left.bird)
        if left.how == "lent" or left.cause == NEVER_HERE or left.on > today or bird not in birds:
            continue
        gone = GoneBird(left.on, left.how)
        if birds[bird].where == "gone" and (bird not in last or (gone.on, gone.how) > (last[bird].on, last[bird].how)):
            last[bird] = gone
    found: dict[tuple[str, ...], list[GoneBird]] = {}
    for bird, gone in last.items():
        if lots := tuple(sorted({one.lot for one in birds[bird].body.lots or ()})):
            found.setdefault(lots, []).append(gone)
    return {lots: sorted(found[lots], key=lambda one: (one.on, one.how)) for lots in sorted(found)}
