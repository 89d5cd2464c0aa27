"""Water loss of a setting from its weighings: points, the pace, where it leads by lockdown, and what to change.

Per egg and net of tare, in percent of the first weighing. The scales outrank the hygrometer: first which way, then how
much, and only while the whole projection lies outside the corridor and three days remain.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any, cast

from broodline.book.bodies_eggs import EggsWeighed
from broodline.book.moments import DAY_MS, instant
from broodline.book.problems import Problem
from broodline.book.standing import Head, Setting, Standing
from broodline.reports.readings import SettingAir
from broodline.trade.calendar import day_of
from broodline.trade.counted import many
from broodline.trade.sources import origin
from broodline.trade.species import species_named
from broodline.trade.thin_air import HOME, RULE, brought_up, brought_up_words
from broodline.trade.weight_loss import Advice, advise, loss_pct, loss_target, project, scale_error_pct


@dataclass(frozen=True, slots=True)
class LossPoint:
    """Loss on a day since setting, percent of that tray's first weighing; since_day: the day of that first weighing."""

    day: float
    loss_pct: float
    lot: str | None
    since_day: float


@dataclass(frozen=True, slots=True)
class Weighings:
    """points: in order of day. error_pct: what one step of the scale means in percent of the smallest tray.

    notes: where the number of eggs on a tray changed.
    """

    points: tuple[LossPoint, ...]
    error_pct: float
    problems: tuple[Problem, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Tray:
    """Mass of an egg net of the tray, how many lay on it, and the day since setting."""

    egg_g: float
    n: int
    day: float


def weighings_of(standing: Standing, setting: Setting) -> Weighings:
    """The weighings of a setting, tray by tray; those that cannot be are told and left out."""
    heads = _heads(standing, setting)
    step_g = min((_step_g(cast(EggsWeighed, head.body)) for head in heads), default=1.0)
    first: dict[str | None, _Tray] = {}
    before: dict[str | None, _Tray] = {}
    points: list[LossPoint] = []
    problems: list[Problem] = []
    notes: list[str] = []
    error_pct = 0.0
    for head in heads:
        body = cast(EggsWeighed, head.body)
        tray = _Tray((body.gross_g - body.tare_g) / body.n, body.n, (head.at_ms - setting.set_at_ms) / DAY_MS)
        if tray.egg_g <= 0 or body.tare_g < 0:
            problems.append(_fault("tare_over_gross", head, _no_weight_words(body)))
            continue
        if tray.day < -1:
            problems.append(_fault("weighed_before_setting", head, "These eggs were weighed before they were set."))
            continue
        start = first.setdefault(body.lot, tray)
        error_pct = max(error_pct, scale_error_pct(step_g, start.egg_g, body.n))
        if _has_gained(before.get(body.lot, start), tray, step_g) or tray.egg_g > start.egg_g + step_g / tray.n:
            problems.append(_fault("weight_gained", head, _gained_words(before.get(body.lot, start), tray)))
            continue
        if tray.n != before.get(body.lot, tray).n:
            notes.append(
                f"{many(tray.n, 'egg')} on day {tray.day:.0f}, {before[body.lot].n} the time before: "
                "reckoned for each egg."
            )
        before[body.lot] = tray
        lost = loss_pct(start.egg_g, min(tray.egg_g, start.egg_g))
        points.append(LossPoint(max(0.0, tray.day), lost, body.lot, max(0.0, start.day)))
    return Weighings(tuple(points), error_pct, tuple(problems), tuple(notes))


def _has_gained(before: "_Tray", tray: "_Tray", step_g: float) -> bool:
    """Whether the same number of eggs weighs more than the time before, by more than the scale's step."""
    return before.n == tray.n and tray.egg_g * tray.n > before.egg_g * before.n + step_g


def _no_weight_words(body: EggsWeighed) -> str:
    if body.gross_g <= 0:
        return f"{body.gross_g:g} g is no weight of a tray with eggs on it."
    return "The empty tray weighs as much as the full one, or more."


def _gained_words(before: "_Tray", tray: "_Tray") -> str:
    return (
        f"Eggs do not gain weight, yet these weigh {tray.egg_g:.1f} g each on day {tray.day:.0f} and weighed "
        f"{before.egg_g:.1f} g on day {max(0.0, before.day):.0f}."
    )


def weight_loss_json(setting: Setting, weighed: Weighings, air: SettingAir, now: datetime) -> dict[str, Any] | None:
    """The loss line of a setting; None where nothing was weighed. air: what its hygrometer said.

    projected_pct: by lockdown, with its 95 % band where the points or the scale give one. error_pct: of one loss.
    """
    if not weighed.points:
        return None
    species = species_named(setting.species)
    lockdown = setting.lockdown_day
    if lockdown is None and species is not None:
        lockdown = species.lockdown_day
    target = loss_target(setting.species, lockdown) if lockdown is not None else None
    found = project(_line_points(weighed.points), weighed.error_pct, lockdown) if lockdown is not None else None
    advice = None
    if found is not None and lockdown is not None and setting.runs and setting.locked_at_ms is None:
        today = day_of(instant(setting.set_at_ms), now)
        last_day = weighed.points[-1].day
        advice = advise(setting.species, found, last_day, today, lockdown, air.last_humidity_pct)
    return {
        "target_pct": target.target_pct if target else None,
        "corridor_pct": [target.low_pct, target.high_pct] if target else None,
        "by_day": lockdown,
        "points": [{"day": one.day, "loss_pct": one.loss_pct, "lot": one.lot} for one in weighed.points],
        "error_pct": weighed.error_pct,
        "projected_pct": found.middle_pct if found else None,
        "projected_band_pct": [found.low_pct, found.high_pct] if found else None,
        "advice": advice and _with_gauge(advice, air),
        "humidity_pct": advice and advice.humidity_pct,
        "notes": list(weighed.notes),
        "source": origin(target) if target else None,
    }


def brought_up_json(standing: Standing, setting: Setting, air: SettingAir) -> dict[str, Any] | None:
    """What eggs from lower ground need at the keeper's height: {altitude_m, more_pct, humidity_pct, words, sources}.

    None where no batch came from elsewhere, the height is not known or low, or the eggs rest for the hatch.
    """
    altitude_m = standing.keeper.altitude_m
    came = any(standing.lots[lot].bought_in for lot in setting.lots)
    if altitude_m is None or not came or setting.locked_at_ms is not None or not -500 <= altitude_m <= 11_000:
        return None
    found = brought_up(altitude_m, air.last_humidity_pct)
    if found is None:
        return None
    return {
        "altitude_m": altitude_m,
        "more_pct": found.more_pct,
        "from_pct": found.from_pct,
        "humidity_pct": found.humidity_pct,
        "words": brought_up_words(found, f"{altitude_m:.0f} m"),
        "sources": [origin(RULE), origin(HOME)],
    }


def _with_gauge(advice: Advice, air: SettingAir) -> str:
    """The advice; where it rests on a hygrometer nobody checked this season, that is said."""
    if advice.code == "wide" or air.last_humidity_pct is None or air.humidity_checked:
        return advice.words
    return f"{advice.words} The hygrometer was not checked this season."


def _heads(standing: Standing, setting: Setting) -> list[Head]:
    found = [
        head
        for head in standing.heads.get("eggs_weighed", ())
        for named in (cast(EggsWeighed, head.body).setting,)
        if standing.root_of.get(named, named) == setting.id
    ]
    return sorted(found, key=lambda head: (head.at_ms, head.id))


def _line_points(points: Sequence[LossPoint]) -> list[tuple[float, float]]:
    """Day and loss. Trays first weighed after day 0 are counted from their first weighing."""
    return [(one.day - one.since_day if one.since_day >= 1 else one.day, one.loss_pct) for one in points]


def _step_g(body: EggsWeighed) -> float:
    """The scale's step, read off the digits it was written with: 1 g, 0.1 g, ..."""
    places = max(0, *(-_exponent(reading) for reading in (body.gross_g, body.tare_g)))
    return float(10.0**-places)


def _exponent(reading: float) -> int:
    exponent = Decimal(repr(reading)).normalize().as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def _fault(code: str, head: Head, message: str) -> Problem:
    return Problem(code, head.id, message, "Correct the weighing, or take it back. The rest of the line stands.")
