"""What became of the eggs a bird came from, and of those it stands behind: hatched, helped out, weak.

A parent counts by its chance: of 12 eggs of a pen of four hens, three stand to each hen's account.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, cast

from broodline.book.birds import bird_id
from broodline.book.bodies_flock import Bird
from broodline.book.standing import Lot, Standing
from broodline.reports.hatch import weak_and_helped
from broodline.reports.parents_of import parents_of_lot
from broodline.reports.pens import pens_of
from broodline.reports.rates import lot_outcome


@dataclass(slots=True)
class Hatched:
    """Expected counts of eggs in settings that are over. helped, weak: of those hatched."""

    eggs: float = 0.0
    fertile: float = 0.0
    hatched: float = 0.0
    helped: float = 0.0
    weak: float = 0.0

    def add(self, other: "Hatched", chance: float) -> None:
        self.eggs += chance * other.eggs
        self.fertile += chance * other.fertile
        self.hatched += chance * other.hatched
        self.helped += chance * other.helped
        self.weak += chance * other.weak


def hatch_histories(standing: Standing, now_ms: int) -> Mapping[str, Mapping[str, Any]]:
    """Bird -> {own, as_parent}, each {eggs, fertile, hatched, helped, weak} or None where no hatch is on record.

    own: of the batch it hatched in, all its brothers and sisters counted.
    """
    pens = pens_of(standing)
    counted = {lot.id: _counted(standing, lot, now_ms) for lot in standing.lots.values() if _is_over(standing, lot)}
    as_parent: dict[str, Hatched] = {}
    for name, one in counted.items():
        for pair in parents_of_lot(standing, standing.lots[name], pens, []).pairs:
            for parent in (pair.sire, pair.dam):
                if parent is not None:
                    as_parent.setdefault(parent, Hatched()).add(one, pair.chance)
    own: dict[str, Hatched] = {}
    for head in standing.heads.get("bird", ()):
        lots = [share for share in cast(Bird, head.body).lots or () if share.lot in counted]
        for share in lots:
            part = 1 / len(lots) if share.share is None else share.share
            own.setdefault(bird_id(standing, head.root), Hatched()).add(counted[share.lot], part)
    return {bird: {"own": _json(own.get(bird)), "as_parent": _json(as_parent.get(bird))} for bird in {*own, *as_parent}}


def _is_over(standing: Standing, lot: Lot) -> bool:
    return lot.setting is not None and not standing.settings[lot.setting].runs


def _counted(standing: Standing, lot: Lot, now_ms: int) -> Hatched:
    outcome = lot_outcome(lot, standing.settings[lot.setting or ""], now_ms)
    return Hatched(
        eggs=outcome.hatch_of_set.n,
        fertile=outcome.fertility.k,
        hatched=outcome.hatch_of_set.k,
        **weak_and_helped(lot.moves),
    )


def _json(one: Hatched | None) -> dict[str, float] | None:
    if one is None:
        return None
    names: Iterable[str] = ("eggs", "fertile", "hatched", "helped", "weak")
    return {name: getattr(one, name) for name in names}
