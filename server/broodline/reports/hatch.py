"""How a hatch went in time: looks, the window they show, and the share out at each.

A look starts with chicks moved into hatched, or with a look at the hatch, and takes in all of that setting within 30
minutes; its time is that of its last entry. A look with no chick closes an interval too.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from broodline.book.moments import HOUR_MS, MINUTE_MS
from broodline.book.out_of_shell import out_of_shell
from broodline.book.standing import Lot, Move, Setting
from broodline.trade.hatch_forecast import NO_SLOPE, meanings, middle_h
from broodline.trade.hatch_time import Found, HatchFit, Unhatched, fit_hatch, shares_by_look
from broodline.trade.sources import origin

LOOK_MS = 30 * MINUTE_MS


@dataclass(frozen=True, slots=True)
class HatchLook:
    """One look at the hatch: its time, and how many chicks were new."""

    at_ms: int
    n: int


def hatch_json(setting: Setting, lots: Sequence[Lot]) -> dict[str, Any] | None:
    """The hatch of a setting in hours since it was set; None where nobody looked.

    median_h ... spread_h are None where the looks cannot tell a spread; `shares` needs no curve. later_h: median less
    the middle of the species' usual time; meanings: what it may say where that or the spread stands out.
    """
    looks = looks_at_hatch(setting, lots)
    if not looks:
        return None
    found = found_between(setting, looks)
    fit = fit_of(setting, lots)
    middle = middle_h(setting.species)
    later_h = None if fit is None or middle is None else fit.median_h - middle
    with_chicks = [look for look in looks if look.n]
    return {
        "median_h": fit.median_h if fit else None,
        "p05_h": fit.p05_h if fit else None,
        "p95_h": fit.p95_h if fit else None,
        "spread_h": fit.spread_h if fit else None,
        "first_h": _hours(setting, with_chicks[0].at_ms) if with_chicks else None,
        "last_h": _hours(setting, with_chicks[-1].at_ms) if with_chicks else None,
        "checks": len(looks),
        "hatched": sum(look.n for look in looks),
        "shares": [{"h": hour, "share": share} for hour, share in shares_by_look(found)],
        "later_h": later_h,
        "meanings": [] if fit is None or later_h is None else meanings_json(later_h, fit.spread_h),
    }


def meanings_json(later_h: float, spread_h: float) -> list[dict[str, Any]]:
    """[{code, words, likely, causes: [{words, source}]}]: direction only."""
    words = {
        "early": "The hatch was {hours:.0f} hours early.",
        "late": "The hatch was {hours:.0f} hours late.",
        "drawn_out": "The hatch drew out over {hours:.0f} hours.",
    }
    return [
        {
            "code": one.code,
            "words": words[one.code].format(hours=one.hours) + (f" {NO_SLOPE}" if one.code != "drawn_out" else ""),
            "likely": [f"{cause['words']} ({cause['source']})" for cause in causes],
            "causes": causes,
        }
        for one in meanings(later_h, spread_h)
        for causes in ([{"words": cause.value, "source": origin(cause)} for cause in one.likely],)
    ]


def fit_of(setting: Setting, lots: Sequence[Lot]) -> HatchFit | None:
    """The curve of a setting's hatch; None where its looks cannot tell one."""
    looks = looks_at_hatch(setting, lots)
    if not looks:
        return None
    return _fitted(tuple(found_between(setting, looks)), tuple(_unhatched(setting, lots, looks)))


@lru_cache(maxsize=256)
def _fitted(found: tuple[Found, ...], waiting: tuple[Unhatched, ...]) -> HatchFit | None:
    return fit_hatch(found, waiting)


def looks_at_hatch(setting: Setting, lots: Sequence[Lot]) -> list[HatchLook]:
    """Every look at the hatch of a setting, in order of time."""
    events = [(move.at_ms, move.n) for move in moves_out_of_shell(setting, lots)]
    events += [(look.at_ms, 0) for lot in lots for look in lot.looks if look.what == "hatch"]
    looks: list[HatchLook] = []
    began_ms = 0
    for at_ms, n in sorted(events):
        if looks and at_ms <= began_ms + LOOK_MS:
            looks[-1] = HatchLook(at_ms, looks[-1].n + n)
        else:
            began_ms = at_ms
            looks.append(HatchLook(at_ms, n))
    return looks


def found_between(setting: Setting, looks: Sequence[HatchLook]) -> list[Found]:
    """The chicks of each look with the interval they hatched in; those of the first look have no beginning."""
    found = []
    before: float | None = None
    for look in looks:
        by_h = _hours(setting, look.at_ms)
        found.append(Found(before, by_h, look.n))
        before = by_h
    return found


def moves_out_of_shell(setting: Setting, lots: Sequence[Lot]) -> list[Move]:
    """Every move of eggs into hatched, of known family or not, in order of time."""
    return out_of_shell([*setting.among, *(move for lot in lots for move in lot.moves)])


def weak_and_helped(moves: Iterable[Move]) -> dict[str, int]:
    """{weak, helped}: chicks of those moves that were weak, or had to be helped out; one may be both."""
    out = out_of_shell(moves)
    return {
        "weak": sum(move.n for move in out if move.weak),
        "helped": sum(move.n for move in out if move.helped),
    }


def _unhatched(setting: Setting, lots: Sequence[Lot], looks: Sequence[HatchLook]) -> list[Unhatched]:
    """Eggs set aside as unhatched, when that was; and those that still lie, at the last look."""
    moves = sorted([*setting.among, *(move for lot in lots for move in lot.moves)], key=lambda move: move.at_ms)
    aside = [[move.at_ms, move.n] for move in moves if move.target == "unhatched" and move.source in ("set", "locked")]
    back = sum(move.n for move in moves if move.source == "unhatched" and move.target in ("hatched", "set", "locked"))
    for one in reversed(aside):
        taken = min(back, one[1])
        one[1] -= taken
        back -= taken
    lying = sum(max(0, setting.stages.get(stage, 0)) for stage in ("set", "locked"))
    waiting = [*((at_ms, n) for at_ms, n in aside), (looks[-1].at_ms, lying)]
    return [Unhatched(_hours(setting, at_ms), n) for at_ms, n in waiting if n]


def _hours(setting: Setting, at_ms: int) -> float:
    return (at_ms - setting.set_at_ms) / HOUR_MS
