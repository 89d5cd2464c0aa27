"""Moves and looks added up: for each lot how many are in each stage, for each setting its totals.

Addition only, so the result depends on no order. Moves outside the table and counts below zero are kept and reported.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from operator import attrgetter
from typing import cast

from broodline.book.bodies_eggs import Looked
from broodline.book.founding import Founding
from broodline.book.ledger import Page
from broodline.book.moments import DAY_MS
from broodline.book.stages import CHICK_STAGES, MISSING
from broodline.book.standing import Head, Look, Lot, Move

_CHICKS = frozenset(CHICK_STAGES)
_BY_TIME = attrgetter("at_ms", "entry")


def add_up_lot(
    founding: Founding, page: Page, setting_of: Callable[[Move], str | None], set_at_ms: Mapping[str, int]
) -> Lot:
    """The lot as it now stands. setting_of: the one setting in which all lots of a move among several stand.

    A move among lots of several settings, or of none, counts nowhere; nor do looks at eggs in no setting.
    """
    stages: dict[str, int] = defaultdict(int, {founding.start: founding.n})
    lost_from_sight = 0
    moves = page.moves if len(page.moves) < 2 else sorted(page.moves, key=_BY_TIME)
    for move in moves:
        source, target = move.source, move.target
        if source != target:
            stages[source] -= move.n
            stages[target] += move.n
            if MISSING in (source, target):
                lost_from_sight += _out_of_sight(move)
    setting = founding.setting
    looks = [] if setting is None else [_look(head, set_at_ms[setting]) for head in page.looks]
    return Lot(
        founding.lot,
        setting,
        founding.family,
        founding.n,
        founding.start,
        founding.came,
        founding.laid_from,
        founding.laid_to,
        founding.bought_in,
        founding.sign,
        without_zeros(stages),
        _open(page.among, setting_of),
        tuple(moves),
        tuple(sorted(looks, key=_BY_TIME)),
        max(0, min(lost_from_sight, stages[MISSING])),
    )


def totals(lots: Iterable[Lot], among: Iterable[Move]) -> dict[str, int]:
    """A setting's totals: its lots added up, and what was moved among them."""
    stages: dict[str, int] = defaultdict(int)
    for lot in lots:
        for stage, n in lot.stages.items():
            stages[stage] += n
    for move in among:
        stages[move.source] -= move.n
        stages[move.target] += move.n
    return without_zeros(stages)


def without_zeros(stages: Mapping[str, int]) -> dict[str, int]:
    """The stages that hold something (or less than nothing), by name."""
    return {stage: stages[stage] for stage in sorted(stages) if stages[stage] != 0}


def _open(among: Iterable[Move], setting_of: Callable[[Move], str | None]) -> dict[str, int]:
    """Up to how many more may be in each stage, by moves among several lots."""
    more: dict[str, int] = defaultdict(int)
    for move in among:
        if move.source != move.target and setting_of(move) is not None:
            more[move.target] += move.n
    return without_zeros(more)


def _look(head: Head, set_at_ms: int) -> Look:
    """What was seen; the day of incubation is reckoned where it was not written."""
    body = cast(Looked, head.body)
    day = max(0, (head.at_ms - set_at_ms) // DAY_MS) if body.day is None else body.day
    seen = (body.live or 0, body.unsure or 0, body.pipped or 0)
    return Look(head.id, head.at_ms, body.lot, body.what, day, *seen, bool(body.none))


def _out_of_sight(move: Move) -> int:
    if move.source in _CHICKS:
        return move.n
    if move.target in _CHICKS:
        return -move.n
    return 0
