"""How well the hens of each family laid in a season: eggs gathered against the hens that stood in its pens."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any, cast

from broodline.book.bodies_eggs import Gathered
from broodline.book.standing import Standing
from broodline.reports.pens import Pens, Stay, pens_of, root
from broodline.reports.season_year import season_year
from broodline.trade.laying import hen_day_pct, hen_housed_pct

_STANDS_FOR_DAYS = 3  # our judgement: eggs are gathered daily, over a busy weekend on Monday


def laying_by_family(standing: Standing, year: int) -> dict[str, dict[str, Any]]:
    """Family -> {eggs, from, to, days, hen_days, hen_day_pct, hen_housed_pct} over the days its eggs were gathered.

    A gathering stands for its own day and those since the one before, three at most: where nobody gathered for longer,
    nobody knows what was laid. Only families whose pen is known on each of those days: one on which nobody wrote who
    stood there would make the hens look better than they are. A dead or sold hen counts until she left.
    """
    starts = standing.keeper.season_starts or 1
    by_family: dict[str, list[Gathered]] = {}
    for head in standing.heads.get("gathered", ()):
        body = cast(Gathered, head.body)
        if season_year(body.on, starts) == year:
            by_family.setdefault(root(standing, body.family), []).append(body)
    pens = pens_of(standing)
    found = {}
    for family, bodies in sorted(by_family.items()):
        days = _days(sorted({body.on[:10] for body in bodies}))
        hens = [len(_hens_on(pens, family, day)) for day in days]
        if not all(hens):
            continue
        eggs = sum(body.n for body in bodies)
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


def _days(gathered: Sequence[str]) -> list[str]:
    """The days that gatherings stand for, in order. gathered: days, in order."""
    found: list[str] = []
    for on in gathered:
        day = date.fromisoformat(on)
        since = date.fromisoformat(found[-1]) if found else day - timedelta(days=1)
        first = since + timedelta(days=1) if (day - since).days <= _STANDS_FOR_DAYS else day
        found += [(first + timedelta(days=past)).isoformat() for past in range((day - first).days + 1)]
    return found


def _hens_on(pens: Pens, family: str, day: str) -> set[str]:
    standing_there: Sequence[Stay] = [stay for stay in pens.stays if stay.family == family and stay.stands_on(day)]
    return {dam for stay in standing_there for dam in stay.dams if pens.was_here(dam, day)}
