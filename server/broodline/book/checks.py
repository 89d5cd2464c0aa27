"""What does not add up in a book, each as a Problem with a remedy. Checks read; they change no count."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import cast

from broodline.book.bodies_eggs import Counted, EggsOut, EggsWeighed, Gathered, Locked, Looked, Moved, Set
from broodline.book.bodies_flock import Came, Family, Left, Penned, Same, Scored
from broodline.book.bodies_rooms import Air, BrooderCheck, GaugeChecked, Place, Turned, Vented, Watered
from broodline.book.body import BirdShare
from broodline.book.moments import DAY_MS
from broodline.book.moves import Account
from broodline.book.problems import Problem, problem, stage_words
from broodline.book.stages import ALLOWED
from broodline.book.standing import Head, Lot, Move, Setting

Refer = Callable[[str], str]
Heads = Mapping[str, tuple[Head, ...]]


def check_names(
    heads: Heads,
    families: Mapping[str, Family],
    places: Mapping[str, Place],
    settings: Mapping[str, Setting],
    refer: Refer,
) -> Iterator[Problem]:
    """Families, places, settings and birds that entries name but nobody entered."""
    known = {
        "unknown_family": set(families),
        "unknown_place": set(places),
        "unknown_setting": set(settings),
        "unknown_bird": {head.root for head in heads.get("bird", ())},
    }
    for kind in heads:
        for head in heads[kind]:
            for code, name in _names_in(head):
                if refer(name) not in known[code]:
                    yield problem(code, head.id)


def check_moves(
    moves: Iterable[Move],
    accounts: Mapping[str, Account],
    lots: Mapping[str, Lot],
    families: Mapping[str, Family],
    settings: Mapping[str, Setting],
) -> Iterator[Problem]:
    """Moves outside the table, to nowhere, before the setting, or among lots of several settings."""
    for move in moves:
        named = (move.lot,) if move.lot is not None else move.among
        family = _family_words(lots, named, families)
        if move.source == move.target:
            if move.place is None:
                yield problem("move_nowhere", move.entry, n=move.n, family=family, **{"from": stage_words(move.source)})
        elif (move.source, move.target) not in ALLOWED:
            stages = {"from": stage_words(move.source), "to": stage_words(move.target)}
            yield problem("move_not_allowed", move.entry, n=move.n, family=family, **stages)
        of = {accounts[lot].founding.setting for lot in named}
        if len(of) > 1:
            yield problem("among_across_settings", move.entry)
        if any(accounts[lot].founding.setting is None and not accounts[lot].founding.came for lot in named):
            yield problem("lot_without_setting", move.entry)
        setting = next(iter(of))
        if setting is not None and len(of) == 1 and move.at_ms < settings[setting].set_at_ms - DAY_MS:
            yield problem("before_setting", move.entry, family=family)


def check_accounts(
    lots: Mapping[str, Lot],
    settings: Mapping[str, Setting],
    families: Mapping[str, Family],
    astray: Iterable[Head],
    heads: Heads,
    refer: Refer,
) -> Iterator[Problem]:
    """Stages below zero, in a lot or in a setting as a whole; looks at eggs that stand elsewhere."""
    for lot in lots.values():
        if lot.setting is None and not lot.came:
            continue
        for stage, n in lot.stages.items():
            if n < 0:
                taken = [move.entry for move in lot.moves if move.source == stage]
                family = _family_words(lots, (lot.id,), families)
                yield problem("below_zero", max(taken), n=-n, family=family, stage=stage_words(stage))
    for setting in settings.values():
        shown = {stage for name in setting.lots for stage, n in lots[name].stages.items() if n < 0}
        for stage, n in setting.stages.items():
            if n < 0 and stage not in shown:
                taken = [move.entry for move in setting.among if move.source == stage]
                yield problem("below_zero_setting", max(taken, default=setting.id), n=-n, stage=stage_words(stage))
    yield from (problem("lot_without_setting", head.id) for head in astray)
    for head in heads.get("looked", ()):
        body = cast(Looked, head.body)
        seen = lots.get(body.lot)
        if seen is not None and seen.setting is not None and refer(body.setting) != seen.setting:
            yield problem("wrong_setting", head.id, family=_family_words(lots, (seen.id,), families))


def check_counts(
    heads: Heads, lots: Mapping[str, Lot], families: Mapping[str, Family], refer: Refer
) -> Iterator[Problem]:
    """Physical counts that differ from the book, until a later count agrees or a move settles them."""
    settled = {
        refer(body.settles)
        for head in heads.get("moved", ())
        for body in (cast(Moved, head.body),)
        if body.settles is not None
    }
    agreed: dict[tuple[str, str], str] = {}
    counts = [(head, cast(Counted, head.body)) for head in heads.get("counted", ())]
    for head, count in counts:
        if count.n == count.ledger:
            agreed[count.lot, count.stage] = max(head.root, agreed.get((count.lot, count.stage), ""))
    for head, count in counts:
        if count.lot not in lots or (lots[count.lot].setting is None and not lots[count.lot].came):
            yield problem("lot_without_setting", head.id)
        elif (
            count.n != count.ledger
            and head.root not in settled
            and head.root > agreed.get((count.lot, count.stage), "")
        ):
            family = _family_words(lots, (count.lot,), families)
            where = stage_words(count.stage)
            yield problem("count_differs", head.id, n=count.n, family=family, stage=where, ledger=count.ledger)


def _family_words(lots: Mapping[str, Lot], names: Iterable[str], families: Mapping[str, Family]) -> str:
    """The names of the families that lots belong to, or '?' where nobody knows."""
    found = []
    for name in names:
        family = None if name not in lots else lots[name].family
        found.append("?" if family is None or family not in families else families[family].name)
    return " / ".join(sorted(set(found)))


def _names_in(head: Head) -> Iterator[tuple[str, str]]:
    """What an entry refers to, each with the code of the Problem when it is not in the book."""
    body = head.body
    match body:
        case Set():
            yield "unknown_place", body.place
            yield from (("unknown_family", lot.family) for lot in body.lots)
        case Looked() | EggsWeighed():
            yield "unknown_setting", body.setting
        case Locked():
            yield "unknown_setting", body.setting
            if body.place is not None:
                yield "unknown_place", body.place
        case Moved():
            if body.place is not None:
                yield "unknown_place", body.place
        case Gathered() | EggsOut():
            yield "unknown_family", body.family
        case Penned():
            yield "unknown_family", body.family
            yield from _birds(*body.sires, *body.dams)
        case Air() | Turned() | Vented() | Watered() | GaugeChecked() | BrooderCheck():
            yield "unknown_place", body.place
        case Left() | Scored():
            yield "unknown_bird", body.bird
        case Same():
            yield "unknown_bird", body.bird
            yield "unknown_bird", body.as_
        case Came():
            if body.bird is not None:
                yield "unknown_bird", body.bird
            if body.family is not None:
                yield "unknown_family", body.family


def _birds(*shares: BirdShare) -> Iterator[tuple[str, str]]:
    return (("unknown_bird", share.bird) for share in shares)
