"""The birds of the book with their candidate parents: the one way from a standing to a pedigree.

Two ids of one bird are joined. A bird's own sires and dams outrank those of the lot it hatched from; what neither
tells is a fresh founder. What cannot be is a Problem.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from broodline.book.birds import Where, birds_of
from broodline.book.bodies_flock import Bird
from broodline.book.flock_checks import check_bands
from broodline.book.problems import Problem, in_order
from broodline.book.standing import Standing
from broodline.reports.parents_of import Parents, parents_of_lot
from broodline.reports.pens import Pens, pens_of, root, shares_of
from broodline.trade.pedigree import Code, Pair, Pedigree, Recorded, independent, pedigree_of


@dataclass(frozen=True, slots=True)
class FlockBird:
    """A bird of the book. label: what a keeper knows it by. kind: its breed.

    where: here, lent to someone, or gone (dead or sold).
    """

    id: str
    label: str
    sex: Literal["male", "female", "unknown"]
    family: str | None
    hatched_on: str | None
    where: Where
    kind: str
    carries: tuple[str, ...]
    parents: Parents


@dataclass(frozen=True, slots=True)
class Flock:
    """pedigree: of all birds named. birds: those with an entry of their own, by id. founders: those the keeper calls
    so."""

    pedigree: Pedigree
    birds: Mapping[str, FlockBird]
    problems: tuple[Problem, ...]
    founders: frozenset[str]

    def tells_of(self, bird: str) -> bool:
        """Whether its inbreeding is known: from forebears that are written down, or because the line begins with it."""
        return bird in self.founders or self.pedigree.completeness[bird] > 0


_WORDS: Mapping[Code, tuple[str, str]] = {
    "sire_is_hen": ("{bird}: {parent} is named as sire, but is a hen.", "Correct the sex, or the sire."),
    "dam_is_cock": ("{bird}: {parent} is named as dam, but is a cock.", "Correct the sex, or the dam."),
    "parent_younger": (
        "{bird}: {parent} is named as a parent, but did not hatch before it.",
        "Correct the day of hatching of one of the two, or the parent.",
    ),
    "chances_over_one": ("{bird}: the chances of its parents sum to more than 100 %.", "Correct the shares."),
    "own_ancestor": (
        "{bird} would be its own forebear; its parents in that circle are taken as unknown.",
        "Correct the parents of the birds in the circle.",
    ),
}


def flock_of(standing: Standing, today: str) -> Flock:
    """All birds on a day. today: a local day; later leavings and comings do not count."""
    problems: list[Problem] = []
    pens = pens_of(standing)
    problems.extend(pens.problems)
    lots: dict[str, Parents] = {}
    birds: dict[str, FlockBird] = {}
    clutches: dict[str, str | None] = {}
    founders = set()
    for bird, one in birds_of(standing, today).items():
        body = one.body
        if body.founder:
            founders.add(bird)
        parents, clutches[bird] = _parents(standing, body, one.entry, pens, lots, problems)
        birds[bird] = FlockBird(
            id=bird,
            label=one.label,
            sex=body.sex,
            family=body.family and root(standing, body.family),
            hatched_on=body.hatched_on,
            where=one.where,
            kind=_kind(standing, body),
            carries=tuple(body.carries or ()),
            parents=parents,
        )
    pedigree = pedigree_of(
        Recorded(one.id, one.sex, one.hatched_on, one.parents.pairs, clutches[one.id]) for one in birds.values()
    )
    for found in pedigree.findings:
        message, remedy = _WORDS[found.code]
        parent = birds[found.parent].label if found.parent in birds else "an unknown bird"
        problems.append(
            Problem(found.code, found.bird, message.format(bird=birds[found.bird].label, parent=parent), remedy)
        )
    problems.extend(check_bands(standing))
    return Flock(pedigree, birds, in_order(problems), frozenset(founders))


def _parents(
    standing: Standing, body: Bird, entry: str, pens: Pens, lots: dict[str, Parents], problems: list[Problem]
) -> tuple[Parents, str | None]:
    """Candidates of a bird, and its clutch where all eggs of its lot are of one hen."""
    shares = [(one.lot, one.share) for one in body.lots or () if one.lot in standing.lots]
    for lot, _ in shares:
        if lot not in lots:
            lots[lot] = parents_of_lot(standing, standing.lots[lot], pens, problems)
    found = _of_lots(shares, lots)
    clutch = shares[0][0] if len(shares) == 1 and lots[shares[0][0]].one_hen else None
    sires = shares_of(standing, body.sires or (), entry, problems, partly=True)
    dams = shares_of(standing, body.dams or (), entry, problems, partly=True)
    if sires or dams:
        found = Parents(_named(found.pairs, sires, dams), False, ())
        clutch = None if dams else clutch
    return found, clutch


def _of_lots(shares: Sequence[tuple[str, float | None]], lots: Mapping[str, Parents]) -> Parents:
    if not shares:
        return Parents((Pair(None, None, 1.0),), False, ("Nothing is known of its parents; unrelated ones are taken.",))
    weights = [1 / len(shares) if share is None else share for _, share in shares]
    pairs = tuple(
        Pair(pair.sire, pair.dam, pair.chance * weight / sum(weights))
        for (lot, _), weight in zip(shares, weights, strict=True)
        for pair in lots[lot].pairs
    )
    notes = tuple(dict.fromkeys(note for lot, _ in shares for note in lots[lot].notes))
    return Parents(pairs, False, notes)


def _named(pairs: Sequence[Pair], sires: Mapping[str, float], dams: Mapping[str, float]) -> tuple[Pair, ...]:
    """Parents named for the bird itself, not known for what their shares leave; the side that is not named comes from
    the lot, given the one that is."""
    if sires and dams:
        return independent(sires, dams)
    side, named = (0, sires) if sires else (1, dams)
    found = []
    for bird, _, share in independent(named, {}):
        fitting = [pair for pair in pairs if pair[side] == bird] or list(pairs)
        total = sum(pair.chance for pair in fitting)
        for pair in fitting:
            chance = share * pair.chance / total
            found.append(Pair(bird, pair.dam, chance) if side == 0 else Pair(pair.sire, bird, chance))
    return tuple(found)


def _kind(standing: Standing, body: Bird) -> str:
    """What may be bred together: breed of the bird, else of its family, else its species."""
    family = standing.families.get(root(standing, body.family)) if body.family else None
    breed = body.breed or (family.breed if family else None)
    species = body.species or (family.species if family else None)
    return breed or species or "unknown breed"
