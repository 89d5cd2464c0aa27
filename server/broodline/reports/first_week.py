"""How many of the chicks that are a week old lived through their first seven days.

Chicks are not told apart within a lot: whoever leaves is taken to be the one that hatched first of those still there.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from broodline.book.moments import DAY_MS
from broodline.book.stages import CHICK_STAGES, MISSING, STAGES
from broodline.book.standing import Move
from broodline.reports.untold import told_until_ms

WEEK_MS = 7 * DAY_MS
_LIVING = frozenset({"hatched", "brooding", "growing", "flock"})
_GONE = frozenset(CHICK_STAGES) - _LIVING


@dataclass(slots=True)
class _Group:
    """So many chicks that came out, or left in the same way, at the same time."""

    at_ms: int
    n: int
    how: str = ""


@dataclass(slots=True)
class _Lives:
    hatched: list[_Group] = field(default_factory=list)
    left: list[_Group] = field(default_factory=list)


def alive_at_seven_days(moves: Iterable[Move], now_ms: int) -> tuple[int, int]:
    """(alive, of): of the chicks hatched at least 7 days ago and not parted within 7 days, those alive at 7 days.

    A chick missing since then counts as lost; one that was found again does not; one found dead counts from when it
    was missed. Nothing is told of a batch some of whom are gone within that week and nobody wrote how.
    """
    left, of = left_within_seven_days(moves, now_ms)
    return of - left.total(), of


def left_within_seven_days(moves: Iterable[Move], now_ms: int) -> tuple[Counter[str], int]:
    """(how -> how many, of): as `alive_at_seven_days`, but those that are not alive by how they left."""
    moves = list(moves)
    until_ms = told_until_ms(moves)
    lives = _lives_of(moves)
    leaving = sorted(lives.left, key=lambda group: (group.at_ms, group.how))
    left: Counter[str] = Counter()
    of = 0
    for born in sorted(lives.hatched, key=lambda group: group.at_ms):
        if born.at_ms > now_ms - WEEK_MS:
            break
        rest = born.n
        is_told = until_ms is None or until_ms > born.at_ms + WEEK_MS
        while rest and leaving:
            gone = leaving[0]
            taken = min(rest, gone.n)
            rest -= taken
            gone.n -= taken
            if gone.n == 0:
                leaving.pop(0)
            within = gone.at_ms <= born.at_ms + WEEK_MS
            of += taken * (is_told and (not within or gone.how != "parted"))
            if is_told and within and gone.how != "parted":
                left[gone.how] += taken
        of += rest * is_told
    return left, of


def leavings(moves: Iterable[Move]) -> list[tuple[int, int, str]]:
    """(at_ms, n, how) of all chicks that left: "died", "culled", "parted", "missing"; those found again left out."""
    return sorted((group.at_ms, group.n, group.how) for group in _lives_of(moves).left if group.n > 0)


def _lives_of(moves: Iterable[Move]) -> _Lives:
    """When chicks hatched, and when and how they left: hatching first, then leaving, then what was put right."""
    lives = _Lives()
    of_chicks = [move for move in moves if move.target in CHICK_STAGES or _state(move.source) != "egg"]
    for move in sorted(of_chicks, key=lambda move: (_rank(move), move.at_ms, move.entry)):
        source, target = _state(move.source), _state(move.target)
        if source == "egg":
            _hatch(lives, move, target)
        elif source == "living":
            _leave(lives, move, target)
        else:
            _put_right(lives, move, source, target)
    return lives


def _rank(move: Move) -> int:
    return {"egg": 0, "living": 1}.get(_state(move.source), 2)


def _hatch(lives: _Lives, move: Move, target: str) -> None:
    if target in ("egg", "missing"):
        return
    lives.hatched.append(_Group(move.at_ms, move.n))
    if target != "living":
        lives.left.append(_Group(move.at_ms, move.n, target))


def _leave(lives: _Lives, move: Move, target: str) -> None:
    if target == "egg":
        _take(lives.hatched, move.n, "")
    elif target != "living":
        lives.left.append(_Group(move.at_ms, move.n, target))


def _put_right(lives: _Lives, move: Move, source: str, target: str) -> None:
    """Missing chicks are found, or some said to be gone are not: the first to leave so live on, or left otherwise."""
    if target == "egg":
        if source != "missing":
            _take(lives.left, move.n, source)
            _take(lives.hatched, move.n, "")
        return
    found = _take(lives.left, move.n, source)
    if target != "living":
        lives.left += [_Group(group.at_ms, group.n, target) for group in found]
    more = move.n - sum(group.n for group in found)
    if more and source == "missing" and target != "missing":
        _hatch(lives, move._replace(n=more), target)


def _take(groups: list[_Group], n: int, how: str) -> list[_Group]:
    """Take up to n, the earliest first, out of the groups that left this way."""
    taken = []
    for group in sorted((group for group in groups if group.how == how), key=lambda group: group.at_ms):
        some = min(n, group.n)
        group.n -= some
        n -= some
        taken.append(_Group(group.at_ms, some, how))
    groups[:] = [group for group in groups if group.n]
    return [group for group in taken if group.n]


def _state(stage: str) -> str:
    """ "egg", "living", "missing", or how a chick is gone."""
    if stage in _LIVING:
        return "living"
    if stage in _GONE:
        return stage
    return "missing" if stage == MISSING or stage not in STAGES else "egg"
