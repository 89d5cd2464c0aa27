"""What to mind where chicks of several lots share a place: marks that do not tell them apart, and ages far apart.

Mirrored in pwa/src/book/together.ts over tests/vectors/together.json. Said, never blocked.
"""

from collections.abc import Sequence
from itertools import combinations
from typing import cast

from broodline.book.bodies_flock import Marked
from broodline.book.hatch_day import hatched_ms, whole_days
from broodline.book.marks import Mark, marks_of_lots, unmarked
from broodline.book.standing import Standing

APART_DAYS = 7
"""Chicks a week apart in age differ in heat and strength: our judgement."""


def alike_pairs(standing: Standing, lots: Sequence[str]) -> list[tuple[str, str]]:
    """Pairs of these lots whose marks do not tell them apart: alike, or not all chicks of one of the two are marked."""
    worn = marks_of_lots(standing.heads)
    marks = {
        lot: frozenset() if _is_missed(standing, lot, worn.get(lot, ())) else marks_of(standing, lot) for lot in lots
    }
    return [
        (one, other)
        for one, other in combinations(lots, 2)
        if not marks[one] or not marks[other] or marks[one] & marks[other]
    ]


def _is_missed(standing: Standing, lot: str, worn: Sequence[Mark]) -> bool:
    """Whether a chick of the lot lives that nobody marked: it may be taken for one of any lot."""
    return lot in standing.lots and unmarked(standing.lots[lot], worn) > 0


def ages_apart(standing: Standing, lots: Sequence[str], now_ms: int) -> bool:
    """Whether some of these lots hatched a week or more before others. A lot of unknown age says nothing."""
    born = [hatched_ms(standing, standing.lots[lot]) for lot in lots if lot in standing.lots]
    ages = [whole_days(one, now_ms) for one in born if one is not None]
    return bool(ages) and max(ages) - min(ages) >= APART_DAYS


def marks_of(standing: Standing, lot: str) -> frozenset[tuple[str, ...]]:
    """How chicks of a lot are told from others: webs, and rings and tags by kind, colour, leg and text.

    A mark that another one replaced is worn no more.
    """
    heads = standing.heads.get("marked", ())
    replaced = (cast(Marked, head.body).replaces for head in heads)
    gone = {standing.root_of.get(one, one) for one in replaced if one is not None}
    found: set[tuple[str, ...]] = set()
    for head in heads:
        body = cast(Marked, head.body)
        if body.lot != lot or head.root in gone:
            continue
        if body.webs:
            found.add(("webs", *sorted(body.webs)))
        if body.tag is not None:
            tag = body.tag
            found.add((tag.kind, tag.colour or "", tag.leg or "", tag.text or ""))
    return frozenset(found)
