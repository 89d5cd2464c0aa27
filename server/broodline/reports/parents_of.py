"""The candidate parents of a lot's eggs, with their chances: from the pens, day by day of laying.

For each day that eggs were laid, each hen in the pen is a candidate dam by her share, and each cock she stood with that
day, or within her species' overlap before it, a candidate sire by his. Hens named for the lot outrank the pen. How a
new cock's semen competes with an old one's is not known well enough to weigh: inside the overlap they count alike.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal, cast

from broodline.book.bodies_eggs import Set, SetLot
from broodline.book.moments import instant
from broodline.book.problems import Problem
from broodline.book.standing import Lot, Standing
from broodline.reports.pens import Pens, Stay, same_house, shares_of
from broodline.trade.calendar import local_date
from broodline.trade.pedigree import Pair
from broodline.trade.semen import overlap

MOST_DAYS = 120


@dataclass(frozen=True, slots=True)
class Parents:
    """pairs: candidates with chances that sum to one, None for one not known. one_hen: all eggs are of one hen.

    notes: what is not known, in words.
    """

    pairs: tuple[Pair, ...]
    one_hen: bool
    notes: tuple[str, ...]

    def chances(self, side: Literal["sire", "dam"]) -> dict[str | None, float]:
        """Candidate -> chance, of one side, the likelier first."""
        found: dict[str | None, float] = {}
        for pair in self.pairs:
            name = pair.sire if side == "sire" else pair.dam
            found[name] = found.get(name, 0.0) + pair.chance
        return dict(sorted(found.items(), key=lambda one: (-one[1], one[0] or "")))


def parents_of_lot(standing: Standing, lot: Lot, pens: Pens, problems: list[Problem]) -> Parents:
    """Who may have been the parents of a lot's eggs. problems: shares that do not sum to one are added."""
    written = _written(standing, lot)
    one_hen = written is not None and bool(written[1].one_hen)
    if lot.setting is None or lot.bought_in or lot.family is None:
        return Parents((Pair(None, None, 1.0),), one_hen, ("The eggs or chicks came from elsewhere; parents unknown.",))
    named: dict[str | None, float] = {}
    if written is not None and written[1].dams:
        named.update(shares_of(standing, written[1].dams, written[0], problems))
    species = standing.settings[lot.setting].species
    days = _laying_days(standing, lot)
    chances: dict[tuple[str | None, str | None], float] = {}
    for day in days:
        for pair in laid_on(lot.family, pens, day, species, named):
            chances[pair[:2]] = chances.get(pair[:2], 0.0) + pair.chance / len(days)
    pairs = tuple(Pair(sire, dam, chance) for (sire, dam), chance in sorted(chances.items(), key=_order))
    return Parents(pairs, one_hen, tuple(_notes(pairs)))


def laid_on(
    family: str, pens: Pens, day: str, species: str, named: Mapping[str | None, float] | None = None
) -> Iterator[Pair]:
    """The candidate parents of a family's egg of one day. species: its code. named: hens by share, if told."""
    for dam, share in _dams(family, pens, day, named or {}).items():
        for sire, chance in _sires(family, pens, day, dam, species).items():
            yield Pair(sire, dam, share * chance)


def _written(standing: Standing, lot: Lot) -> tuple[str, SetLot] | None:
    found = (
        (head.id, one)
        for head in standing.heads.get("set", ())
        if head.root == lot.setting
        for one in cast(Set, head.body).lots
        if one.lot == lot.id
    )
    return next(found, None)


def _laying_days(standing: Standing, lot: Lot) -> list[str]:
    """All days of laying; where none was written, the day of setting alone."""
    set_at = standing.settings[lot.setting or ""].set_at_ms
    set_on = local_date(instant(set_at), standing.keeper.zone)
    first, last = sorted((lot.laid_from or lot.laid_to or set_on, lot.laid_to or lot.laid_from or set_on))
    begin, end = date.fromisoformat(first), date.fromisoformat(last)
    days = min((end - begin).days, MOST_DAYS)
    return [(end - timedelta(days=past)).isoformat() for past in range(days, -1, -1)]


def _dams(family: str, pens: Pens, day: str, named: Mapping[str | None, float]) -> dict[str | None, float]:
    if named:
        return dict(named)
    weights: dict[str | None, float] = {}
    for stay in pens.stays:
        if stay.family == family and stay.stands_on(day):
            for dam, share in stay.dams.items():
                if pens.was_here(dam, day):
                    weights[dam] = weights.get(dam, 0.0) + share * len(stay.dams)
    return _scaled(weights)


def _sires(family: str, pens: Pens, day: str, dam: str | None, species: str) -> dict[str | None, float]:
    """The cocks a hen stood with that day or not too long before, wherever it was; and those that got in."""
    with_her = [stay for stay in pens.stays if (dam in stay.dams if dam else stay.family == family)]
    weights: dict[str | None, float] = {}
    for stay in with_her:
        for sire in _near(stay, day, species, pens):
            weights[sire] = max(weights.get(sire, 0.0), stay.sires[sire])
    weights = _scaled(weights)
    homes = [stay for stay in with_her if stay.stands_on(day)]
    for visit in pens.stays:
        if not visit.dams and visit not in with_her and _met(visit, homes, family):
            for sire in _near(visit, day, species, pens):
                weights = _with_visitor(weights, sire, visit.sires[sire] if visit.said else None)
    return _scaled(weights)


def _met(visit: Stay, homes: Sequence[Stay], family: str) -> bool:
    return any(same_house(visit, home) for home in homes) if homes else visit.family == family


def _near(stay: Stay, day: str, species: str, pens: Pens) -> Iterator[str]:
    """The cocks of a pen whose semen a hen of it may hold that day: there then, or not too long before."""
    held = overlap(species)
    for sire in stay.sires:
        last = pens.last_there(stay, sire, day)
        if last is None:
            continue
        if held is None or (date.fromisoformat(day) - date.fromisoformat(last)).days <= held.value:
            yield sire


def _with_visitor(weights: dict[str | None, float], sire: str, share: float | None) -> dict[str | None, float]:
    """A cock that got in: his share where one was written, else as likely as any other."""
    if share is None:
        return {**weights, sire: max(weights.get(sire, 0.0), 1 / len(weights))}
    others = {other: weight * (1 - share) for other, weight in _scaled(weights).items()}
    return {**others, sire: others.get(sire, 0.0) + share}


def _scaled(weights: Mapping[str | None, float]) -> dict[str | None, float]:
    """Summing to one; nobody known where nobody weighs."""
    total = sum(weights.values())
    return {bird: weight / total for bird, weight in weights.items()} if total else {None: 1.0}


def _order(one: tuple[tuple[str | None, str | None], float]) -> tuple[str, str]:
    return one[0][0] or "", one[0][1] or ""


def _notes(pairs: Sequence[Pair]) -> Iterator[str]:
    for side, words in ((0, "cock"), (1, "hen")):
        unknown = sum(pair.chance for pair in pairs if pair[side] is None)
        if unknown > 1e-9:
            yield f"No {words} is known for {100 * unknown:.0f} % of it; an unrelated one is taken."
