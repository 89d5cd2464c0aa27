"""A season's return to a breed society: by breed and variety, and by where the eggs came from. Made on request only."""

from datetime import date
from typing import Any

from broodline.book.birds import birds_of
from broodline.book.moments import instant
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Lot, Standing
from broodline.reports.pens import pens_of
from broodline.reports.season_year import season_of, season_year
from broodline.reports.untold import count_untold
from broodline.trade.calendar import local_date

_REARED = ("growing", "flock")
_YOUNG = ("hatched", "brooding")
_YEAR_DAYS = 365


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
    """Birds that stood here, in those families' pens, on a day between the first egg laid and the last set."""
    zone = standing.keeper.zone
    sets = [
        date.fromisoformat(local_date(instant(standing.settings[lot.setting or ""].set_at_ms), zone)) for lot in lots
    ]
    firsts = [_first_laid(lot, on) for lot, on in zip(lots, sets, strict=True)]
    pens = pens_of(standing)
    stays = [stay for stay in pens.stays if stay.family in families]
    males: set[str] = set()
    females: set[str] = set()
    for number in range(min(firsts), max(sets).toordinal() + 1):
        day = date.fromordinal(number).isoformat()
        for stay in stays:
            if stay.stands_on(day):
                males.update(bird for bird in stay.sires if pens.was_here(bird, day))
                females.update(bird for bird in stay.dams if pens.was_here(bird, day))
    return len(males), len(females)


def _first_laid(lot: Lot, set_on: date) -> int:
    """The first day of laying as a number, a year before setting at most: a day long ago is a slip of the pen."""
    laid = set_on if lot.laid_from is None else date.fromisoformat(lot.laid_from)
    return min(set_on.toordinal(), max(laid.toordinal(), set_on.toordinal() - _YEAR_DAYS, 1))


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
