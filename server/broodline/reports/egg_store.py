"""Eggs in store, by family and day of laying: what was kept, less what left, less what was set from it.

Mirrored in pwa/src/book/egg-store.ts over tests/vectors/egg_store.json. Nothing can go below zero: eggs that no
entry says were kept never stood in this account, so setting or eating them takes nothing from it. Bought-in batches
do not come from the store. The oldest leave first; a batch with days of laying takes only from those days.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, cast

from broodline.book.birds import bird_id
from broodline.book.bodies_eggs import EggsOut, Gathered, Set
from broodline.book.moments import instant
from broodline.book.standing import Head, Standing
from broodline.trade.calendar import local_date

_PACE_DAYS = 7


@dataclass(frozen=True, slots=True)
class Draw:
    """n eggs that leave the store on a day. first, last: the days of laying they may be of. dams: none: of any hen."""

    day: str
    is_set: bool
    root: str
    index: int
    n: int
    first: str
    last: str
    dams: frozenset[str]


def egg_store(standing: Standing, now: datetime) -> dict[str, Any]:
    """{on, n, families: [{family, n, oldest_days, gathered, kept, out, set, beyond, kept_7d, parcels}]}.

    n = kept - out - set. beyond: eggs said to have left (`eggs_out`) that no entry says were kept. kept_7d: kept in
    the seven days up to `on`. parcels: [{on, n, age_days, dam, store}] still there, the oldest first. Families by id,
    those alone of which eggs were gathered or left; dates in the holding's zone.
    """
    today = local_date(now, standing.keeper.zone)
    gathered: dict[str, list[Head]] = {}
    draws: dict[str, list[Draw]] = {}
    for head in standing.heads.get("gathered", ()):
        gathered.setdefault(_family(standing, cast(Gathered, head.body)), []).append(head)
    for head in standing.heads.get("eggs_out", ()):
        draws.setdefault(_family(standing, cast(EggsOut, head.body)), []).append(_out(head))
    named = sorted({*gathered, *draws})
    for family, draw in _sets(standing):
        draws.setdefault(family, []).append(draw)
    families = [_family_json(standing, name, gathered.get(name, []), draws.get(name, []), today) for name in named]
    return {"on": today, "n": sum(family["n"] for family in families), "families": families}


def _family(standing: Standing, body: Gathered | EggsOut) -> str:
    return standing.root_of.get(body.family, body.family)


def _out(head: Head) -> Draw:
    body = cast(EggsOut, head.body)
    return Draw(body.on, False, head.root, 0, body.n, "", body.on, frozenset())


def _sets(standing: Standing) -> Iterator[tuple[str, Draw]]:
    """Every batch of the holding's own eggs, with its family."""
    for head in standing.heads.get("set", ()):
        body = cast(Set, head.body)
        day = local_date(instant(standing.settings[head.root].set_at_ms), standing.keeper.zone)
        for index, lot in enumerate(body.lots):
            if lot.from_ is not None or index != next(i for i, one in enumerate(body.lots) if one.lot == lot.lot):
                continue
            if standing.lots[lot.lot].setting != head.root:
                continue
            dams = frozenset(bird_id(standing, share.bird) for share in lot.dams or ())
            last = day if lot.laid_to is None else min(lot.laid_to, day)
            family = standing.root_of.get(lot.family, lot.family)
            yield family, Draw(day, True, head.root, index, lot.n, lot.laid_from or "", last, dams)


def _family_json(
    standing: Standing, family: str, gathered: Sequence[Head], draws: Sequence[Draw], today: str
) -> dict[str, Any]:
    heads = sorted(gathered, key=lambda head: (cast(Gathered, head.body).on, head.root))
    bodies = [cast(Gathered, head.body) for head in heads]
    left = [body.kept for body in bodies]
    left_by = {True: 0, False: 0}
    beyond = 0
    for draw in sorted(draws, key=lambda one: (one.day, one.is_set, one.root, one.index)):
        wanted = draw.n
        for i, body in enumerate(bodies):
            dam = None if body.dam is None else bird_id(standing, body.dam)
            of_another_hen = bool(draw.dams) and dam is not None and dam not in draw.dams
            if wanted and draw.first <= body.on <= draw.last and not of_another_hen:
                n = min(wanted, left[i])
                left[i] -= n
                wanted -= n
        left_by[draw.is_set] += draw.n - wanted
        beyond += 0 if draw.is_set else wanted
    parcels = [_parcel(body, n, today) for body, n in zip(bodies, left, strict=True) if n > 0]
    return {
        "family": family,
        "n": sum(left),
        "oldest_days": parcels[0]["age_days"] if parcels else None,
        "gathered": sum(body.n for body in bodies),
        "kept": sum(body.kept for body in bodies),
        "out": left_by[False],
        "set": left_by[True],
        "beyond": beyond,
        "kept_7d": sum(body.kept for body in bodies if 0 <= _age_days(body.on, today) < _PACE_DAYS),
        "parcels": parcels,
    }


def _parcel(body: Gathered, n: int, today: str) -> dict[str, Any]:
    return {"on": body.on, "n": n, "age_days": _age_days(body.on, today), "dam": body.dam, "store": body.store}


def _age_days(laid: str, today: str) -> int:
    return (date.fromisoformat(today) - date.fromisoformat(laid)).days
