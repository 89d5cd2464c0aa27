"""What stands out in the losses of a setting, with evidence, likely causes and their sources. Never a diagnosis.

A pairing known to lose eggs is named before any fault of the incubator.
"""

from collections import Counter
from collections.abc import Sequence
from math import inf, lgamma, log
from typing import Any

from broodline.book.own_words import own_words
from broodline.book.stages import MISSING, STAGES
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.chance import in_words
from broodline.reports.mating import carried_by_parents
from broodline.reports.pens import Pens, pens_of
from broodline.reports.rates import Outcome
from broodline.trade.breakout import (
    SIGNIFICANCE,
    Finding,
    LethalPairing,
    findings,
    lethal_pairings,
    short_by,
)
from broodline.trade.counted import many
from broodline.trade.sources import origin

_SURE = 0.995


def pattern_json(
    standing: Standing, setting: Setting, lots: Sequence[Lot], outcomes: Sequence[Outcome], whole: Outcome
) -> list[dict[str, Any]]:
    """[{finding, evidence, likely, source, causes}] for a setting whose counts fit; empty where nothing stands out.

    by_lot says where it was seen: a loss in one family points elsewhere than one in all. outcomes: of the lots.
    """
    if not whole.sound:
        return []
    pens = pens_of(standing)
    pairings = [
        _pairing_json(standing, lot, outcome, one, chance)
        for lot, outcome in zip(lots, outcomes, strict=True)
        if outcome.sound and sum(outcome.deaths.values()) > 0
        for one, chance in _pairings(standing, lot, pens)
    ]
    found = findings(setting.stages, examined=whole.fertility.n, fertile=whole.fertility.k)
    return [*pairings, *(_finding_json(standing, one, setting, lots) for one in found)]


def _pairings(standing: Standing, lot: Lot, pens: Pens) -> list[tuple[LethalPairing, float]]:
    """Pairings known to lose eggs, each with the chance that an egg of the lot came of one."""
    found: dict[str, tuple[LethalPairing, float]] = {}
    for way in carried_by_parents(standing, lot, pens):
        for one in lethal_pairings(way.sires, way.dams, standing.keeper.never_pair or ()):
            found[one.trait] = (one, found.get(one.trait, (one, 0.0))[1] + way.chance)
    return list(found.values())


def closing_json(eggs: int, stages: dict[str, int]) -> dict[str, Any]:
    """Whether the stages add up to the eggs set: {set, told, short_by, words}. told: those whose fate is known.

    short_by above 0: so many are unaccounted for; below 0: so many more are told than were set.
    """
    told = sum(max(0, n) for stage, n in stages.items() if stage in STAGES and stage != MISSING)
    short = round(short_by(eggs, [told]))
    words = "The egg is accounted for." if eggs == 1 else f"All {eggs} eggs are accounted for."
    if short > 0:
        words = f"{short} of {many(eggs, 'egg')} {'is' if short == 1 else 'are'} not accounted for."
    elif short < 0:
        words = f"{-short} more than the {many(eggs, 'egg')} set {'is' if short == -1 else 'are'} told of."
    return {"set": eggs, "told": told, "short_by": short, "words": words}


def _finding_json(standing: Standing, one: Finding, setting: Setting, lots: Sequence[Lot]) -> dict[str, Any]:
    unopened = setting.stages.get("clear", 0) if "clear" in one.classes else 0
    lost = [(lot, sum(max(0, lot.stages.get(stage, 0)) for stage in one.classes)) for lot in lots]
    said = [
        f"{one.k} of {one.n} {one.of} eggs ({100 * one.k / one.n:.0f} %).",
        f"Published: {100 * one.bound.value:.1f} % {one.bound.unit}; at that rate so many would come by chance in "
        f"{in_words(one.p)} such {own_words(standing.keeper).settings}.",
        _where_words(standing, lost),
        f"{unopened} of them were not opened: clear is not infertile." if unopened > 0 else "",
    ]
    return {
        "finding": one.words,
        "evidence": " ".join(filter(None, said)),
        "likely": [f"{cause.value} ({origin(cause)})" for cause in one.likely],
        "causes": [{"words": cause.value, "source": origin(cause)} for cause in one.likely],
        "source": origin(one.bound),
        "code": one.code,
        "p": one.p,
        "by_lot": [{"lot": lot.id, "family": lot.family, "k": k} for lot, k in lost if k],
    }


def _where_words(standing: Standing, lost: Sequence[tuple[Lot, int]]) -> str:
    """Whose eggs they were: what is all in one family's points elsewhere than what is in every family's.

    All in one family is said so only where the eggs, lost at random, would hardly all have been of that family.
    """
    eggs: Counter[str] = Counter()
    gone: Counter[str] = Counter()
    for lot, k in lost:
        eggs[_name(standing, lot)] += lot.n
        gone[_name(standing, lot)] += k
    families = {name: k for name, k in gone.items() if k}
    if len(eggs) < 2 or not families:
        return ""
    told = ", ".join(f"{name} {k}" for name, k in families.items())
    own = own_words(standing.keeper)
    if len(families) == len(eggs):
        return f"In every {own.family} ({told}): look first at what they shared."
    name, k = next(iter(families.items()))
    if len(families) == 1 and _log_ways(eggs[name], k) < log(SIGNIFICANCE) + _log_ways(eggs.total(), k):
        return f"All in one {own.family}, {told}: look first at that pen and at how its eggs were kept."
    return f"By {own.family}: {told}."


def _log_ways(n: int, k: int) -> float:
    """The logarithm of the ways to choose k of n, a number too large itself where eggs go by the thousand."""
    return lgamma(n + 1) - lgamma(k + 1) - lgamma(n - k + 1) if k <= n else -inf


def _pairing_json(standing: Standing, lot: Lot, outcome: Outcome, one: LethalPairing, chance: float) -> dict[str, Any]:
    died = sum(outcome.deaths.values())
    name = _name(standing, lot)
    seen = f"{died} of {outcome.fertility.k} fertile eggs of {name} died."
    if one.share is None:
        expected, source = f"The keeper's own list says never to pair them: {one.why}", "the keeper's list"
    else:
        expected = f"About {100 * one.share.value:.0f} % {one.share.unit} die."
        source = origin(one.share)
    behind = f"Cock and hen behind {name} carry {one.trait}."
    if chance < _SURE:
        behind = f"By the pens, cock and hen behind {100 * chance:.0f} % of {name}'s eggs carry {one.trait}."
    return {
        "finding": "a pairing that is known to lose eggs",
        "evidence": f"{behind} {expected} {seen}",
        "likely": [f"{one.trait} on both sides ({source})"],
        "causes": [{"words": f"{one.trait} on both sides", "source": source}],
        "source": source,
        "code": "lethal_pairing",
        "chance": chance,
        "p": None,
        "by_lot": [{"lot": lot.id, "family": lot.family, "k": died}],
    }


def _name(standing: Standing, lot: Lot) -> str:
    family = standing.families.get(lot.family or "")
    return family.name if family is not None else f"this {own_words(standing.keeper).family}"
