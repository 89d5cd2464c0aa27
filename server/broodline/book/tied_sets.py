"""Of which lots together more chicks of unknown family are gone than they had: any of them may hide it in all.

For each set of lots: moves that name none but these took what they took of them, and moves that name others besides
may have brought them what they needed, as a flow from stage to stage. Where no move follows on another (out of a stage
into which it brought something) this is exact, by Hall's theorem (J. London Math. Soc. 1935, 10:26); where one does
among other lots, it may miss what only chick by chick can be told, and never finds fault with what can be. Mirrored in
pwa/src/book/tied-sets.ts over tests/vectors/tied.json.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from broodline.book.standing import Move

Lots = frozenset[str]


def overdrawn(stages: Mapping[str, Mapping[str, int]], among: Sequence[Move]) -> list[Lots]:
    """The smallest sets of lots that cannot be, the smaller first. stages: by lot; below zero counts as none."""
    sets = {frozenset(move.among) for move in among}
    while more := {one | other for one in sets for other in sets if one & other} - sets:
        sets |= more
    found: list[Lots] = []
    for lots in sorted(sets, key=lambda one: (len(one), sorted(one))):
        if not any(one < lots for one in found) and not _holds(lots, (stages[lot] for lot in lots), among):
            found.append(lots)
    return found


def _holds(lots: Lots, stages: Iterable[Mapping[str, int]], among: Sequence[Move]) -> bool:
    there: Counter[str] = Counter()
    for one in stages:
        there.update({stage: max(0, n) for stage, n in one.items()})
    may_bring: Counter[tuple[str, str]] = Counter()
    for move in among:
        if lots.issuperset(move.among):
            there[move.source] -= move.n
            there[move.target] += move.n
        elif not lots.isdisjoint(move.among):
            may_bring[move.source, move.target] += move.n
    lacking = next((stage for stage, n in there.items() if n < 0), None)
    while lacking is not None and (path := _path(there, may_bring, lacking)):
        for source, target in path:
            may_bring[source, target] -= 1
            may_bring[target, source] += 1
        there[path[-1][0]] -= 1
        there[lacking] += 1
        lacking = next((stage for stage, n in there.items() if n < 0), None)
    return lacking is None


def _path(there: Mapping[str, int], may_bring: Mapping[tuple[str, str], int], to: str) -> list[tuple[str, str]]:
    """The moves, last first, by which one more may have come to a stage from one that holds some; none for no way."""
    ways: dict[str, list[tuple[str, str]]] = {to: []}
    for stage in (waiting := [to]):
        for (source, target), n in may_bring.items():
            if target == stage and n > 0 and source not in ways:
                ways[source] = [*ways[stage], (source, target)]
                if there.get(source, 0) > 0:
                    return ways[source]
                waiting.append(source)
    return []
