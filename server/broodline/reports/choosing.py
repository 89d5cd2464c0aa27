"""Which young birds to keep for breeding and which may go (shape: choose).

Birds that are here, of one breed, hatched in the last year and a half, and never stood in a pen. Kept so that each
cock in the pens has a son and the daughters come from as many hens as can be, the better bird of equals first; one
with a fault only where none without would do. Weights count within hatch and sex alone.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import fmean
from typing import Any

from broodline.book.problems import in_order
from broodline.book.standing import Standing
from broodline.reports.breeders import other_breeds
from broodline.reports.contemporaries import Beside, beside_contemporaries
from broodline.reports.flock_pedigree import Flock, FlockBird, flock_of
from broodline.reports.hatch_history import hatch_histories
from broodline.reports.pens import pens_of
from broodline.reports.scores import Score, scores_of
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.trade.keeping import choose, covered
from broodline.trade.kin import kin_of
from broodline.trade.selection import response
from broodline.trade.sources import origin

MOST = 1000
YOUNG_DAYS = 550
_A_FAULT = 1000.0
_NOBODY = 0.05


@dataclass(frozen=True, slots=True)
class Keeping:
    """cocks, hens: how many young ones to keep; None: as many as stand in the pens. by: what makes a bird the better.

    by: "score", "weight", or None: the score where at least half are scored. breed: None is that with most young birds.
    """

    cocks: int | None = None
    hens: int | None = None
    by: str | None = None
    breed: str | None = None


@dataclass(frozen=True, slots=True)
class _Told:
    """What is known of the young birds."""

    beside: Mapping[str, Beside]
    scores: Mapping[str, Score]
    by: str

    def merit(self, bird: FlockBird) -> float:
        """The higher the better; a bird of which nothing is known stands at the mean of its hatch."""
        score, weight = self.scores.get(bird.id), self.beside.get(bird.id)
        z = weight.z if weight is not None and weight.z is not None else 0.0
        own = z if self.by == "weight" else 0.0 if score is None else score.total + z / 100
        return own - (_A_FAULT if score is not None and score.faults else 0.0)


def keeping_of(asked: Mapping[str, str | None]) -> Keeping | None:
    """Wishes from the words of a request (cocks, hens, by, breed); None where one cannot be read."""
    found: list[int | None] = []
    for name in ("cocks", "hens"):
        text = asked.get(name) or None
        if text is not None and not (text.isascii() and text.isdigit() and int(text[:9]) <= MOST):
            return None
        found.append(None if text is None else int(text))
    by = asked.get("by") or None
    return Keeping(found[0], found[1], by, asked.get("breed") or None) if by in (None, "score", "weight") else None


def choosing_report(standing: Standing, wishes: Keeping, now: datetime) -> dict[str, Any]:
    """{breed, breeds, by, keep, birds, parents, response, words, problems}. now: aware. Birds to keep come first."""
    flock = flock_of(standing, local_date(now, standing.keeper.zone))
    bred = {bird for stay in pens_of(standing).stays for bird in (*stay.sires, *stay.dams)}
    oldest = (now - timedelta(days=YOUNG_DAYS)).date().isoformat()
    young = [
        one for one in flock.birds.values() if one.where == "here" and one.id not in bred and _is_young(one, oldest)
    ]
    kinds = [one.kind for one in young]
    breeds = sorted(set(kinds), key=lambda kind: (-kinds.count(kind), kind))
    breed = wishes.breed or next(iter(breeds), None)
    young = sorted((one for one in young if one.kind == breed), key=lambda one: (one.label, one.id))
    breeders = _breeders(standing, flock, breed, now)
    cocks, hens = (sum(bird.sex == sex for bird in breeders) for sex in ("male", "female"))
    wanted = {
        "male": cocks if wishes.cocks is None else wishes.cocks,
        "female": hens if wishes.hens is None else wishes.hens,
    }
    scores, problems = scores_of(standing)
    by = wishes.by or ("score" if 2 * sum(one.id in scores for one in young) >= max(1, len(young)) else "weight")
    told = _Told(beside_contemporaries(standing, _species(standing, young)), scores, by)
    kept: dict[str, str] = {}
    for sex, side in (("male", 0), ("female", 1)):
        own = [one for one in young if one.sex == sex]
        chances = [_parents(one, side) for one in own]
        order = choose(chances, [told.merit(one) for one in own], wanted[sex])
        for number, at in enumerate(order):
            before = covered([chances[place] for place in order[:number]])
            kept[own[at].id] = _why(flock, chances[at], before, told.by)
    histories = hatch_histories(standing, round(now.timestamp() * 1000))
    kin = kin_of(flock.pedigree)
    names = [one.id for one in (*young, *breeders)]
    means = dict(zip(names, kin.mean_kinships(names), strict=True))
    chosen = [one for one in young if one.id in kept]
    parents = _parents_json(breeders, chosen, young)
    foretold = _response(chosen, young, told)
    return {
        "breed": breed,
        "breeds": breeds,
        "by": by,
        "keep": {"cocks": wanted["male"], "hens": wanted["female"]},
        "birds": [
            _bird_json(one, told, kept.get(one.id), means[one.id], histories.get(one.id, {}).get("own"))
            for one in sorted(young, key=lambda one: (one.id not in kept, one.sex, -told.merit(one), one.label))
        ],
        "parents": parents,
        "response": foretold,
        "words": [*_words(young, chosen, wanted, parents, foretold), *other_breeds(kinds, breed, "young bird")],
        "problems": [one.as_json() for one in in_order([*flock.problems, *problems])],
    }


def _is_young(bird: FlockBird, oldest: str) -> bool:
    """Hatched since a day; where nobody wrote when, one that is known to have hatched from this book's pens."""
    if bird.hatched_on is not None:
        return bird.hatched_on >= oldest
    return any(pair.sire or pair.dam for pair in bird.parents.pairs)


def _breeders(standing: Standing, flock: Flock, breed: str | None, now: datetime) -> list[FlockBird]:
    """The birds that stand in a pen today."""
    today = local_date(now, standing.keeper.zone)
    inside = {bird for stay in pens_of(standing).stays if stay.stands_on(today) for bird in (*stay.sires, *stay.dams)}
    found = [one for one in flock.birds.values() if one.id in inside and one.kind == breed and one.where != "gone"]
    return sorted(found, key=lambda one: (one.label, one.id))


def _species(standing: Standing, young: Sequence[FlockBird]) -> str:
    families = (standing.families.get(one.family or "") for one in young)
    return next((family.species for family in families if family is not None), "")


def _parents(bird: FlockBird, side: int) -> dict[str, float]:
    found: dict[str, float] = {}
    for pair in bird.parents.pairs:
        parent = (pair.sire, pair.dam)[side]
        if parent is not None:
            found[parent] = found.get(parent, 0.0) + pair.chance
    return found


def _why(flock: Flock, chances: Mapping[str, float], before: Mapping[str, float], by: str) -> str:
    """Why a bird is kept: whom it carries on, else that it is the best of those left."""
    fresh = [parent for parent, chance in chances.items() if chance > 0.5 and before.get(parent, 0.0) < 0.5]
    if fresh:
        return f"carries on {flock.birds[fresh[0]].label if fresh[0] in flock.birds else 'its parent'}"
    if chances and sum(before.get(parent, 0.0) for parent in chances) < 0.5 * len(chances):
        return "most likely of a hen that has no daughter kept yet"
    return f"the best by {by} of those left"


def _bird_json(
    bird: FlockBird, told: _Told, why: str | None, mean_kinship: float, hatch: Mapping[str, float] | None
) -> dict[str, Any]:
    weight, score = told.beside.get(bird.id), told.scores.get(bird.id)
    return {
        "bird": bird.id,
        "label": bird.label,
        "sex": bird.sex,
        "family": bird.family,
        "hatched_on": bird.hatched_on,
        "keep": why is not None,
        "why": why,
        "weight": None
        if weight is None
        else {
            "on": weight.on,
            "age_days": weight.age_days,
            "mass_g": weight.mass_g,
            "n": weight.n,
            "mean_g": weight.mean_g,
            "above_g": weight.above_g,
            "z": weight.z,
            "passed_on_g": weight.passed_on_g,
        },
        "score": None if score is None else {"on": score.on, "total": score.total, "traits": dict(score.traits)},
        "faults": [] if score is None else sorted(score.faults),
        "carries": list(bird.carries),
        "mean_kinship": mean_kinship,
        "hatch": hatch,
        "sires": _parents(bird, 0),
        "dams": _parents(bird, 1),
    }


def _parents_json(
    breeders: Sequence[FlockBird], chosen: Sequence[FlockBird], young: Sequence[FlockBird]
) -> list[dict[str, Any]]:
    """Each bird in the pens: the chance that a son (a daughter, of a hen) is kept, and how many there are to choose."""
    found = []
    for bird in breeders:
        side, sex = (0, "male") if bird.sex == "male" else (1, "female")
        chances = covered([_parents(one, side) for one in chosen if one.sex == sex])
        there = sum(_parents(one, side).get(bird.id, 0.0) for one in young if one.sex == sex)
        row = {"bird": bird.id, "label": bird.label, "sex": bird.sex, "young": there}
        found.append({**row, "chance": chances.get(bird.id, 0.0)})
    return found


def _response(chosen: Sequence[FlockBird], young: Sequence[FlockBird], told: _Told) -> dict[str, Any] | None:
    """What the choice brings in weight; None where no heritability was read or a sex was not weighed."""
    ahead: dict[str, float] = {}
    source = None
    for sex in ("male", "female"):
        weighed = {one.id: found for one in young if one.sex == sex and (found := told.beside.get(one.id)) is not None}
        sure = {name: found for name, found in weighed.items() if found.above_g is not None and found.heritability}
        own = [found.above_g or 0.0 for name, found in sure.items() if name in {one.id for one in chosen}]
        if not own:
            return None
        ahead[sex] = fmean(own) - fmean(found.above_g or 0.0 for found in sure.values())
        source = next(iter(sure.values()))
    if source is None or source.heritability is None:
        return None
    part = source.heritability
    return {
        "ahead_g": ahead,
        "heritability": part.value,
        "age_days": source.age_days,
        # Intensities in grams: their product with a standard deviation of one gram is the lead itself.
        "gain_g": response(
            heritability=part.value, sd=1.0, intensity_males=ahead["male"], intensity_females=ahead["female"]
        ),
        "source": origin(part),
    }


def _words(
    young: Sequence[FlockBird],
    chosen: Sequence[FlockBird],
    wanted: Mapping[str, int],
    parents: Sequence[Mapping[str, Any]],
    foretold: Mapping[str, Any] | None,
) -> Iterator[str]:
    cocks, hens = (sum(one.sex == sex for one in chosen) for sex in ("male", "female"))
    if not young:
        yield "No young bird is written down yet: give each a ring, its sex and its batch."
        return
    yield (
        f"Keep {many(cocks, 'cockerel')} and {many(hens, 'pullet')} of {many(len(young), 'young bird')}; "
        "the others may be sold or given."
        + "".join(
            f" There are only {there} {kind} of the {wish} wished for."
            for there, wish, kind in ((cocks, wanted["male"], "cockerels"), (hens, wanted["female"], "pullets"))
            if there < wish
        )
    )
    unsexed = sum(one.sex == "unknown" for one in young)
    if unsexed:
        yield f"{unsexed} of them are not sexed yet and cannot be chosen."
    for sex, kind in (("male", "son"), ("female", "daughter")):
        lone = [row["label"] for row in parents if row["sex"] == sex and row["young"] < _NOBODY]
        if lone:
            names = ", ".join(lone)
            again = "set eggs of that pen again"
            if sex == "male":
                again += f" before {'he moves' if len(lone) == 1 else 'they move'} to other hens"
            yield f"No {kind} to keep of {names}: {again}, or the line ends with these birds."
    if foretold is not None:
        ahead = foretold["ahead_g"]
        yield (
            f"The cockerels kept are {ahead['male']:+.0f} g, the pullets {ahead['female']:+.0f} g against those to "
            f"choose from; of that about {foretold['gain_g']:+.0f} g is to be expected in their chicks "
            f"(heritability {foretold['heritability']:.2f}; {foretold['source']})."
        )
    else:
        yield (
            "No gain in weight is foretold: not enough birds of both sexes are weighed at an age that was read about."
        )
