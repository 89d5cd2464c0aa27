"""What cannot be about chicks and birds: weights beyond sense, days before the hatch, one band on two living birds;
and of their eggs more kept than were gathered.

Kept, counted as they are written, and told beside the problems of the fold, which needs none of it to count eggs.
Mirrored in pwa/src/book/flock-checks.ts over tests/vectors/flock_checks.json.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from math import floor
from typing import cast

from broodline.book.birds import OneBird, bird_id, birds_of, lot_of, whereabouts
from broodline.book.bodies_eggs import Gathered
from broodline.book.bodies_flock import Bird, Marked, Tag, Weighed
from broodline.book.flock_days import check_days, told
from broodline.book.hatch_ages import age_on, first_out_ms, is_before_hatch, is_unhatched
from broodline.book.hatch_day import noon_ms
from broodline.book.problems import Problem, in_order
from broodline.book.standing import Head, Lot, Standing
from broodline.trade.sources import cell, read_table

_TABLE = read_table("growth")
_LIGHTEST: float = cell(_TABLE["lightest"]).value
_GROWN: float = cell(_TABLE["grown"]).value
_HEAVIEST = [(row["to_day"], cell(row["mass"]).value) for row in _TABLE["heaviest"]]
_YOUNG = frozenset({"hatched", "brooding", "growing"})
_LEFT_OUT = "; the weight is left out of the means"


def is_sensible(mass_g: float, age_days: int | None) -> bool:
    """Whether a bird of that age (None: not known) can weigh so much."""
    most = _GROWN
    if age_days is not None:
        most = next((mass for to_day, mass in _HEAVIEST if age_days <= to_day), _GROWN)
    return _LIGHTEST <= mass_g <= most


def all_problems(standing: Standing) -> tuple[Problem, ...]:
    """What does not add up in a book: the fold's problems and those about chicks and birds."""
    return in_order([*standing.problems, *check_flock(standing)])


def check_flock(standing: Standing) -> Iterator[Problem]:
    """All that can be wrong with birds and what they laid; only heads, lots and settings of the standing are read."""
    birds = birds_of(standing, None)
    yield from _check_weights(standing, birds)
    yield from _check_marks(standing, birds)
    yield from _check_moves(standing)
    yield from check_bands(standing)
    yield from check_days(standing, birds)
    yield from _check_gathered(standing)


def _check_moves(standing: Standing) -> Iterator[Problem]:
    """Moves of chicks more than a day before the first of their lot, or of any lot they may be of, hatched."""
    for lot in standing.lots.values():
        for move in lot.moves:
            if move.source in _YOUNG and is_before_hatch(standing, lot, move.at_ms):
                yield told("before_hatch", move.entry, family=_family(standing, lot), so="")
    for setting in standing.settings.values():
        for move in setting.among:
            lots = [standing.lots[name] for name in move.among]
            known = [lot for lot in lots if first_out_ms(standing, lot) is not None]
            if move.source in _YOUNG and known and all(is_before_hatch(standing, lot, move.at_ms) for lot in known):
                names = dict.fromkeys(_family(standing, lot) for lot in known)
                yield told("before_hatch", move.entry, family=" and ".join(names), so="")


def _check_weights(standing: Standing, birds: Mapping[str, OneBird]) -> Iterator[Problem]:
    """Of an entry the heaviest odd weight and the first before the hatch are told: one slip makes one Problem."""
    for head in standing.heads.get("weighed", ()):
        body = cast(Weighed, head.body)
        odd: tuple[float, int | None] | None = None
        early: Problem | None = None
        for one in body.birds or ():
            known = None if one.bird is None else birds.get(bird_id(standing, one.bird))
            lot = standing.lots.get(body.lot or (lot_of(known.body) if known else None) or "")
            age = age_on(standing, lot, body.on)
            if not is_sensible(one.mass_g, age) and (odd is None or one.mass_g > odd[0]):
                odd = one.mass_g, age
            early = early or _early(standing, head.id, lot, known, body.on, _LEFT_OUT)
        if odd is not None:
            yield told("weight_odd", head.id, mass=floor(odd[0] + 0.5), age="?" if odd[1] is None else odd[1])
        if early is not None:
            yield early


def _check_marks(standing: Standing, birds: Mapping[str, OneBird]) -> Iterator[Problem]:
    """Marks of a lot or a bird more than a day before it hatched."""
    for head in standing.heads.get("marked", ()):
        body = cast(Marked, head.body)
        if body.on is not None:
            known = None if body.bird is None else birds.get(bird_id(standing, body.bird))
            lot = standing.lots.get(body.lot or (lot_of(known.body) if known else None) or "")
            early = _early(standing, head.id, lot, known, body.on, "")
            if early is not None:
                yield early


def _early(standing: Standing, entry: str, lot: Lot | None, bird: OneBird | None, on: str, so: str) -> Problem | None:
    """What is dated before the hatch of its lot, or of the bird itself. so: what follows from it."""
    if lot is not None and is_before_hatch(standing, lot, noon_ms(on)):
        return told("before_hatch", entry, family=_family(standing, lot), so=so)
    if bird is not None and is_unhatched(standing, bird.body, on):
        return told("bird_before_hatch", entry, so=so, bird=bird.label)
    return None


def check_bands(standing: Standing) -> Iterator[Problem]:
    """Bands with a text that two birds wear, neither of which is gone; told of the later entry.

    Large and small letters and spaces are one; a leg that was not written may be either.
    """
    where = whereabouts(standing, None)
    replaced = {
        standing.root_of.get(old, old)
        for head in standing.heads.get("marked", ())
        if (old := cast(Marked, head.body).replaces) is not None
    }
    worn: dict[tuple[str, ...], list[tuple[str, str, Tag]]] = defaultdict(list)
    for bird, tag, head in _tags(standing):
        wearer = bird_id(standing, bird)
        text = (tag.text or "").replace(" ", "").lower()
        if text and where.get(wearer) != "gone" and head.root not in replaced:
            worn[tag.kind, (tag.colour or "").lower(), text].append((head.id, wearer, tag))
    for bands in worn.values():
        last: dict[str, tuple[str, Tag]] = {}
        for entry, wearer, tag in sorted(bands, key=lambda band: band[0]):
            last[wearer] = entry, tag
        ordered = sorted(last.values(), key=lambda band: band[0])
        for number, (entry, tag) in enumerate(ordered):
            if any(_may_be_one_leg(tag, other) for _, other in ordered[:number]):
                parts = (tag.kind, tag.colour, tag.leg, tag.text)
                yield told("band_twice", entry, band=" ".join(part for part in parts if part))


def _check_gathered(standing: Standing) -> Iterator[Problem]:
    """Eggs gathered of which more were kept than there were."""
    for head in standing.heads.get("gathered", ()):
        body = cast(Gathered, head.body)
        if body.kept > body.n:
            yield told("kept_over", head.id, kept=body.kept, n=body.n)


def _may_be_one_leg(one: Tag, other: Tag) -> bool:
    return not one.leg or not other.leg or one.leg == other.leg


def _tags(standing: Standing) -> Iterator[tuple[str, Tag, Head]]:
    """(bird, tag, head) of every band a bird was written down with, or was given later."""
    for head in standing.heads.get("bird", ()):
        yield from ((head.root, tag, head) for tag in cast(Bird, head.body).tags or ())
    for head in standing.heads.get("marked", ()):
        body = cast(Marked, head.body)
        if body.bird is not None and body.tag is not None:
            yield body.bird, body.tag, head


def _family(standing: Standing, lot: Lot) -> str:
    family = standing.families.get(lot.family or "")
    return "?" if family is None else family.name
