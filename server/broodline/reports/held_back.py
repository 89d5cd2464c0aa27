"""Eggs and meat that are not for eating on some days, for whoever gathers them and does not know the birds.

The days are those typed from a label or by a vet; none is worked out here.
"""

from collections.abc import Iterator
from typing import cast

from broodline.book.birds import OneBird, bird_id, birds_of
from broodline.book.bodies_rooms import Treated
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.reports.pens import Stay, pens_of


def held_back(standing: Standing, first: str, last: str) -> list[str]:
    """A sentence for each treatment and what it holds back on any day from `first` to `last`, eggs before meat; what
    ends last comes first. first, last: local days."""
    region = standing.keeper.region
    found = []
    for head in standing.heads.get("treated", ()):
        one = cast(Treated, head.body)
        if one.from_[:10] > last:
            continue
        for turn, what, until in ((0, "Eggs", one.no_eggs_until), (1, "Meat", one.no_meat_until)):
            if until is not None and until >= first:
                day = max(first, one.from_[:10])
                who = "; ".join(_who(standing, one, day)) or "birds that nobody named"
                words = f"{what} of {who}: not for eating until {day_told(until, region)} ({one.product})."
                found.append((turn, words, until))
    found.sort(key=lambda row: row[2], reverse=True)
    return [words for _, words, _ in sorted(found, key=lambda row: row[0])]


def _who(standing: Standing, one: Treated, day: str) -> Iterator[str]:
    """A bird with the pen it stands in, a batch, a place with those that stand in it."""
    birds = birds_of(standing, day)
    stays = [stay for stay in pens_of(standing).stays if stay.stands_on(day)]
    if one.bird is not None:
        bird = bird_id(standing, one.bird)
        pens = {_place(standing, stay.place) for stay in stays if _holds(stay, bird) and stay.place}
        where = f", {', '.join(sorted(pens))}" if pens else ""
        yield (birds[bird].label if bird in birds else "a bird") + where
    if one.lot is not None:
        lot = standing.lots.get(one.lot)
        family = None if lot is None else standing.families.get(lot.family or "")
        yield "a batch" if family is None else f"the batch of {family.name}"
    if one.place is not None:
        place = standing.root_of.get(one.place, one.place)
        inside = sorted(_inside(birds, [stay for stay in stays if stay.place == place]))
        yield _place(standing, place) + (f" ({', '.join(inside)})" if inside else "")


def _inside(birds: dict[str, OneBird], stays: list[Stay]) -> set[str]:
    return {
        one.label for name, one in birds.items() if one.where == "here" and any(_holds(stay, name) for stay in stays)
    }


def _holds(stay: Stay, bird: str) -> bool:
    return bird in stay.sires or bird in stay.dams


def _place(standing: Standing, place: str | None) -> str:
    known = standing.places.get(place or "")
    return "a place that is not in the book" if known is None else known.name
