"""Whose eggs a plan sets: the pens of each family today, what inbreeding their chicks are to expect, and from which day
eggs are of new pens alone.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.reports.flock_pedigree import Flock, flock_of
from broodline.reports.matings import LIMIT
from broodline.reports.parents_of import laid_on
from broodline.reports.pens import Pens, pens_of
from broodline.trade.kin import Kin, kin_of
from broodline.trade.semen import overlap


@dataclass(frozen=True, slots=True)
class Yard:
    """What tells of a book's eggs whose they are. today: a local day."""

    standing: Standing
    flock: Flock
    pens: Pens
    kin: Kin
    today: str


def yard_of(standing: Standing, today: str) -> Yard:
    """The pens and the pedigree of a book."""
    flock = flock_of(standing, today)
    return Yard(standing, flock, pens_of(standing), kin_of(flock.pedigree), today)


def parents_json(yard: Yard, family: str, parcels: Sequence[Mapping[str, Any]]) -> dict[str, Any] | None:
    """{pens: [{place, since, sires, dams}], F, known, over, clean_on, new_on, words}; None where no pen of it stands.

    F: expected of the eggs in store (laid today, where there are none), earlier cocks counted as long as a hen holds
    their semen; None where a parent is not known. known: something is written of all parents' forebears. over: F is at
    or over the limit. clean_on: the first day whose eggs are of today's cocks alone; None where that is so already, or
    nothing was read of the species. new_on: that day if new pens were put together today. parcels: the family's, as
    `egg_store` tells them.
    """
    stays = [one for one in yard.pens.stays if one.family == family and one.dams and one.stands_on(yard.today)]
    if not stays:
        return None
    species = yard.standing.families[family].species
    laid = {str(one["on"]): 0 for one in parcels} or {yard.today: 1}
    for one in parcels:
        laid[str(one["on"])] += one["n"]
    pairs = [
        (pair, n / sum(laid.values()))
        for day, n in laid.items()
        for pair in laid_on(family, yard.pens, day, species)
        if pair.chance > 0
    ]
    expected, sure, known = 0.0, True, True
    for pair, share in pairs:
        told = [bird for bird in (pair.sire, pair.dam) if bird is not None and bird in yard.flock.birds]
        sure &= len(told) == 2
        known &= len(told) == 2 and all(yard.flock.tells_of(bird) for bird in told)
        if len(told) == 2:
            expected += share * pair.chance * float(yard.kin.kinships(told[:1], told[1:])[0, 0])
    held = overlap(species)
    today = date.fromisoformat(yard.today)
    answer = {
        "pens": [
            {"place": one.place, "since": one.since, "sires": list(one.sires), "dams": list(one.dams)} for one in stays
        ],
        "F": expected if sure else None,
        "known": known,
        "over": expected >= LIMIT - 1e-9,
        "clean_on": None
        if held is None
        else _clean_on(yard, family, species, {cock for one in stays for cock in one.sires}),
        "new_on": None if held is None else (today + timedelta(days=held.value + 1)).isoformat(),
    }
    return {**answer, "words": " ".join(_words(yard, answer))}


def _clean_on(yard: Yard, family: str, species: str, sires: set[str]) -> str | None:
    """The first day on which no other cock is a candidate; None where none is today."""
    today = date.fromisoformat(yard.today)
    held = overlap(species)
    for ahead in range(held.value + 2 if held else 0):
        day = (today + timedelta(days=ahead)).isoformat()
        if all(pair.sire in sires for pair in laid_on(family, yard.pens, day, species)):
            return day if ahead else None
    return None


def _words(yard: Yard, told: Mapping[str, Any]) -> Iterator[str]:
    """Whose eggs, their inbreeding, and what to do where it is much."""
    names = {bird: one.label for bird, one in yard.flock.birds.items()}
    region = yard.standing.keeper.region
    sires = [names.get(bird, "a cock that is not written down") for pen in told["pens"] for bird in pen["sires"]]
    of = f"Eggs of the pen of {', '.join(dict.fromkeys(sires))}" if sires else "Eggs of a pen without a cock"
    if told["F"] is None:
        yield f"{of}; not all parents are known."
    elif told["F"] == 0 and not told["known"]:
        yield f"{of}: no inbreeding that is known of."
    else:
        sure = "" if told["known"] else ", not all forebears being known"
        yield f"{of}: inbreeding {100 * told['F']:.1f} % to be expected{sure}."
    if told["clean_on"] is not None:
        yield f"Laid before {day_told(told['clean_on'], region)} they may still be of an earlier cock."
    if told["over"] and told["clean_on"] is None:
        yield f"That is {100 * LIMIT:.1f} % or more: see the matings for better pens before many are set."
        if told["new_on"] is not None:
            yield f"Of new pens put together today, eggs are theirs alone from {day_told(told['new_on'], region)} on."
