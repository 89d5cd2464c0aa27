"""Who stood with whom, and from when to when, as the pens were written down.

A pen without hens is a visit: "a bird got in". An open pen ends where the next of the same family and place begins.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, cast

from broodline.book.birds import bird_id
from broodline.book.bodies_flock import Came, Left, Penned
from broodline.book.body import BirdShare
from broodline.book.problems import Problem
from broodline.book.standing import Standing

Shares = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Stay:
    """One pen for a time. since, until: days, until None while it lasts. sires, dams: bird -> share, each sum one.

    said, dams_said: the cocks' shares, the hens', were written; else they are taken to count alike. Where the cocks'
    were, a visitor's share stands as it is.
    """

    entry: str
    family: str
    place: str | None
    since: str
    until: str | None
    sires: Shares
    dams: Shares
    said: bool
    dams_said: bool

    def stands_on(self, day: str) -> bool:
        """Whether the pen stood that day."""
        return self.since <= day and (self.until is None or day <= self.until)


class Away(NamedTuple):
    """Days between a bird's leaving and its coming back, when it stood in no pen here. until: None for ever."""

    since: str
    until: str | None

    def covers(self, day: str) -> bool:
        """Whether the bird was away all that day; on the days of leaving and coming it was here too."""
        return self.since < day and (self.until is None or day < self.until)


@dataclass(frozen=True, slots=True)
class Pens:
    """All pens, and when birds were away: dead, sold, or lent and not yet back."""

    stays: tuple[Stay, ...]
    away: Mapping[str, tuple[Away, ...]]
    problems: tuple[Problem, ...]

    def was_here(self, bird: str, day: str) -> bool:
        """Whether the bird was here that day, as far as its leavings and comings are written down."""
        return not any(away.covers(day) for away in self.away.get(bird, ()))

    def last_there(self, stay: Stay, bird: str, day: str) -> str | None:
        """The last day up to `day` that a bird of the pen stood in it; None where it never had by then."""
        last = day if stay.until is None else min(day, stay.until)
        for away in reversed(self.away.get(bird, ())):
            if away.covers(last):
                last = away.since
        return last if stay.since <= last else None


def pens_of(standing: Standing) -> Pens:
    """The pens of the book, the earliest first."""
    problems: list[Problem] = []
    stays = []
    for head in standing.heads.get("penned", ()):
        body = cast(Penned, head.body)
        visit = not body.dams
        sires, dams = (
            shares_of(standing, side, head.id, problems, partly=visit and side is body.sires)
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
                dams_said=any(share.share is not None for share in body.dams),
            )
        )
    stays.sort(key=lambda stay: (stay.since, stay.entry))
    closed = tuple(_closed(stay, stays[at + 1 :]) for at, stay in enumerate(stays))
    return Pens(closed, _away(standing), tuple(problems))


def shares_of(
    standing: Standing, birds: Sequence[BirdShare], entry: str, problems: list[Problem], *, partly: bool = False
) -> dict[str, float]:
    """Bird -> share, summing to one. Birds without a share divide what the others leave. partly: they may sum to less,
    as those of a visit and of a bird's own parents do, the rest being others or not known."""
    told = sum(one.share for one in birds if one.share is not None)
    silent = [one for one in birds if one.share is None]
    wrong = told > 1 + 1e-6 or (not silent and told < 1 - 0.005 and not partly)
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
    return found if partly and told <= 1 else {bird: share / total for bird, share in found.items()}


def root(standing: Standing, name: str) -> str:
    """The identity behind any id of a tree."""
    return standing.root_of.get(name, name)


def same_house(one: Stay, other: Stay) -> bool:
    """Whether two pens of a family may have been one and the same."""
    return one.family == other.family and (one.place is None or other.place is None or one.place == other.place)


def _away(standing: Standing) -> dict[str, tuple[Away, ...]]:
    """Of each bird that left, the earliest first. Of several leavings with no coming between them the first counts."""
    moves: dict[str, list[tuple[str, bool]]] = {}
    for head in standing.heads.get("left", ()):
        left = cast(Left, head.body)
        moves.setdefault(bird_id(standing, left.bird), []).append((left.on[:10], False))
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.bird is not None:
            moves.setdefault(bird_id(standing, came.bird), []).append((came.on[:10], True))
    found: dict[str, list[Away]] = {}
    for bird, days in moves.items():
        since: str | None = None
        for day, back in sorted(days):
            if back and since is not None:
                found.setdefault(bird, []).append(Away(since, day))
                since = None
            elif not back and since is None:
                since = day
        if since is not None:
            found.setdefault(bird, []).append(Away(since, None))
    return {bird: tuple(aways) for bird, aways in found.items()}


def _closed(stay: Stay, after: Iterable[Stay]) -> Stay:
    """An open pen ends on the day the next of its house begins; a visit ends none."""
    if stay.until is not None or not stay.dams:
        return stay
    following = (other.since for other in after if other.dams and same_house(stay, other) and other.since > stay.since)
    return replace(stay, until=next(following, None))
