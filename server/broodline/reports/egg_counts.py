"""How many eggs of a lot count as examined, fertile, hatched, and what moves of unknown family add to a setting.

    hatched   chicks in any chick stage, and those missing since they hatched
    examined  eggs set, less cracked, rotten, removed and lost ones, less eggs in the setter nobody saw live
    fertile   examined, less clear and infertile

Counts alone decide, never clocks. A stage this version does not know counts as missing.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from broodline.book.stages import CHICK_STAGES, MISSING, STAGES
from broodline.book.standing import Lot, Move

CHICKS = frozenset(CHICK_STAGES)
_KNOWN = frozenset(STAGES)
_NOT_EXAMINED = frozenset({"cracked", "rotten", "taken", MISSING})
_NOT_FERTILE = frozenset({"clear", "infertile"})
_JUDGED_AT_CANDLING = frozenset({"clear", "blood_ring", "quitter"})


@dataclass(frozen=True, slots=True)
class EggCounts:
    """Eggs set, hatched of all set, examined, fertile of those, hatched of those.

    The last three are 0 for a lot into which nobody has looked.
    """

    eggs: int = 0
    hatched: int = 0
    examined: int = 0
    fertile: int = 0
    hatched_of_fertile: int = 0

    def __add__(self, other: "EggCounts") -> "EggCounts":
        return EggCounts(
            self.eggs + other.eggs,
            self.hatched + other.hatched,
            self.examined + other.examined,
            self.fertile + other.fertile,
            self.hatched_of_fertile + other.hatched_of_fertile,
        )


@dataclass(frozen=True, slots=True)
class Beside:
    """By up to how much moves of unknown family may still change a lot's rates."""

    fertility: int = 0
    hatch_of_set: int = 0
    hatch_of_fertile: int = 0
    alive_7d: int = 0


def count_lot(lot: Lot) -> EggCounts:
    """The counts of one lot by its own moves and looks."""
    chicks = not_examined = not_fertile = unaccounted = 0
    for stage, n in lot.stages.items():  # a season counts thousands of lots: one pass, and no table of it
        if stage in CHICKS:
            chicks += n
        elif stage in _NOT_FERTILE:
            not_fertile += n
        elif stage == MISSING or stage not in _KNOWN:
            unaccounted += n
        elif stage in _NOT_EXAMINED:
            not_examined += n
    missing = _missing(unaccounted, lot.moves)
    hatched = chicks + missing
    if not is_judged(lot):
        return EggCounts(lot.n, hatched)
    examined = lot.n - not_examined - unaccounted + missing - unseen(lot)
    return EggCounts(lot.n, hatched, examined, examined - not_fertile, hatched)


def is_judged(lot: Lot) -> bool:
    """Whether somebody has looked into the eggs that count, so that the rates on examined have a denominator."""
    looked = any(look.what == "candled" for look in lot.looks)
    stages = lot.stages
    if stages.get("set", 0) > 0 and not looked:
        return False
    candled = looked or any(
        move.source in ("set", "locked") and move.target in _JUDGED_AT_CANDLING for move in lot.moves
    )
    return candled or not any(stages.get(stage, 0) > 0 for stage in ("set", "locked", "unhatched"))


def unseen(lot: Lot) -> int:
    """Eggs in the setter beyond the most that were seen live on one day of candling."""
    waiting = lot.stages.get("set", 0)
    if waiting <= 0:
        return 0
    live = max((seen[0] for seen in lot.seen("candled").values()), default=0)
    return max(0, waiting - live)


def count_among(lots: Sequence[Lot], among: Sequence[Move]) -> EggCounts:
    """What moves among several lots add to the sum of a setting's lots.

    They count towards examined only where every lot they name is judged (is_judged).
    """
    judged = {lot.id for lot in lots if is_judged(lot)}
    settled = [move for move in among if judged.issuperset(move.among)]
    spare = sum(unseen(lot) for lot in lots if lot.id in judged)
    hatched, *_ = _gains(lots, among, 0)
    hatched_of_fertile, examined, not_fertile = _gains(lots, settled, spare)
    return EggCounts(0, hatched, examined, examined - not_fertile, hatched_of_fertile)


def count_beside(moves: Iterable[Move]) -> Beside:
    """Up to how many eggs or chicks moves of unknown family may still change in each rate."""
    fertility = of_set = of_fertile = alive = 0
    for move in moves:
        source, target = _plain(move.source), _plain(move.target)
        lost_chick = {source, target} <= CHICKS | {MISSING} and source != target and MISSING in (source, target)
        fertile = _sort(source) != _sort(target) and not lost_chick
        hatched = (source in CHICKS) != (target in CHICKS) and not lost_chick
        fertility += move.n * fertile
        of_set += move.n * hatched
        of_fertile += move.n * (fertile or hatched)
        alive += move.n * (source in CHICKS or target in CHICKS)
    return Beside(fertility, of_set, of_fertile, alive)


def _sort(stage: str) -> tuple[bool, bool]:
    return stage in _NOT_EXAMINED, stage in _NOT_FERTILE


def _plain(stage: str) -> str:
    return stage if stage in _KNOWN else MISSING


def _plain_stages(stages: Mapping[str, int]) -> Counter[str]:
    if _KNOWN.issuperset(stages):
        return Counter(stages)
    merged: Counter[str] = Counter()
    for stage, n in stages.items():
        merged[_plain(stage)] += n
    return merged


def _missing(unaccounted: int, moves: Iterable[Move]) -> int:
    """Chicks lost from sight and not found, at most what is unaccounted for."""
    if unaccounted <= 0:
        return 0
    lost = 0
    for move in moves:
        source, target = _plain(move.source), _plain(move.target)
        if source in CHICKS and target == MISSING:
            lost += move.n
        elif source == MISSING and target in CHICKS:
            lost -= move.n
    return max(0, min(lost, unaccounted))


def _gains(lots: Sequence[Lot], among: Sequence[Move], spare: int) -> tuple[int, int, int]:
    """Chicks hatched, eggs examined, eggs not fertile that moves add. spare: eggs in the setter nobody saw live."""
    before: Counter[str] = Counter()
    for lot in lots:
        before.update(_plain_stages(lot.stages))
    after = Counter(before)
    out_of_setter = 0
    for move in among:
        after[_plain(move.source)] -= move.n
        after[_plain(move.target)] += move.n
        out_of_setter += move.n * ((move.source == "set") - (move.target == "set"))
    own = [move for lot in lots for move in lot.moves]
    missing = _missing(after[MISSING], [*own, *among]) - _missing(before[MISSING], own)

    def gain(stages: frozenset[str]) -> int:
        return sum(after[stage] - before[stage] for stage in stages)

    examined = missing - gain(_NOT_EXAMINED) + min(spare, max(0, out_of_setter))
    return gain(CHICKS) + missing, examined, gain(_NOT_FERTILE)
