"""What cannot be about chicks and birds: weights beyond sense, days before the hatch, one band on two living birds.

Kept, counted as they are written, and told beside the problems of the fold, which needs none of it to count eggs.
Mirrored in pwa/src/book/flock-checks.ts over tests/vectors/flock_checks.json.
"""

from collections import defaultdict
from collections.abc import Iterator
from math import floor
from typing import cast

from broodline.book.birds import bird_id, whereabouts
from broodline.book.bodies_flock import Bird, Marked, Tag, Weighed
from broodline.book.hatch_day import hatched_ms, noon_ms, whole_days
from broodline.book.moments import DAY_MS
from broodline.book.problems import Problem, in_order
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Head, Lot, Standing
from broodline.trade.sources import cell, read_table

_TABLE = read_table("growth")
_LIGHTEST: float = cell(_TABLE["lightest"]).value
_GROWN: float = cell(_TABLE["grown"]).value
_HEAVIEST = [(row["to_day"], cell(row["mass"]).value) for row in _TABLE["heaviest"]]
_YOUNG = frozenset({"hatched", "brooding", "growing"})


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
    """All that can be wrong with birds; only heads and lots of the standing are read."""
    yield from _check_weights(standing)
    yield from _check_days(standing)
    yield from _check_moves(standing)
    yield from _check_bands(standing)


def _check_moves(standing: Standing) -> Iterator[Problem]:
    """Moves of chicks more than a day before the first of their lot hatched."""
    for lot in standing.lots.values():
        first_ms = _first_out_ms(lot)
        if first_ms is not None:
            for move in lot.moves:
                if move.source in _YOUNG and move.at_ms < first_ms - DAY_MS:
                    yield _told("before_hatch", move.entry, family=_family(standing, lot))


def _check_weights(standing: Standing) -> Iterator[Problem]:
    """The heaviest odd weight of an entry is told: one slip makes one Problem."""
    for head in standing.heads.get("weighed", ()):
        body = cast(Weighed, head.body)
        lot = standing.lots.get(body.lot or "")
        born_ms = None if lot is None else hatched_ms(standing, lot)
        age = None if born_ms is None else max(0, whole_days(born_ms, noon_ms(body.on)))
        odd = [one.mass_g for one in body.birds or () if not is_sensible(one.mass_g, age)]
        if odd:
            yield _told("weight_odd", head.id, mass=floor(max(odd) + 0.5), age="?" if age is None else age)


def _check_days(standing: Standing) -> Iterator[Problem]:
    """Weights and marks of a lot more than a day before its chicks hatched."""
    for kind in ("weighed", "marked"):
        for head in standing.heads.get(kind, ()):
            body = cast(Weighed | Marked, head.body)
            lot = standing.lots.get(body.lot or "")
            if lot is None or body.on is None:
                continue
            first_ms = hatched_ms(standing, lot) if lot.came else _first_out_ms(lot)
            if first_ms is not None and noon_ms(body.on) < first_ms - DAY_MS:
                yield _told("before_hatch", head.id, family=_family(standing, lot))


def _check_bands(standing: Standing) -> Iterator[Problem]:
    """Bands with a text that two birds wear, neither of which is gone; told of the later entry."""
    where = whereabouts(standing, None)
    replaced = {
        standing.root_of.get(old, old)
        for head in standing.heads.get("marked", ())
        if (old := cast(Marked, head.body).replaces) is not None
    }
    worn: dict[tuple[str, ...], dict[str, str]] = defaultdict(dict)
    for bird, tag, head in _tags(standing):
        wearer = bird_id(standing, bird)
        if tag.text and where.get(wearer) != "gone" and head.root not in replaced:
            key: tuple[str, ...] = (tag.kind, tag.colour or "", tag.leg or "", tag.text)
            worn[key][wearer] = max(head.id, worn[key].get(wearer, ""))
    for band, wearers in worn.items():
        for entry in sorted(wearers.values())[1:]:
            yield _told("band_twice", entry, band=" ".join(part for part in band if part))


def _tags(standing: Standing) -> Iterator[tuple[str, Tag, Head]]:
    """(bird, tag, head) of every band a bird was written down with, or was given later."""
    for head in standing.heads.get("bird", ()):
        yield from ((head.root, tag, head) for tag in cast(Bird, head.body).tags or ())
    for head in standing.heads.get("marked", ()):
        body = cast(Marked, head.body)
        if body.bird is not None and body.tag is not None:
            yield body.bird, body.tag, head


def _first_out_ms(lot: Lot) -> int | None:
    out = (move.at_ms for move in lot.moves if move.target == "hatched" and move.source not in CHICK_STAGES)
    return min(out, default=None)


def _family(standing: Standing, lot: Lot) -> str:
    family = standing.families.get(lot.family or "")
    return "?" if family is None else family.name


def _told(code: str, entry: str, **names: str | int) -> Problem:
    words = _TABLE["problems"][code]
    message = words["message"]
    for name, value in names.items():
        message = message.replace(f"{{{name}}}", str(value))
    return Problem(code, entry, message, words["remedy"])
