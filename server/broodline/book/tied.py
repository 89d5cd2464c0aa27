"""Lots that chicks of unknown family tie together: of one of them a chick hatched or is gone, nobody knows which.

What became of such a chick is true of these lots taken together, and of none of them alone. Mirrored in
pwa/src/book/tied.ts over tests/vectors/tied.json.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from broodline.book.stages import CHICK_STAGES, MISSING
from broodline.book.standing import Lot, Move, Standing
from broodline.book.tied_sets import overdrawn

_CHICKS = frozenset(CHICK_STAGES)
LIVING = frozenset({"hatched", "brooding", "growing", "flock"})
_LOST = frozenset({"died", "culled", MISSING})


@dataclass(frozen=True, slots=True)
class Tied:
    """lots: in the order of their setting. among: the moves of chicks that tie them, in time; empty for a lot alone."""

    lots: tuple[Lot, ...]
    among: tuple[Move, ...]

    @property
    def moves(self) -> list[Move]:
        """All that is known of their eggs and chicks."""
        return [*(move for lot in self.lots for move in lot.moves), *self.among]

    @property
    def stages(self) -> dict[str, int]:
        """How many of them are in each stage, whosever they are."""
        found: Counter[str] = Counter()
        for lot in self.lots:
            found.update(lot.stages)
        for move in self.among:
            found[move.source] -= move.n
            found[move.target] += move.n
        return dict(found)

    @property
    def adds_up(self) -> bool:
        """Whether no stage holds less than nothing, in any of the lots or in some or all of them together: only then a
        figure can be told of them. What one lot lacks no other makes good."""
        return all(map(_is_whole, (self.stages, *(lot.stages for lot in self.lots)))) and not self._overdrawn()

    def can_be(self, lot: Lot) -> bool:
        """Whether a figure can be told of one of them: its own counts can be, and no more are gone of unknown family
        than it and some of the others had."""
        return _is_whole(lot.stages) and not any(lot.id in lots for lots in self._overdrawn())

    def _overdrawn(self) -> list[frozenset[str]]:
        return overdrawn({lot.id: lot.stages for lot in self.lots}, self.among)


def tied_to(standing: Standing, lot: Lot) -> Tied:
    """The lots tied to this one, itself among them."""
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    if setting is None or not setting.among:
        return Tied((lot,), ())
    every = tied_groups([standing.lots[name] for name in setting.lots], setting.among)
    return next(one for one in every if lot in one.lots)


def tied_groups(lots: Sequence[Lot], among: Sequence[Move]) -> list[Tied]:
    """All lots of a setting, those together that moves of chicks among several tie."""
    group_of = {lot.id: {lot.id} for lot in lots}
    of_chicks = [move for move in among if move.source in _CHICKS or move.target in _CHICKS]
    for move in of_chicks:
        together = set().union(*(group_of[name] for name in move.among))
        for name in together:
            group_of[name] = together
    groups = {frozenset(group) for group in group_of.values()}
    found = [
        Tied(
            tuple(lot for lot in lots if lot.id in group),
            tuple(move for move in of_chicks if group.issuperset(move.among)),
        )
        for group in groups
    ]
    return sorted(found, key=lambda one: lots.index(one.lots[0]))


def maybe_lost(lot: Lot, tied: Tied) -> list[Move]:
    """Losses of which this lot may have had its share: died, culled or missing, not known whose."""
    return [move for move in tied.among if lot.id in move.among and _is_loss(move.source, move.target)]


def most_lost(lot: Lot, tied: Tied) -> int:
    """Up to how many more of this lot are gone: those lost, without as many as were found again; at most all it has."""
    lost = sum(move.n for move in maybe_lost(lot, tied))
    found = sum(move.n for move in tied.among if lot.id in move.among and _is_loss(move.target, move.source))
    return max(0, min(lost - found, sum(max(0, lot.stages.get(stage, 0)) for stage in LIVING)))


def _is_whole(stages: Mapping[str, int]) -> bool:
    return min(stages.values(), default=0) >= 0


def _is_loss(source: str, target: str) -> bool:
    return source in LIVING and target in _LOST
