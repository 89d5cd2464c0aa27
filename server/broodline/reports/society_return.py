"""A season's return to a breed society: by breed and variety, and by where the eggs came from. Made on request only."""

from typing import Any, cast

from broodline.book.birds import bird_id, birds_of
from broodline.book.bodies_flock import Penned
from broodline.book.moments import instant
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Lot, Standing
from broodline.reports.season_year import season_of, season_year
from broodline.reports.untold import count_untold
from broodline.trade.calendar import local_date

_REARED = ("growing", "flock")
_YOUNG = ("hatched", "brooding")


def society_return(standing: Standing, year: int) -> list[dict[str, Any]]:
    """[{species, breed, variety, origin: "own" or "bought in", males, females, lines, eggs, hatched, reared,
    not_written, rings}] of the season that starts in `year`, sorted. males, females: birds that stood in the pens of
    these families while eggs of the season were laid, in the year before setting at most; none for eggs that were
    bought in. reared: chicks that grew out of the brooder. not_written: those of whom nobody wrote whether they did.
    rings: of birds hatched in the season, in the row of their own eggs."""
    groups: dict[tuple[str, str, str, str], list[Lot]] = {}
    for lot in standing.lots.values():
        setting = standing.settings.get(lot.setting or "")
        family = standing.families.get(lot.family or "")
        if setting is not None and family is not None and season_of(standing, setting.set_at_ms) == year:
            origin = "bought in" if lot.bought_in else "own"
            groups.setdefault((family.species, family.breed, family.variety or "", origin), []).append(lot)
    return [_row(standing, year, key, groups[key]) for key in sorted(groups)]


def _row(standing: Standing, year: int, key: tuple[str, str, str, str], lots: list[Lot]) -> dict[str, Any]:
    families = {lot.family for lot in lots}
    moves = [move for lot in lots for move in lot.moves]
    hatched = sum(sum(lot.stages.get(stage, 0) for stage in CHICK_STAGES) + lot.missing for lot in lots)
    own = key[3] == "own"
    males, females = _breeders(standing, lots, families) if own else (0, 0)
    return {
        **dict(zip(("species", "breed", "variety", "origin"), key, strict=True)),
        "males": males,
        "females": females,
        "lines": len(families),
        "eggs": sum(lot.n for lot in lots),
        "hatched": hatched,
        "reared": sum(move.n for move in moves if move.source in _YOUNG and move.target in _REARED),
        "not_written": sum(count_untold(lot.moves) for lot in lots),
        "rings": _rings(standing, year, families) if own else [],
    }


def _breeders(standing: Standing, lots: list[Lot], families: set[str | None]) -> tuple[int, int]:
    """Birds in those families' pens on a day between the first egg laid and the last set."""
    zone = standing.keeper.zone
    sets = [local_date(instant(standing.settings[lot.setting or ""].set_at_ms), zone) for lot in lots]
    first, last = min([*sets, *(lot.laid_from for lot in lots if lot.laid_from)]), max(sets)
    males: set[str] = set()
    females: set[str] = set()
    for head in standing.heads.get("penned", ()):
        pen = cast(Penned, head.body)
        family = standing.root_of.get(pen.family, pen.family)
        if family in families and pen.since[:10] <= last and (pen.until is None or pen.until[:10] >= first):
            males.update(bird_id(standing, one.bird) for one in pen.sires)
            females.update(bird_id(standing, one.bird) for one in pen.dams)
    return len(males), len(females)


def _rings(standing: Standing, year: int, families: set[str | None]) -> list[str]:
    starts = standing.keeper.season_starts or 1
    return sorted(
        tag.text
        for one in birds_of(standing, None).values()
        if standing.root_of.get(one.body.family or "", one.body.family) in families
        and one.body.hatched_on is not None
        and season_year(one.body.hatched_on, starts) == year
        for tag in one.body.tags or ()
        if tag.text
    )
