"""Whether chicks of unknown family can be shared out among lots at all: every way is tried, chick by chick."""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import combinations_with_replacement

from broodline.book.standing import Move


def can_be_shared_out(stages: Mapping[str, Mapping[str, int]], among: Sequence[Move]) -> bool:
    """stages: by lot. Whether some lot can be named for each chick so that no stage of any lot is below zero."""
    if not among:
        return all(n >= 0 for one in stages.values() for n in one.values())
    move, *others = among
    for named in combinations_with_replacement(move.among, move.n):
        then = {lot: Counter(one) for lot, one in stages.items()}
        for lot in named:
            then[lot][move.source] -= 1
            then[lot][move.target] += 1
        if can_be_shared_out(then, others):
            return True
    return False
