"""Moves and looks added up: for each lot how many are in each stage, for each setting its totals.

Addition only, so the result depends on no order. Moves outside the table and counts below zero are kept and reported.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import cast

from broodline.book.bodies_eggs import Looked, Moved
from broodline.book.founding import Founding
from broodline.book.moments import DAY_MS
from broodline.book.stages import CHICK_STAGES, MISSING
from broodline.book.standing import Head, Look, Lot, Move

_CHICKS = frozenset(CHICK_STAGES)


@dataclass(slots=True)
class Account:
    """What is being added up for one lot."""

    founding: Founding
    stages: Counter[str] = field(default_factory=Counter)
    open: Counter[str] = field(default_factory=Counter)
    moves: list[Move] = field(default_factory=list)
    looks: list[Look] = field(default_factory=list)
    lost_from_sight: int = 0


def moves_of(heads: Iterable[Head]) -> list[Move]:
    """Every single move of the `moved` entries."""
    return [
        Move(
            head.id,
            head.at_ms,
            move.lot,
            tuple(sorted(set(move.among))) if move.lot is None and move.among is not None else (),
            move.from_,
            move.to,
            move.n,
            body.why,
            body.day,
            body.cause,
            body.place,
            bool(body.helped),
            bool(body.weak),
        )
        for head in heads
        for body in (cast(Moved, head.body),)
        for move in body.moves
    ]


def open_accounts(foundings: Mapping[str, Founding], moves: Iterable[Move]) -> dict[str, Account]:
    """An account for every lot that was founded or that a move names."""
    accounts = {lot: Account(founding, Counter({founding.start: founding.n})) for lot, founding in foundings.items()}
    for move in moves:
        for lot in (move.lot,) if move.lot is not None else move.among:
            if lot not in accounts:
                accounts[lot] = Account(Founding(lot, None, None, 0, "set", came=False))
    return accounts


def enter_moves(accounts: Mapping[str, Account], moves: Iterable[Move]) -> list[Move]:
    """Enter moves of a known lot in its account and return those among several lots of one setting.

    A move among lots of several settings, or of none, is entered nowhere.
    """
    among: list[Move] = []
    for move in moves:
        if move.lot is not None:
            account = accounts[move.lot]
            account.moves.append(move)
            if move.source != move.target:
                account.stages[move.source] -= move.n
                account.stages[move.target] += move.n
                account.lost_from_sight += _out_of_sight(move)
        elif setting_of(accounts, move) is not None:
            among.append(move)
            if move.source != move.target:
                for lot in move.among:
                    accounts[lot].open[move.target] += move.n
    return among


def setting_of(accounts: Mapping[str, Account], move: Move) -> str | None:
    """The one setting that all lots of a move among several stand in, or None."""
    settings = {accounts[lot].founding.setting for lot in move.among}
    return next(iter(settings)) if len(settings) == 1 else None


def enter_looks(accounts: Mapping[str, Account], heads: Iterable[Head], set_at_ms: Mapping[str, int]) -> list[Head]:
    """Enter looks in their lots' accounts; returns the looks whose lot nobody founded."""
    astray: list[Head] = []
    for head in heads:
        body = cast(Looked, head.body)
        account = accounts.get(body.lot)
        if account is None or account.founding.setting is None:
            astray.append(head)
            continue
        day = body.day
        if day is None:
            day = max(0, (head.at_ms - set_at_ms[account.founding.setting]) // DAY_MS)
        seen = (body.live or 0, body.unsure or 0, body.pipped or 0)
        account.looks.append(Look(head.id, head.at_ms, body.lot, body.what, day, *seen, bool(body.none)))
    return astray


def close_account(account: Account) -> Lot:
    """The lot as it now stands."""
    founding = account.founding
    missing = max(0, min(account.lost_from_sight, account.stages[MISSING]))
    return Lot(
        founding.lot,
        founding.setting,
        founding.family,
        founding.n,
        founding.start,
        founding.came,
        founding.laid_from,
        founding.laid_to,
        founding.bought_in,
        founding.sign,
        without_zeros(account.stages),
        without_zeros(account.open),
        tuple(sorted(account.moves, key=lambda move: (move.at_ms, move.entry))),
        tuple(sorted(account.looks, key=lambda look: (look.at_ms, look.entry))),
        missing,
    )


def totals(lots: Iterable[Lot], among: Iterable[Move]) -> dict[str, int]:
    """A setting's totals: its lots added up, and what was moved among them."""
    stages: Counter[str] = Counter()
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


def _out_of_sight(move: Move) -> int:
    if move.source in _CHICKS and move.target == MISSING:
        return move.n
    if move.source == MISSING and move.target in _CHICKS:
        return -move.n
    return 0
