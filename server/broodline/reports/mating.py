"""Who the parents of a lot's eggs were, as far as the pens tell, and what they carry."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import cast

from broodline.book.bodies_eggs import Set
from broodline.book.bodies_flock import Bird, Penned
from broodline.book.moments import instant
from broodline.book.standing import Head, Lot, Setting, Standing
from broodline.trade.calendar import local_date


@dataclass(frozen=True, slots=True)
class Carried:
    """All that the cocks and the hens behind a lot carry, as written on the birds."""

    sires: tuple[str, ...]
    dams: tuple[str, ...]


def carried_by_parents(standing: Standing, setting: Setting, lot: Lot) -> Carried:
    """From who stood in the family's pen while the eggs were laid; without a pen, from the birds of the family.

    Hens named for the lot itself outrank the pen.
    """
    set_on = local_date(instant(setting.set_at_ms), standing.keeper.zone)
    first, last = lot.laid_from or lot.laid_to or set_on, lot.laid_to or set_on
    pens = [
        body
        for head in standing.heads.get("penned", ())
        for body in (cast(Penned, head.body),)
        if _root(standing, body.family) == lot.family and body.since[:10] <= last and (body.until or last)[:10] >= first
    ]
    sires = [share.bird for pen in pens for share in pen.sires]
    dams = _own_dams(standing, setting, lot) or [share.bird for pen in pens for share in pen.dams]
    if not pens:
        kept = [head for head in standing.heads.get("bird", ()) if _of_family(standing, head, lot)]
        sires = [head.root for head in kept if cast(Bird, head.body).sex == "male"]
        dams = dams or [head.root for head in kept if cast(Bird, head.body).sex == "female"]
    return Carried(_carried(standing, sires), _carried(standing, dams))


def _own_dams(standing: Standing, setting: Setting, lot: Lot) -> list[str]:
    return [
        share.bird
        for head in standing.heads.get("set", ())
        if head.root == setting.id
        for one in cast(Set, head.body).lots
        if one.lot == lot.id
        for share in one.dams or ()
    ]


def _of_family(standing: Standing, head: Head, lot: Lot) -> bool:
    family = cast(Bird, head.body).family
    return family is not None and _root(standing, family) == lot.family


def _carried(standing: Standing, birds: Iterable[str]) -> tuple[str, ...]:
    wanted = {_same(standing, bird) for bird in birds}
    return tuple(
        text
        for head in standing.heads.get("bird", ())
        if _same(standing, head.root) in wanted
        for text in cast(Bird, head.body).carries or ()
    )


def _same(standing: Standing, bird: str) -> str:
    root = _root(standing, bird)
    return standing.same_bird.get(root, root)


def _root(standing: Standing, name: str) -> str:
    return standing.root_of.get(name, name)
