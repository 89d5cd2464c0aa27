"""Chicks that come out of their shells. A missing chick that is put back is none of them.

Mirrored in pwa/src/book/out-of-shell.ts over tests/vectors/whereabouts.json.
"""

from collections.abc import Iterable
from operator import attrgetter

from broodline.book.stages import CHICK_STAGES, MISSING
from broodline.book.standing import Move

_CHICKS = frozenset(CHICK_STAGES)
_BY_TIME = attrgetter("at_ms", "entry")


def out_of_shell(moves: Iterable[Move]) -> list[Move]:
    """Moves of eggs into hatched, in order of time. What was lost from sight and is put there is an egg only beyond the
    chicks that are missing by then; n is that of the eggs."""
    moves = list(moves)
    out = [move for move in moves if move.target == "hatched" and move.source not in _CHICKS]
    if any(move.source == MISSING for move in out):
        out = _without_chicks(sorted(moves, key=_BY_TIME))
    return sorted(out, key=_BY_TIME)


def _without_chicks(moves: Iterable[Move]) -> list[Move]:
    missing = 0
    found = []
    for move in moves:
        if move.source in _CHICKS:
            missing += move.n if move.target == MISSING else 0
            continue
        back = min(missing, move.n) if move.source == MISSING and move.target in _CHICKS else 0
        missing -= back
        if move.target == "hatched" and move.n > back:
            found.append(move._replace(n=move.n - back) if back else move)
    return found
