"""What does not add up in a book, each as a Problem with a remedy. Checks read; they change no count."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import cast

from broodline.book.bodies_eggs import Counted, Looked
from broodline.book.bodies_flock import Family
from broodline.book.founding import Founding
from broodline.book.ledger import Page
from broodline.book.moments import DAY_MS
from broodline.book.problems import Problem, problem, stage_words
from broodline.book.stages import ALLOWED
from broodline.book.standing import Head, Lot, Move, Setting
from broodline.book.tied_sets import overdrawn

Refer = Callable[[str], str]
FamilyWords = Callable[[Iterable[str]], str]


def family_words(foundings: Mapping[str, Founding], families: Mapping[str, Family]) -> FamilyWords:
    """Says the names of the families that lots belong to, or '?' where nobody knows."""

    def words(lots: Iterable[str]) -> str:
        named = ((foundings[lot].family or "") if lot in foundings else "" for lot in lots)
        return " / ".join(sorted({families[family].name if family in families else "?" for family in named}))

    return words


def check_lot(
    lot: Lot,
    page: Page,
    foundings: Mapping[str, Founding],
    set_at_ms: Mapping[str, int],
    words: FamilyWords,
    refer: Refer,
) -> Iterator[Problem]:
    """All that can be wrong with one lot by itself, and with what was recorded for it."""
    if len(page.foundings) > 1:
        claims = sorted((cast(Head, one.by) for one in page.foundings), key=lambda head: head.root)
        yield from (problem("lot_in_two_settings", head.id) for head in claims[1:])
    yield from _check_moves(lot.moves, (lot.id,), foundings, set_at_ms, words)
    for move in page.among:
        if move.among[0] == lot.id:  # checked with the first of its lots
            yield from _check_moves((move,), move.among, foundings, set_at_ms, words)
    if page.foundings:
        yield from _below_zero(lot, words)
    if lot.setting is None:
        yield from check_astray(page)
        return
    for head in page.looks:
        if refer(cast(Looked, head.body).setting) != lot.setting:
            yield problem("wrong_setting", head.id, family=words((lot.id,)))


def check_astray(page: Page) -> Iterator[Problem]:
    """Looks at eggs that no setting names."""
    return (problem("lot_without_setting", head.id) for head in page.looks)


def _check_moves(
    moves: Iterable[Move],
    lots: tuple[str, ...],
    foundings: Mapping[str, Founding],
    set_at_ms: Mapping[str, int],
    words: FamilyWords,
) -> Iterator[Problem]:
    """Moves of these lots outside the table, to nowhere, before the setting, or among lots not all of one setting."""
    settings = {foundings[lot].setting for lot in lots}
    orphaned = None in settings and any(foundings[lot].by is None for lot in lots)
    one = next(iter(settings)) if len(settings) == 1 else None
    earliest_ms = None if one is None else set_at_ms[one] - DAY_MS
    for move in moves:
        source, target = move.source, move.target
        if source == target:
            if move.place is None:
                said = {"from": stage_words(source)}
                yield problem("move_nowhere", move.entry, n=move.n, family=words(lots), **said)
        elif (source, target) not in ALLOWED:
            said = {"from": stage_words(source), "to": stage_words(target)}
            yield problem("move_not_allowed", move.entry, n=move.n, family=words(lots), **said)
        if orphaned:
            yield problem("lot_without_setting", move.entry)
        if earliest_ms is not None and move.at_ms < earliest_ms:
            yield problem("before_setting", move.entry, family=words(lots))
        if len(settings) > 1 or (move.lot is None and any(foundings[lot].came for lot in lots)):
            yield problem("among_across_settings", move.entry)


def check_setting(setting: Setting, lots: Mapping[str, Lot], words: FamilyWords) -> Iterator[Problem]:
    """Stages below zero in a setting as a whole that are below zero in none of its lots, and in some lots together."""
    if min(setting.stages.values(), default=0) >= 0:
        for some in overdrawn({lot: lots[lot].stages for lot in setting.lots}, setting.among):
            taken = [move.entry for move in setting.among if some.issuperset(move.among)]
            yield problem("below_zero_among", max(taken), family=words(some))
        return
    shown = {stage for name in setting.lots for stage, n in lots[name].stages.items() if n < 0}
    for stage, n in setting.stages.items():
        if n < 0 and stage not in shown:
            taken = [move.entry for move in setting.among if move.source == stage]
            yield problem("below_zero_setting", max(taken, default=setting.id), n=-n, stage=stage_words(stage))


def check_counts(
    counts: Iterable[tuple[Head, Counted]],
    settled: set[str],
    foundings: Mapping[str, Founding],
    words: FamilyWords,
) -> Iterator[Problem]:
    """Physical counts that differ from the book, until a later count agrees or a move settles them.

    settled: identities of counts that moves settle.
    """
    counts = list(counts)
    agreed: dict[tuple[str, str], str] = {}
    for head, count in counts:
        if count.n == count.ledger:
            agreed[count.lot, count.stage] = max(head.root, agreed.get((count.lot, count.stage), ""))
    for head, count in counts:
        founding = foundings.get(count.lot)
        if founding is None or founding.by is None:
            yield problem("lot_without_setting", head.id)
        elif (
            count.n != count.ledger
            and head.root not in settled
            and head.root > agreed.get((count.lot, count.stage), "")
        ):
            family, where = words((count.lot,)), stage_words(count.stage)
            yield problem("count_differs", head.id, n=count.n, family=family, stage=where, ledger=count.ledger)


def _below_zero(lot: Lot, words: FamilyWords) -> Iterator[Problem]:
    for stage, n in lot.stages.items():
        if n < 0:
            taken = [move.entry for move in lot.moves if move.source == stage]
            yield problem("below_zero", max(taken), n=-n, family=words((lot.id,)), stage=stage_words(stage))
