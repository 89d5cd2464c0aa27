"""Who stood with whom, and from when to when, as the pens were written down.

A pen without hens is a visit: "a bird got in". An open pen ends where the next of the same family and place begins.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import cast

from broodline.book.birds import bird_id
from broodline.book.bodies_flock import Left, Penned
from broodline.book.body import BirdShare
from broodline.book.problems import Problem
from broodline.book.standing import Standing

Shares = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Stay:
    """One pen for a time. since, until: days, until None while it lasts. sires, dams: bird -> share, each sum one.

    said: the cocks' shares were written, so a visitor's share stands as it is.
    """

    entry: str
    family: str
    place: str | None
    since: str
    until: str | None
    sires: Shares
    dams: Shares
    said: bool

    def stands_on(self, day: str) -> bool:
        """Whether the pen stood that day."""
        return self.since <= day and (self.until is None or day <= self.until)


@dataclass(frozen=True, slots=True)
class Pens:
    """All pens, and the day each bird left the book."""

    stays: tuple[Stay, ...]
    left_on: Mapping[str, str]
    problems: tuple[Problem, ...]


def pens_of(standing: Standing) -> Pens:
    """The pens of the book, the earliest first."""
    problems: list[Problem] = []
    stays = []
    for head in standing.heads.get("penned", ()):
        body = cast(Penned, head.body)
        visit = not body.dams
        sires, dams = (
            shares_of(standing, side, head.id, problems, visit=visit and side is body.sires)
            for side in (body.sires, body.dams)
        )
        stays.append(
            Stay(
                entry=head.id,
                family=root(standing, body.family),
                place=body.place and root(standing, body.place),
                since=body.since[:10],
                until=body.until and body.until[:10],
                sires=sires,
                dams=dams,
                said=any(share.share is not None for share in body.sires),
            )
        )
    stays.sort(key=lambda stay: (stay.since, stay.entry))
    left = {
        bird_id(standing, body.bird): body.on
        for head in standing.heads.get("left", ())
        for body in (cast(Left, head.body),)
        if body.how != "lent"
    }
    return Pens(tuple(_closed(stay, stays[at + 1 :]) for at, stay in enumerate(stays)), left, tuple(problems))


def shares_of(
    standing: Standing, birds: Sequence[BirdShare], entry: str, problems: list[Problem], *, visit: bool = False
) -> dict[str, float]:
    """Bird -> share, summing to one (a visit's may sum to less). Birds without a share divide what the others leave."""
    told = sum(one.share for one in birds if one.share is not None)
    silent = [one for one in birds if one.share is None]
    wrong = told > 1 + 1e-6 or (not silent and told < 1 - 0.005 and not visit)
    if birds and wrong:
        problems.append(
            Problem(
                "shares_not_one",
                entry,
                f"The shares of {len(birds)} birds sum to {100 * told:.0f} %, not to 100 %.",
                "Correct the shares; until then they count in the proportion that is written.",
            )
        )
    left_over = (1 - told) / len(silent) if silent and told < 1 else told / len(birds) if birds else 0.0
    found: dict[str, float] = {}
    for one in birds:
        bird = bird_id(standing, one.bird)
        found[bird] = found.get(bird, 0.0) + (left_over if one.share is None else one.share)
    total = sum(found.values())
    return found if visit and not wrong else {bird: share / total for bird, share in found.items()}


def root(standing: Standing, name: str) -> str:
    """The identity behind any id of a tree."""
    return standing.root_of.get(name, name)


def same_house(one: Stay, other: Stay) -> bool:
    """Whether two pens of a family may have been one and the same."""
    return one.family == other.family and (one.place is None or other.place is None or one.place == other.place)


def _closed(stay: Stay, after: Iterable[Stay]) -> Stay:
    """An open pen ends on the day the next of its house begins; a visit ends none."""
    if stay.until is not None or not stay.dams:
        return stay
    following = (other.since for other in after if other.dams and same_house(stay, other) and other.since > stay.since)
    return replace(stay, until=next(following, None))
