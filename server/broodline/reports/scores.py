"""Birds judged by traits: totals, faults, and whether the sums add up.

A score above nought is points given, one below is a fault's cut. A trait named "total" is checked against the others.
A bird judged by the sections of a known card can have no more points in one than the card gives.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, cast

from broodline.book.birds import bird_id
from broodline.book.bodies_flock import Scored
from broodline.book.problems import Problem
from broodline.book.standing import Head, Standing
from broodline.trade.sources import cell, read_table

TOTAL = "total"
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Score:
    """A bird's last judgement. total: points less cuts. faults: trait -> cut, below nought. card: its name or None."""

    on: str
    total: float
    traits: Mapping[str, float]
    faults: Mapping[str, float]
    card: str | None


def scores_of(standing: Standing) -> tuple[dict[str, Score], list[Problem]]:
    """Bird -> its last judgement; and those whose sums do not add up, which count as they are written."""
    problems: list[Problem] = []
    last: dict[str, Head] = {}
    for head in standing.heads.get("scored", ()):
        bird = bird_id(standing, cast(Scored, head.body).bird)
        before = last.get(bird)
        if before is None or (cast(Scored, before.body).on, before.id) < (cast(Scored, head.body).on, head.id):
            last[bird] = head
    found = {}
    for bird, head in last.items():
        body = cast(Scored, head.body)
        parts = {trait: value for trait, value in body.scores.items() if trait.casefold().strip() != TOTAL}
        summed = sum(parts.values())
        written = [value for trait, value in body.scores.items() if trait not in parts]
        card = _card(parts)
        problems.extend(_odd(head, summed, written, parts, card))
        faults = {trait: value for trait, value in parts.items() if value < 0}
        found[bird] = Score(body.on, summed if parts else sum(written), parts, faults, card)
    return found, problems


def _card(parts: Mapping[str, float]) -> str | None:
    """The card whose sections these are."""
    given = {trait.casefold().strip() for trait, value in parts.items() if value >= 0}
    cards: Mapping[str, Mapping[str, Any]] = read_table("breeding")["score_cards"]
    return next((name for name, written in cards.items() if given and given == set(cell(written).value)), None)


def _odd(
    head: Head, summed: float, written: list[float], parts: Mapping[str, float], card: str | None
) -> Iterator[Problem]:
    if parts and any(abs(summed - total) > _SAME for total in written):
        yield Problem(
            "score_total",
            head.id,
            f"The parts of a score sum to {summed:g}, but the total written is {written[0]:g}.",
            "Add it up again and correct the part or the total; until then the sum of the parts counts.",
        )
    most = cell(read_table("breeding")["score_cards"][card]).value if card is not None else {}
    for trait, value in parts.items():
        if value > most.get(trait.casefold().strip(), value):
            yield Problem(
                "score_over",
                head.id,
                f"{value:g} points for {trait}; the card gives at most {most[trait.casefold().strip()]:g}.",
                "Correct the points of that section.",
            )
