"""What stands out in the losses of a setting, with evidence, likely causes and their sources. Never a diagnosis.

A pairing known to lose eggs is named before any fault of the incubator.
"""

from collections.abc import Sequence
from typing import Any

from broodline.book.stages import MISSING, STAGES
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.mating import carried_by_parents
from broodline.reports.rates import Outcome
from broodline.trade.breakout import (
    CLEAR_NOTE,
    NO_DIAGNOSIS_NOTE,
    Finding,
    LethalPairing,
    findings,
    lethal_pairings,
    short_by,
)
from broodline.trade.sources import STATUSES, Cell, source_of


def pattern_json(
    standing: Standing, setting: Setting, lots: Sequence[Lot], outcomes: Sequence[Outcome], whole: Outcome
) -> list[dict[str, Any]]:
    """[{finding, evidence, likely, source, causes}] for a setting whose counts fit; empty where nothing stands out.

    by_lot says where it was seen: a loss in one family points elsewhere than one in all. outcomes: of the lots.
    """
    if not whole.sound:
        return []
    pairings = [
        _pairing_json(standing, lot, outcome, one)
        for lot, outcome in zip(lots, outcomes, strict=True)
        if outcome.sound and sum(outcome.deaths.values()) > 0
        for carried in (carried_by_parents(standing, setting, lot),)
        for one in lethal_pairings(carried.sires, carried.dams, standing.keeper.never_pair or ())
    ]
    found = findings(setting.stages, examined=whole.fertility.n, fertile=whole.fertility.k)
    return [*pairings, *(_finding_json(one, setting, lots) for one in found)]


def notes_json(setting: Setting, pattern: Sequence[dict[str, Any]]) -> list[dict[str, str]]:
    """What to bear in mind with the counts: [{words, source}]."""
    notes = []
    if setting.stages.get("clear", 0) > 0:
        notes.append(CLEAR_NOTE)
    if pattern:
        notes.append(NO_DIAGNOSIS_NOTE)
    return [{"words": note.value, "source": _origin(note)} for note in notes]


def closing_json(eggs: int, stages: dict[str, int]) -> dict[str, Any]:
    """Whether the stages add up to the eggs set: {set, told, short_by, words}. told: those whose fate is known.

    short_by above 0: so many are unaccounted for; below 0: so many more are told than were set.
    """
    told = sum(max(0, n) for stage, n in stages.items() if stage in STAGES and stage != MISSING)
    short = round(short_by(eggs, [told]))
    words = f"All {eggs} eggs are accounted for."
    if short > 0:
        words = f"{short} of {eggs} eggs are not accounted for."
    elif short < 0:
        words = f"{-short} more than the {eggs} eggs set are told of."
    return {"set": eggs, "told": told, "short_by": short, "words": words}


def _finding_json(one: Finding, setting: Setting, lots: Sequence[Lot]) -> dict[str, Any]:
    unopened = setting.stages.get("clear", 0) if "clear" in one.classes else 0
    caution = f" {unopened} of them were not opened: clear is not infertile." if unopened > 0 else ""
    return {
        "finding": one.words,
        "evidence": (
            f"{one.k} of {one.n} {one.of} eggs ({100 * one.k / one.n:.0f} %); published: {100 * one.bound.value:.1f} % "
            f"{one.bound.unit}. So many by chance: {100 * one.p:.1g} %.{caution}"
        ),
        "likely": [f"{cause.value} ({_origin(cause)})" for cause in one.likely],
        "causes": [{"words": cause.value, "source": _origin(cause)} for cause in one.likely],
        "source": _origin(one.bound),
        "code": one.code,
        "p": one.p,
        "by_lot": [
            {"lot": lot.id, "family": lot.family, "k": k}
            for lot in lots
            for k in (sum(max(0, lot.stages.get(stage, 0)) for stage in one.classes),)
            if k
        ],
    }


def _pairing_json(standing: Standing, lot: Lot, outcome: Outcome, one: LethalPairing) -> dict[str, Any]:
    died = sum(outcome.deaths.values())
    family = standing.families.get(lot.family or "")
    name = family.name if family is not None else "this family"
    seen = f"{died} of {outcome.fertility.k} fertile eggs of {name} died."
    if one.share is None:
        expected, source = f"The keeper's own list says never to pair them: {one.why}", "the keeper's list"
    else:
        expected = f"About {100 * one.share.value:.0f} % {one.share.unit} die."
        source = _origin(one.share)
    return {
        "finding": "a pairing that is known to lose eggs",
        "evidence": f"Cock and hen behind {name} carry {one.trait}. {expected} {seen}",
        "likely": [f"{one.trait} on both sides ({source})"],
        "causes": [{"words": f"{one.trait} on both sides", "source": source}],
        "source": source,
        "code": "lethal_pairing",
        "p": None,
        "by_lot": [{"lot": lot.id, "family": lot.family, "k": died}],
    }


def _origin(figure: Cell) -> str:
    return f"{source_of(figure.source).title}; {STATUSES[figure.status]}"
