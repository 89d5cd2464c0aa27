"""At what age a season's chicks were lost, all its hatches together.

Chicks are not told apart within a hatch: whoever leaves is taken to be the one that hatched first of those still there.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from broodline.book.moments import DAY_MS
from broodline.book.out_of_shell import out_of_shell
from broodline.book.standing import Setting, Standing
from broodline.book.tied import Tied, tied_groups
from broodline.reports.first_week import leavings
from broodline.reports.untold import told_until_ms
from broodline.trade.proportions import rate_of

_SCALES = (0.1, 0.2, 0.5)
_AGES = ((0, 2), (3, 7), (8, 28), (29, 84))
_LOST = frozenset({"died", "missing"})
_UNTOLD = "untold"


def chick_losses(standing: Standing, settings: Sequence[Setting], now_ms: int) -> list[dict[str, Any]]:
    """[{from_days, to_days, died, missing, culled, lost}] by age in whole days, both ends included.

    Only chicks that are past that age by now, were they alive: else the lost would count before the living. lost: rate
    of died and missing (Wilson 95 %) among those that came to its first day and were lost in it or lived to its end;
    sold, given and culled in it are left out, and so are all of a batch from the moment on when some of it are gone and
    nobody wrote how. settings: those whose counts fit. An age without such chicks is left out.
    """
    lives = [life for setting in settings for life in _lives(standing, setting)]
    rows = []
    for first, last in _AGES:
        begin_ms, end_ms = first * DAY_MS, (last + 1) * DAY_MS
        gone = {"died": 0, "missing": 0, "culled": 0}
        through = 0
        for born_ms, n, left_ms, how in lives:
            if born_ms + end_ms > now_ms:
                continue
            age_ms = None if left_ms is None else left_ms - born_ms
            if age_ms is not None and begin_ms <= age_ms < end_ms:
                gone[how] = gone.get(how, 0) + n
            elif age_ms is None or age_ms >= end_ms:
                through += n
        lost = sum(gone[how] for how in _LOST)
        if lost + through > 0:
            told = {how: gone[how] for how in ("died", "missing", "culled")}
            rows.append({"from_days": first, "to_days": last, **told, "lost": rate_of(lost, lost + through).as_json()})
    return rows


def scale_of(highs: Iterable[float | None]) -> float:
    """The end of an axis of rates from 0: 10, 20, 50 or 100 %, so that all intervals are on it and can be seen.

    >>> scale_of([0.05, None]), scale_of([0.13, 0.05]), scale_of([0.6])
    (0.1, 0.2, 1.0)
    """
    high = max((one for one in highs if one is not None), default=1.0)
    return next((one for one in _SCALES if high <= one), 1.0)


def _lives(standing: Standing, setting: Setting) -> Iterator[tuple[int, int, int | None, str]]:
    """(born_ms, n, left_ms or None, how) of a setting's chicks, in groups that came and went together: of each lot by
    itself, but for those that chicks of unknown family tie."""
    for tied in tied_groups([standing.lots[name] for name in setting.lots], setting.among):
        until_ms = told_until_ms(tied.moves)
        for born_ms, n, left_ms, how in _lives_of(tied):
            if until_ms is not None and (left_ms is None or left_ms >= until_ms):
                yield born_ms, n, until_ms, _UNTOLD
            else:
                yield born_ms, n, left_ms, how


def _lives_of(tied: Tied) -> Iterator[tuple[int, int, int | None, str]]:
    going = deque(leavings(tied.moves))
    for born_ms, born in ((move.at_ms, move.n) for move in out_of_shell(tied.moves)):
        left = born
        while left and going:
            at_ms, n, how = going.popleft()
            taken = min(left, n)
            yield born_ms, taken, at_ms, how
            left -= taken
            if n > taken:
                going.appendleft((at_ms, n - taken, how))
        if left:
            yield born_ms, left, None, ""
