"""How well the hens of each family laid in a season: eggs gathered against the hens that stood in its pens."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise
from typing import Any, cast

from broodline.book.bodies_eggs import Gathered
from broodline.book.standing import Standing
from broodline.reports.pens import Pens, Stay, pens_of, root
from broodline.reports.season_year import season_year
from broodline.trade.laying import hen_day_pct, hen_housed_pct

_STANDS_FOR_DAYS = 3  # our judgement: eggs are gathered daily, over a busy weekend on Monday


def laying_by_family(standing: Standing, year: int) -> dict[str, dict[str, Any]]:
    """Family -> {eggs, from, to, days, hen_days, hen_day_pct, hen_housed_pct} over the days its eggs were gathered.

    A gathering stands for its own day and those since the one before, three at most. Where nobody gathered for longer,
    or ever before, nobody knows over which days its eggs were laid: they count for nothing. Only families whose pen is
    known on each of those days: one on which nobody wrote who stood there would make the hens look better than they
    are. A dead or sold hen counts until she left.
    """
    starts = standing.keeper.season_starts or 1
    by_family: dict[str, dict[str, int]] = {}
    for head in standing.heads.get("gathered", ()):
        body = cast(Gathered, head.body)
        eggs_on = by_family.setdefault(root(standing, body.family), {})
        eggs_on[body.on[:10]] = eggs_on.get(body.on[:10], 0) + body.n
    pens = pens_of(standing)
    found = {}
    for family, eggs_on in sorted(by_family.items()):
        known = {on: days for on, days in _days(sorted(eggs_on)).items() if season_year(on, starts) == year}
        days = [day for stood_for in known.values() for day in stood_for]
        hens = [len(_hens_on(pens, family, day)) for day in days]
        if not days or not all(hens):
            continue
        eggs = sum(eggs_on[on] for on in known)
        found[family] = {
            "eggs": eggs,
            "from": days[0],
            "to": days[-1],
            "days": len(days),
            "hen_days": sum(hens),
            "hen_day_pct": hen_day_pct(eggs, sum(hens)),
            "hen_housed_pct": hen_housed_pct(eggs, hens[0], days=len(days)),
        }
    return found


def _days(gathered: Sequence[str]) -> dict[str, list[str]]:
    """Gathering -> the days it stands for, in order, of those of which that is known. gathered: days, in order."""
    found: dict[str, list[str]] = {}
    for before, on in pairwise(gathered):
        since = date.fromisoformat(before)
        past = (date.fromisoformat(on) - since).days
        if past <= _STANDS_FOR_DAYS:
            found[on] = [(since + timedelta(days=day)).isoformat() for day in range(1, past + 1)]
    return found


def _hens_on(pens: Pens, family: str, day: str) -> set[str]:
    standing_there: Sequence[Stay] = [stay for stay in pens.stays if stay.family == family and stay.stands_on(day)]
    return {dam for stay in standing_there for dam in stay.dams if pens.was_here(dam, day)}
