"""Power cuts of a setting: those that were entered, and falls of the readings that look like one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, cast

from broodline.book.bodies_rooms import Outage as OutageBody
from broodline.book.moments import HOUR_MS, moment_ms
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.readings import end_of, phase_at, place_in, place_of, root
from broodline.trade.climate import Stage
from broodline.trade.excursions import Reading, suspected_cuts


@dataclass(frozen=True, slots=True)
class Outage:
    """until_ms: None while it lasts. told: entered, else guessed. air: of the machine, None where not known."""

    from_ms: int
    until_ms: int | None
    told: bool
    place: str
    air: Literal["forced", "still"] | None
    fell_c: float | None


def outages_of(
    standing: Standing, setting: Setting, lots: Sequence[Lot], points: Mapping[Stage, Sequence[Reading]]
) -> list[Outage]:
    """In order of time. A guessed one that an entered one overlaps is the same. points: readings by phase."""
    told = _told(standing, setting, lots)
    guessed = []
    for phase, own in points.items():
        for cut in suspected_cuts(own):
            from_ms, until_ms = (setting.set_at_ms + round(at * HOUR_MS) for at in (cut.from_h, cut.until_h))
            if not any(one.from_ms <= until_ms and (one.until_ms is None or one.until_ms >= from_ms) for one in told):
                guessed.append(_outage(standing, place_in(setting, phase), from_ms, until_ms, False, cut.fell_c))
    return sorted([*told, *guessed], key=lambda one: (one.from_ms, one.until_ms or 0, one.told))


def _told(standing: Standing, setting: Setting, lots: Sequence[Lot]) -> list[Outage]:
    """Entered ones that touch the time the eggs stood at a place that had no power; no place named means everywhere."""
    end_ms = end_of(setting, lots)
    found = []
    for head in standing.heads.get("outage", ()):
        body = cast(OutageBody, head.body)
        from_ms = moment_ms(body.from_)
        until_ms = None if body.until is None else moment_ms(body.until)
        place = place_in(setting, phase_at(setting, from_ms))
        here = not body.places or place in {root(standing, name) for name in body.places}
        begun = until_ms is None or until_ms >= max(setting.set_at_ms, from_ms)
        if here and begun and (end_ms is None or from_ms <= end_ms):
            found.append(_outage(standing, place, from_ms, until_ms, True, None))
    return found


def _outage(
    standing: Standing, place: str, from_ms: int, until_ms: int | None, told: bool, fell_c: float | None
) -> Outage:
    known = place_of(standing, place)
    return Outage(from_ms, until_ms, told, place, None if known is None else known.air, fell_c)
