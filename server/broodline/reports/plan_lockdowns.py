"""What lockdowns of a plan ask of the keeper: eggs moved to a hatcher, and whether it has room for them then."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.reports.plan_places import Held, Place, Round, held_by, running
from broodline.trade.counted import many

_MOST_NAMED = 4


def clash_words(standing: Standing, locks: Mapping[Place, Iterable[date]], planned: Sequence[Round]) -> Iterator[str]:
    """While one batch is locked down the machine must not turn, and is moister than the others want.

    locks: machine -> lockdowns that fall into one another there. planned: all settings of the plan.
    """
    hatchers = _hatchers(standing)
    for place, days in locks.items():
        on = [day_told(day, standing.keeper.region) for day in sorted(days)]
        told = f"lockdowns on {'; '.join(on)}"
        if len(on) > _MOST_NAMED:
            told = f"{len(on)} lockdowns from {on[0]} to {on[-1]}"
        cure = (
            f"On each of these days move what is due to {_named(hatchers)}, and keep that free for it."
            if hatchers
            else "Move what is due to a hatcher, or use another machine."
        )
        yield (
            f"{place.name} will hold eggs of several days, with {told}. While one batch is locked down, "
            f"the others still want turning. {cure}"
        )
    if locks and hatchers:
        region = standing.keeper.region
        yield from _room_words(hatchers, _in_hatchers(standing, hatchers, locks, planned), region)


def _hatchers(standing: Standing) -> list[Place]:
    found = [
        Place(key, place.name, None if place.capacity is None else int(place.capacity))
        for key, place in standing.places.items()
        if place.role == "hatcher"
    ]
    return sorted(found, key=lambda place: (place.name, place.id))


def _named(hatchers: Sequence[Place]) -> str:
    return " or ".join(one.name for one in hatchers)


def _in_hatchers(
    standing: Standing, hatchers: Sequence[Place], locks: Mapping[Place, Iterable[date]], planned: Sequence[Round]
) -> list[Held]:
    """What lies in a hatcher already, and what is to be moved there: from its lockdown to its last day."""
    there = [one for place in hatchers for one in running(standing, place)]
    for place in locks:
        coming = (*running(standing, place), *held_by(planned, place))
        there.extend(one._replace(begins=one.locks) for one in coming if one.n > 0)
    return there


def _room_words(hatchers: Sequence[Place], there: Sequence[Held], region: str | None) -> Iterator[str]:
    """Days on which more eggs are due there than it takes. No egg is taken to be removed before lockdown."""
    if any(one.capacity is None for one in hatchers):
        yield f"How many eggs {_named(hatchers)} takes is not written down: see that what is due finds room."
        return
    room = sum(one.capacity or 0 for one in hatchers)
    then = {day: sum(one.n for one in there if one.begins <= day <= one.ends) for day in {one.begins for one in there}}
    full = sorted(day for day, n in then.items() if n > room)
    if full:
        days = "; ".join(day_told(day, region) for day in full[:_MOST_NAMED])
        more = f" and {many(len(full) - _MOST_NAMED, 'more day')}" if len(full) > _MOST_NAMED else ""
        most = max(then[day] for day in full)
        yield (
            f"{_named(hatchers)} takes {many(room, 'egg')}, but up to {most} are due there on {days}{more}: let one of "
            "these batches hatch where it is, or set it on another day."
        )


def shared_words(places: Iterable[Place]) -> Iterator[str]:
    """Machines in which two species would lie together."""
    for place in sorted(places, key=lambda one: (one.name, one.id)):
        yield (
            f"{place.name} will hold eggs of two species at once, since no other machine is free then: each has "
            "its own days and its own air, so a machine for each is better."
        )
