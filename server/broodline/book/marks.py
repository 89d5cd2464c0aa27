"""Marks that chicks of a lot wear, added up, and chicks that left the basket without one.

Mirrored in pwa/src/book/marks.ts over tests/vectors/fold.json.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import cast

from broodline.book.bodies_flock import Marked
from broodline.book.checks import FamilyWords
from broodline.book.problems import Problem, problem
from broodline.book.stages import MISSING
from broodline.book.standing import Head, Lot, Move, Setting

LIVING = ("hatched", "brooding", "growing", "flock")


@dataclass(frozen=True, slots=True)
class Mark:
    """Chicks of a lot marked at once.

    webs: those punched, or none. ring: whether a ring went on. n: how many; None: all of the lot. on: the date, where
    it was given. recheck: an older mark looked at again. again: a mark put in an older one's place.
    """

    entry: str
    lot: str
    at_ms: int
    on: str | None
    webs: tuple[str, ...]
    ring: bool
    n: int | None
    recheck: bool
    again: bool


def marks_of_lots(heads: Mapping[str, tuple[Head, ...]]) -> dict[str, list[Mark]]:
    """The marks of each lot in order of time."""
    found: dict[str, list[Mark]] = {}
    for head in heads.get("marked", ()):
        body = cast(Marked, head.body)
        if body.lot is not None:
            ring = body.tag is not None and body.tag.kind == "ring"
            webs = tuple(body.webs or ())
            again, recheck = body.replaces is not None, bool(body.recheck)
            mark = Mark(head.id, body.lot, head.at_ms, body.on, webs, ring, body.n, recheck, again)
            found.setdefault(body.lot, []).append(mark)
    return {lot: sorted(found[lot], key=lambda mark: (mark.at_ms, mark.entry)) for lot in sorted(found)}


def living(lot: Lot) -> int:
    """Chicks of a lot that are alive and here."""
    return sum(max(0, lot.stages.get(stage, 0)) for stage in LIVING)


def unmarked(lot: Lot, marks: Iterable[Mark]) -> int:
    """Living chicks of a lot beyond those of its marks: a second look and a changed mark mark nobody new."""
    alive = living(lot)
    return alive - sum(alive if one.n is None else one.n for one in marks if not one.recheck and not one.again)


def check_marks(
    heads: Mapping[str, tuple[Head, ...]],
    lots: Mapping[str, Lot],
    settings: Mapping[str, Setting],
    words: FamilyWords,
) -> Iterator[Problem]:
    """Chicks without a mark, out of the basket, where others of their hatch are marked; marks of unknown chicks.

    A missed chick reads as one that nobody marked. Where no chick of a hatch is marked nothing is said. The dead may
    have been the unmarked ones; of those whose family nobody knows, all they may have been of are told together.
    """
    marks = marks_of_lots(heads)
    if not marks:
        return
    for name, own in marks.items():
        if name not in lots or (lots[name].setting is None and not lots[name].came):
            yield from (problem("lot_without_setting", mark.entry) for mark in own)
    hatches: list[tuple[tuple[str, ...], tuple[Move, ...]]]
    hatches = [(setting.lots, setting.among) for setting in settings.values()]
    hatches += [((lot.id,), ()) for lot in lots.values() if lot.came and lot.setting is None]
    for hatch, among in hatches:
        last = max((mark.entry for lot in hatch for mark in marks.get(lot, ())), default=None)
        if last is None:
            continue
        out = [name for name in hatch if _is_out(lots[name])]
        missed = {name: max(0, unmarked(lots[name], marks.get(name, ()))) for name in out}
        gone = [move for move in among if _left_alive(move) > 0]
        unsure = [name for name, n in missed.items() if n > 0 and any(name in move.among for move in gone)]
        told = [([name], n) for name, n in missed.items() if name not in unsure]
        told += [(unsure, sum(missed[name] for name in unsure) - max(0, sum(map(_left_alive, among))))]
        for some, n in told:
            if n > 0:
                yield problem("unmarked_chicks", last, n=n, family=words(some))


def _left_alive(move: Move) -> int:
    """How many living chicks a move takes away; less than nothing where missing ones are found again."""
    if move.target in LIVING:  # what is found and put into hatched may have been an egg
        return -move.n if move.source == MISSING and move.target != "hatched" else 0
    return move.n if move.source in LIVING else 0


def _is_out(lot: Lot) -> bool:
    return all(lot.stages.get(stage, 0) <= 0 for stage in ("set", "locked", "hatched"))
