"""The birds of the book one by one: ids of one bird joined, what it is known by, and whether it is here.

Mirrored in pwa/src/book/birds.ts over tests/vectors/flock_checks.json.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any, Literal, cast

from broodline.book.bodies_flock import Bird, Came, Left, Marked, Tag
from broodline.book.standing import Head, Standing

Where = Literal["here", "lent", "gone"]

NEVER_HERE = "never here"  # cause of the leaving that is written of a forebear known from another holding's papers


@dataclass(frozen=True, slots=True)
class OneBird:
    """A bird. entry: the earliest that wrote it down. body: of all its ids joined, its tags those it wears.

    label: what a keeper knows it by.
    where: here, lent to someone, or gone (dead, sold, given or lost).
    """

    id: str
    entry: str
    body: Bird
    label: str
    where: Where


def bird_id(standing: Standing, name: str) -> str:
    """The identity of a bird: the smallest of all ids it goes by."""
    root = standing.root_of.get(name, name)
    return standing.same_bird.get(root, root)


def birds_of(standing: Standing, today: str | None) -> dict[str, OneBird]:
    """All birds by id. today: a local day; later leavings and comings do not count. None: all count."""
    where = whereabouts(standing, today)
    worn = worn_tags(standing, today)
    heads = sorted(standing.heads.get("bird", ()), key=lambda head: (bird_id(standing, head.root), head.root))
    birds = {}
    for bird, group in groupby(heads, key=lambda head: bird_id(standing, head.root)):
        joined = tuple(group)
        body = _joined(joined).model_copy(update={"tags": worn.get(bird)})
        birds[bird] = OneBird(bird, joined[0].id, body, _label(standing, bird, body), where.get(bird, "here"))
    return birds


def whereabouts(standing: Standing, today: str | None) -> dict[str, Where]:
    """Of birds that came or left, by the last of it up to a day; on one day a coming counts last, but for a death."""
    moves: dict[str, list[tuple[str, int, Where]]] = {}
    for head in standing.heads.get("left", ()):
        left = cast(Left, head.body)
        if today is None or left.on <= today:
            where: Where = "lent" if left.how == "lent" else "gone"
            order = 2 if left.how in ("died", "culled") else 0
            moves.setdefault(bird_id(standing, left.bird), []).append((left.on, order, where))
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.bird is not None and (today is None or came.on <= today):
            moves.setdefault(bird_id(standing, came.bird), []).append((came.on, 1, "here"))
    return {bird: max(of)[2] for bird, of in moves.items()}


def worn_tags(standing: Standing, today: str | None) -> dict[str, list[Tag]]:
    """Rings, tags and chips by bird, up to a day: those it was written down with and those put on later, in the order
    of the book, without those that another replaced."""
    marked = [
        (head.root, body)
        for head in standing.heads.get("marked", ())
        for body in [cast(Marked, head.body)]
        if today is None or body.on is None or body.on <= today
    ]
    gone = {standing.root_of.get(old, old) for _, body in marked if (old := body.replaces) is not None}
    worn: dict[str, list[Tag]] = {}
    for head in standing.heads.get("bird", ()):
        tags = cast(Bird, head.body).tags
        if tags and head.root not in gone:
            worn.setdefault(bird_id(standing, head.root), []).extend(tags)
    for root, body in marked:
        if body.bird is not None and body.tag is not None and not body.recheck and root not in gone:
            worn.setdefault(bird_id(standing, body.bird), []).append(body.tag)
    return worn


def lot_of(bird: Bird | None) -> str | None:
    """The one lot a bird can have come from; None where it may be of several, or nobody knows."""
    lots = {one.lot for one in bird.lots or ()} if bird is not None else set()
    return next(iter(lots)) if len(lots) == 1 else None


def _joined(heads: Sequence[Head]) -> Bird:
    """One body of the ids of one bird: the earliest stands, the others fill what it leaves open."""
    fields: dict[str, Any] = {}
    for head in heads:
        body = cast(Bird, head.body)
        for field in Bird.model_fields:
            value = getattr(body, field)
            if fields.get(field) is None or fields.get(field) == "unknown":
                fields[field] = value
    return cast(Bird, heads[0].body).model_copy(update=fields)


def _label(standing: Standing, bird: str, body: Bird) -> str:
    """Name, else its ring, else its family and sex with the end of its id."""
    if body.name:
        return body.name
    for tag in body.tags or ():
        if tag.text:
            return f"{tag.colour} {tag.text}" if tag.colour else tag.text
    named = standing.root_of.get(body.family, body.family) if body.family else None
    family = standing.families.get(named) if named else None
    sex = {"male": "cock", "female": "hen", "unknown": "bird"}[body.sex]
    return f"{family.name} {sex} {bird[-4:]}" if family else f"{sex} {bird[-4:]}"
