"""How many chicks are alive by day: of a lot, of each family of its hatch, and of its family's other hatches.

Died and missing are losses; culled, sold, given, and those alive today, are seen no more from their day on.
"""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import Any

from broodline.book.gone_birds import GoneBird, GoneBirds
from broodline.book.hatch_day import hatched_ms, noon_ms, whole_days
from broodline.book.moments import instant
from broodline.book.standing import Lot, Standing
from broodline.book.tied import Tied, tied_to
from broodline.book.whereabouts import LIVING
from broodline.reports.first_week import leavings
from broodline.reports.untold import count_untold, told_until_ms
from broodline.trade.calendar import local_date
from broodline.trade.comparisons import holm
from broodline.trade.survival import Fate, log_rank, median_day, survival

LOST = frozenset({"died", "missing"})
_BIRDS_LOST = frozenset({"died", "lost"})
MOST_HATCHES = 8
_BEYOND_CHANCE = 0.05
_LEFT_OUT = "Chicks gone of whom nobody knows the family count in none of them."
_GROWN_DAYS = 180
"""Later a bird is known by itself, and this curve says nothing of it."""


def fates_of(tied: Tied, born_ms: int, now_ms: int, birds: GoneBirds) -> list[Fate]:
    """What became of the chicks of a lot, or of several that are told together, in whole days since they hatched.

    birds: those kept out of them that have left since. Nothing where their counts cannot be. From the day on when some
    are gone and nobody wrote how, none of them is followed.
    """
    if not tied.adds_up:
        return []
    alive = sum(tied.stages.get(stage, 0) for stage in LIVING)
    today = max(0, whole_days(born_ms, now_ms))
    gone = [Fate(max(0, whole_days(born_ms, at_ms)), n, how in LOST) for at_ms, n, how in leavings(tied.moves)]
    kept = [_grown(one, born_ms, today) for lot in tied.lots for one in birds.get(lot.id, ())][:alive]
    fates = [*gone, *kept, Fate(today, alive - len(kept), died=False)]
    until_ms = told_until_ms(tied.moves)
    if until_ms is None:
        return fates
    last = max(0, whole_days(born_ms, until_ms))  # what is told of later days is told of those that were kept only
    return [fate if fate.day <= last else Fate(last, fate.n, died=False) for fate in fates]


def _grown(bird: GoneBird, born_ms: int, today: int) -> Fate:
    """A bird that left later than the curve goes is seen no more from its end on."""
    day = min(today, max(0, whole_days(born_ms, noon_ms(bird.on))))
    return Fate(min(day, _GROWN_DAYS), 1, died=bird.how in _BIRDS_LOST and day <= _GROWN_DAYS)


def survival_json(fates: list[Fate]) -> dict[str, Any]:
    """{points, median_day}; no points while none died."""
    curve = survival(fates)
    points = [
        {
            "day": step.day,
            "at_risk": step.at_risk,
            "died": step.died,
            "rate": step.rate,
            "low": step.low,
            "high": step.high,
        }
        for step in curve
    ]
    return {"points": points, "median_day": median_day(curve)}


def survival_by(standing: Standing, lot: Lot, now_ms: int, birds: GoneBirds) -> dict[str, Any]:
    """{groups: [{family, family_name, setting, hatched_on, n, not_written, last_day, points,
    median_day}], words}.

    First, where chicks are gone that nobody knows the family of, the lots those tie together, as a family None. Then
    the families of the same hatch, this lot's first, then this family's other hatches, the newest first, at most
    eight. words: whether families of the hatch differ beyond chance (log-rank, Holm); None with less than two.
    """
    families: dict[str, list[Lot]] = defaultdict(list)
    for one in _hatch_of(standing, lot):
        families[one.family or ""].append(one)
    own = lot.family or ""
    hatch = {
        family: _fates(standing, families[family], now_ms, birds) for family in sorted(families, key=lambda f: f != own)
    }
    others = list(_other_hatches(standing, lot))[:MOST_HATCHES]
    rows = [(family, families[family], fates) for family, fates in hatch.items()]
    rows += [(own, lots, _fates(standing, lots, now_ms, birds)) for lots in others]
    groups = [_row(standing, family, lots, fates) for family, lots, fates in rows if fates]
    words = _verdict(standing, {family: fates for family, fates in hatch.items() if fates})
    tied = tied_to(standing, lot)
    together = _together(standing, lot, tied, now_ms, birds) if tied.among else []
    if together and words:
        words += f" {_LEFT_OUT}"
    return {"groups": [*together, *groups], "words": words}


def _together(standing: Standing, lot: Lot, tied: Tied, now_ms: int, birds: GoneBirds) -> list[dict[str, Any]]:
    born = hatched_ms(standing, lot)
    fates = (
        [] if born is None or born > now_ms else [fate for fate in fates_of(tied, born, now_ms, birds) if fate.n > 0]
    )
    return [{**_row(standing, "", list(tied.lots), fates), "family_name": tied_name(standing, tied)}] if fates else []


def tied_name(standing: Standing, tied: Tied) -> str:
    """The families of lots that are told together: "Hazel and Rowan together"."""
    names = sorted({_told(standing, lot.family or "") for lot in tied.lots})
    return f"{' and '.join(names)} together"


def _row(standing: Standing, family: str, lots: list[Lot], fates: list[Fate]) -> dict[str, Any]:
    born = min(ms for lot in lots if (ms := hatched_ms(standing, lot)) is not None)
    return {
        "family": family or None,
        "family_name": _name(standing, family),
        "setting": lots[0].setting,
        "hatched_on": local_date(instant(born), standing.keeper.zone),
        "n": sum(fate.n for fate in fates),
        "not_written": sum(count_untold(lot.moves) for lot in lots),
        "last_day": min(_GROWN_DAYS, max(fate.day for fate in fates), _seen_until(standing, lots, fates)),
        **survival_json(fates),
    }


def _seen_until(standing: Standing, lots: list[Lot], fates: list[Fate]) -> int:
    """Until which day the chicks were followed: where all that live joined the flock, until the last of them did, or
    until the last that died."""
    if any(lot.stages.get(stage, 0) > 0 for lot in lots for stage in LIVING if stage != "flock"):
        return max(fate.day for fate in fates)
    days = [
        whole_days(born, move.at_ms)
        for lot in lots
        if (born := hatched_ms(standing, lot)) is not None
        for move in lot.moves
        if move.target == "flock"
    ]
    days += [fate.day for fate in fates if fate.died and days]
    return max(days, default=max(fate.day for fate in fates))


def _fates(standing: Standing, lots: list[Lot], now_ms: int, birds: GoneBirds) -> list[Fate]:
    found = [
        fate
        for lot in lots
        for born in [hatched_ms(standing, lot)]
        if born is not None and born <= now_ms and tied_to(standing, lot).can_be(lot)
        for fate in fates_of(Tied((lot,), ()), born, now_ms, birds)
    ]
    return [fate for fate in found if fate.n > 0]


def _hatch_of(standing: Standing, lot: Lot) -> list[Lot]:
    """The lots of the same setting; a lot that came stands alone."""
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    return [lot] if setting is None else [standing.lots[name] for name in setting.lots]


def _other_hatches(standing: Standing, lot: Lot) -> Iterator[list[Lot]]:
    """The family's lots of other settings, a list for each, the newest first. Nothing where the family is not known."""
    if lot.family is None:
        return
    hatches: dict[str, list[Lot]] = defaultdict(list)
    for one in standing.lots.values():
        is_same = one.id == lot.id if one.setting is None else one.setting == lot.setting
        if one.family == lot.family and not is_same and hatched_ms(standing, one) is not None:
            hatches[one.setting or one.id].append(one)
    yield from sorted(hatches.values(), key=lambda lots: (-(hatched_ms(standing, lots[0]) or 0), lots[0].id))


def _verdict(standing: Standing, hatch: dict[str, list[Fate]]) -> str | None:
    """In words which families of the hatch lost chicks at another pace; honest where chance explains it."""
    pairs = [
        (*((one, other) if found.first_lost_more else (other, one)), found.p)
        for one, other in combinations(hatch, 2)
        if (found := log_rank(hatch[one], hatch[other])) is not None
    ]
    if len(hatch) < 2:
        return None
    told = [
        f"{_told(standing, worse)} lost more chicks, or sooner, than {_told(standing, better)}, beyond chance."
        for (worse, better, _), p in zip(pairs, holm([p for *_, p in pairs]), strict=True)
        if p < _BEYOND_CHANCE
    ]
    return " ".join(told) or "No difference between the families of this hatch that chance does not explain."


def _told(standing: Standing, family: str) -> str:
    return _name(standing, family) or "The family not known"


def _name(standing: Standing, family: str) -> str | None:
    known = standing.families.get(family)
    return None if known is None else known.name
