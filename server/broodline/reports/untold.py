"""Chicks of whom nobody wrote what became of them: a past season's table tells that they hatched, and no more.

They are no loss and no success. Where some of a batch are gone so, the others say nothing of later days either: those
of whom something was written are those that were kept, and a rate of them alone would say that none died.
"""

from collections.abc import Iterable

from broodline.book.stages import NOT_WRITTEN
from broodline.book.standing import Move

_GONE = "parted"


def count_untold(moves: Iterable[Move]) -> int:
    """How many of a lot are gone so, those found again left out."""
    untold = gone = 0
    for move in moves:
        gone += move.n * ((move.target == _GONE) - (move.source == _GONE))
        untold += move.n * (move.target == _GONE and move.cause == NOT_WRITTEN)
    return max(0, min(untold, gone))


def told_until_ms(moves: Iterable[Move]) -> int | None:
    """When the first of a lot were gone so: until then all of it is told. None where nobody is."""
    return min((move.at_ms for move in moves if move.target == _GONE and move.cause == NOT_WRITTEN), default=None)
