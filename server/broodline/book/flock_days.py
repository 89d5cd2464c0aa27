"""Days of birds that cannot follow each other: gone before the hatch, or twice; ended before begun.

Told beside `flock_checks`, whose words these are too. Mirrored in pwa/src/book/flock-days.ts.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import cast

from broodline.book.birds import OneBird, bird_id, lot_of
from broodline.book.bodies_flock import Bird, Came, Left, Penned
from broodline.book.bodies_rooms import Treated
from broodline.book.hatch_ages import is_unhatched
from broodline.book.hatch_day import hatched_ms, noon_ms
from broodline.book.moments import DAY_MS, moment_ms
from broodline.book.problems import Problem
from broodline.book.standing import Standing
from broodline.trade.sources import cell, read_table

_TABLE = read_table("growth")
_APART_DAYS: int = cell(_TABLE["hatch_apart"]).value
_FOR_GOOD = frozenset({"died", "culled", "sold", "given"})
_DAY = len("2026-03-08")


def told(code: str, entry: str, **names: str | int) -> Problem:
    """A Problem in the table's words, with names in their places."""
    words = _TABLE["problems"][code]
    message = words["message"]
    for name, value in names.items():
        message = message.replace(f"{{{name}}}", str(value))
    return Problem(code, entry, message, words["remedy"])


def check_days(standing: Standing, birds: Mapping[str, OneBird]) -> Iterator[Problem]:
    """All days of birds, treatments, arrivals and pens that cannot be."""
    yield from _check_hatch(standing, birds)
    yield from _check_left(standing, birds)
    yield from _check_ends(standing)


def _check_hatch(standing: Standing, birds: Mapping[str, OneBird]) -> Iterator[Problem]:
    """Birds written as hatched long before or after the only lot they can be of."""
    for head in standing.heads.get("bird", ()):
        on, bird = cast(Bird, head.body).hatched_on, birds[bird_id(standing, head.root)]
        lot = standing.lots.get(lot_of(bird.body) or "")
        born_ms = None if lot is None else hatched_ms(standing, lot)
        if on is not None and born_ms is not None:
            days = abs(noon_ms(on) - born_ms) // DAY_MS
            if days > _APART_DAYS:
                yield told("hatch_apart", head.id, days=days, bird=bird.label)


def _check_left(standing: Standing, birds: Mapping[str, OneBird]) -> Iterator[Problem]:
    """Birds that left before they hatched, or again on a later day without having come back."""
    moves: dict[str, list[tuple[str, int, str, str]]] = defaultdict(list)
    for head in standing.heads.get("left", ()):
        left = cast(Left, head.body)
        bird = birds.get(bird_id(standing, left.bird))
        if bird is None:
            continue
        moves[bird.id].append((left.on, 0, head.id, left.how))
        if is_unhatched(standing, bird.body, left.on):
            yield told("bird_before_hatch", head.id, so="", bird=bird.label)
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.bird is not None and (bird := birds.get(bird_id(standing, came.bird))) is not None:
            moves[bird.id].append((came.on, 1, head.id, ""))
    for bird_moved, of in moves.items():
        since: str | None = None
        for on, _, entry, how in sorted(of):
            if how and since is not None and on > since:
                yield told("left_twice", entry, on=since, bird=birds[bird_moved].label)
            since = on if how in _FOR_GOOD else None


def _check_ends(standing: Standing) -> Iterator[Problem]:
    """Treatments, their times of waiting, times apart and stays in a pen that end before they begin."""
    for head in standing.heads.get("treated", ()):
        given = cast(Treated, head.body)
        waits = (given.no_eggs_until, given.no_meat_until)
        if given.until is not None and _is_before(given.until, given.from_):
            yield told("ends_early", head.id, what="The treatment")
        elif any(until is not None and _is_before(until, given.from_) for until in waits):
            yield told("ends_early", head.id, what="The time without eggs or meat")
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.apart_until is not None and came.apart_until < came.on:
            yield told("ends_early", head.id, what="The time apart")
    for head in standing.heads.get("penned", ()):
        pen = cast(Penned, head.body)
        if pen.until is not None and _is_before(pen.until, pen.since):
            yield told("ends_early", head.id, what="The time in the pen")


def _is_before(until: str, since: str) -> bool:
    """A day beside a moment is held to it by its noon, a day either way: it is the keeper's day, the moment is not."""
    if len(until) == len(since) == _DAY:
        return until < since
    slack = DAY_MS if _DAY in (len(until), len(since)) else 0
    return _ms(until) < _ms(since) - slack


def _ms(text: str) -> int:
    return noon_ms(text) if len(text) == _DAY else moment_ms(text)
