"""What the cocks and hens behind a lot's eggs carry, each way the eggs may have come with its chance."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import cast

from broodline.book.birds import bird_id
from broodline.book.bodies_flock import Bird
from broodline.book.standing import Lot, Standing
from broodline.reports.parents_of import parents_of_lot
from broodline.reports.pens import Pens, root


@dataclass(frozen=True, slots=True)
class Carried:
    """What cock and hen carry, as written on the birds, where the eggs came this way. Chances sum to one."""

    chance: float
    sires: tuple[str, ...]
    dams: tuple[str, ...]


def carried_by_parents(standing: Standing, lot: Lot, pens: Pens) -> tuple[Carried, ...]:
    """From the candidate parents of the lot. For a side no pen tells of, all birds of the family stand together."""
    found = []
    for pair in parents_of_lot(standing, lot, pens, []).pairs:
        sires = _of_family(standing, lot, "male") if pair.sire is None else [pair.sire]
        dams = _of_family(standing, lot, "female") if pair.dam is None else [pair.dam]
        found.append(Carried(pair.chance, _carried(standing, sires), _carried(standing, dams)))
    return tuple(found)


def _of_family(standing: Standing, lot: Lot, sex: str) -> list[str]:
    if lot.bought_in or lot.family is None:
        return []
    return [
        bird_id(standing, head.root)
        for head in standing.heads.get("bird", ())
        for body in (cast(Bird, head.body),)
        if body.sex == sex and body.family is not None and root(standing, body.family) == lot.family
    ]


def _carried(standing: Standing, birds: Iterable[str]) -> tuple[str, ...]:
    wanted = set(birds)
    return tuple(
        text
        for head in standing.heads.get("bird", ())
        if bird_id(standing, head.root) in wanted
        for text in cast(Bird, head.body).carries or ()
    )
