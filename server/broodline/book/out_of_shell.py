"""Chicks that come out of their shells. A missing chick that is put back is none of them.

Mirrored in pwa/src/book/out-of-shell.ts over tests/vectors/whereabouts.json.
"""

from collections.abc import Iterable, Iterator
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
        out = _without_chicks(moves)
    return sorted(out, key=_BY_TIME)


def put_back(moves: Iterable[Move]) -> Iterator[tuple[Move, int]]:
    """Each move, in order of time, and how many of those it moves are chicks that were missing."""
    missing = 0
    for move in sorted(moves, key=_BY_TIME):
        back = min(missing, move.n) if move.source == MISSING and move.target in _CHICKS else 0
        missing += move.n if move.source in _CHICKS and move.target == MISSING else -back
        yield move, back


def _without_chicks(moves: Iterable[Move]) -> list[Move]:
    into = ((move, back) for move, back in put_back(moves) if move.target == "hatched" and move.source not in _CHICKS)
    return [move._replace(n=move.n - back) if back else move for move, back in into if move.n > back]
