"""The air a setting had: hours in and out of its band by phase, each spell outside, power cuts, gauges, what to do."""

from collections.abc import Mapping, Sequence
from typing import Any

from broodline.book.moments import HOUR_MS, instant
from broodline.book.standing import Lot, Setting, Standing
from broodline.book.told_days import day_told
from broodline.reports.outages import Outage, outages_of
from broodline.reports.readings import AirReading, Gauge, SettingAir, place_in, place_of
from broodline.trade.calendar import instant_text, local_date
from broodline.trade.climate import AMBER_ABOVE_C, AMBER_BELOW_C, RED_BELOW_C, Stage, target_c, tier
from broodline.trade.excursions import Excursion, Reading, excursions, hours_beyond, hours_known
from broodline.trade.sources import cell, origin, read_table
from broodline.trade.units import warmer_told

PHASES: tuple[Stage, ...] = ("setter", "hatcher")
_GUIDANCE = read_table("guidance")
_ALARMS = read_table("alarms")
_GAUGE_WORDS = {"dry": "thermometer", "wet": "wet bulb", "humidity": "hygrometer"}


def air_json(standing: Standing, setting: Setting, lots: Sequence[Lot], air: SettingAir) -> dict[str, Any] | None:
    """hours_out: outside the band; worst: the reading furthest from the target; readings: how many.

    None without a reading or power cut. phases, excursions, outages, gauges and guidance say more. Times are UTC.
    """
    raw = {phase: _points(setting, air.readings, phase) for phase in PHASES}
    outages = outages_of(standing, setting, lots, raw)
    if not air.readings and not outages:
        return None
    points = {phase: _until_the_cut(setting, raw[phase], outages) for phase in PHASES}
    spells = {phase: excursions(points[phase]) for phase in PHASES}
    known = [one for one in air.readings if one.off_c is not None]
    hours_out = sum(_hours_out(own) for own in points.values())
    return {
        "hours_out": hours_out if known else None,
        "worst": _worst(known, points),
        "readings": len(air.readings),
        "last_humidity_pct": air.last_humidity_pct,
        "gauge_checked": any(gauge.checked_ms is not None for gauge in air.gauges),
        "phases": [row for phase in PHASES for row in _phase(standing, setting, air.readings, phase, points[phase])],
        "excursions": [_spell_json(standing, setting, phase, spell) for phase in PHASES for spell in spells[phase]],
        "outages": [_outage_json(standing, one) for one in outages],
        "gauges": [_gauge_json(standing, gauge) for gauge in air.gauges],
        "guidance": _guidance([spell for own in spells.values() for spell in own], outages),
        "judgement": _ALARMS["judgement"],
        "published": [
            {"words": f"{_range(one['value'])} {one['unit']}", "source": origin(cell(one))}
            for one in _ALARMS["published"]
        ],
    }


def _points(setting: Setting, readings: Sequence[AirReading], phase: Stage) -> list[Reading]:
    return [
        Reading((one.at_ms - setting.set_at_ms) / HOUR_MS, one.off_c)
        for one in readings
        if one.phase == phase and one.off_c is not None
    ]


def _hours_out(points: Sequence[Reading]) -> float:
    return hours_beyond(points, AMBER_ABOVE_C, AMBER_BELOW_C)


def _until_the_cut(setting: Setting, points: Sequence[Reading], outages: Sequence[Outage]) -> list[Reading]:
    """With a point at each power cut that was entered: until then the air was as it was read last."""
    held = list(points)
    for from_h in ((one.from_ms - setting.set_at_ms) / HOUR_MS for one in outages if one.told):
        before = [one for one in points if one.at_h < from_h]
        if before and len(before) < len(points):
            held.append(Reading(from_h, before[-1].off_c))
    return sorted(held, key=lambda one: one.at_h)


def _worst(known: Sequence[AirReading], points: Mapping[Stage, Sequence[Reading]]) -> dict[str, Any] | None:
    worst = max(known, key=lambda one: (abs(one.off_c or 0.0), -one.at_ms), default=None)
    if worst is None or worst.off_c is None:
        return None
    cold = hours_beyond(points[worst.phase], float("inf"), RED_BELOW_C)
    return {
        "at": instant_text(instant(worst.at_ms)),
        "dry_c": worst.dry_c,
        "off_c": worst.off_c,
        "tier": tier(worst.off_c, cold),
    }


def _phase(
    standing: Standing, setting: Setting, readings: Sequence[AirReading], phase: Stage, points: Sequence[Reading]
) -> list[dict[str, Any]]:
    """How long the air of a phase was in its band and out of it, as far as readings tell; nothing without readings."""
    own = [one for one in readings if one.phase == phase]
    if not own:
        return []
    target = _target(standing, setting, phase)
    hours, out = hours_known(points), _hours_out(points)
    return [
        {
            "phase": phase,
            "place": place_in(setting, phase),
            "readings": len(own),
            "readings_out": sum(one.off_c is not None and tier(one.off_c) is not None for one in own),
            "target_c": target,
            "band_c": None if target is None else [target - AMBER_BELOW_C, target + AMBER_ABOVE_C],
            "hours_in": None if target is None else hours - out,
            "hours_out": None if target is None else out,
        }
    ]


def _target(standing: Standing, setting: Setting, phase: Stage) -> float | None:
    place = place_of(standing, place_in(setting, phase))
    return target_c(setting.species, phase, None if place is None else place.air)


def _spell_json(standing: Standing, setting: Setting, phase: Stage, spell: Excursion) -> dict[str, Any]:
    """still: no later reading says that it ended. off_c: the furthest reading from the target."""
    return {
        "phase": phase,
        "place": place_in(setting, phase),
        "way": spell.way,
        "from": _moment(setting, spell.from_h),
        "until": _moment(setting, spell.until_h),
        "hours": spell.until_h - spell.from_h,
        "still": spell.still,
        "dry_c": (_target(standing, setting, phase) or 0.0) + spell.worst_off_c,
        "off_c": spell.worst_off_c,
        "tier": spell.tier,
    }


def _outage_json(standing: Standing, outage: Outage) -> dict[str, Any]:
    """told: by an entry, else guessed from a silence and a fall. candle_again: dates in the holding's zone."""
    zone = standing.keeper.zone
    days = cell(_GUIDANCE["candle_after_cut"]).value
    again = [local_date(instant(outage.from_ms + day * 24 * HOUR_MS), zone) for day in days]
    hours = None if outage.until_ms is None else (outage.until_ms - outage.from_ms) / HOUR_MS
    return {
        "from": instant_text(instant(outage.from_ms)),
        "until": None if outage.until_ms is None else instant_text(instant(outage.until_ms)),
        "hours": hours,
        "told": outage.told,
        "place": outage.place,
        "fell_c": outage.fell_c,
        "candle_again": again,
    }


def _gauge_json(standing: Standing, gauge: Gauge) -> dict[str, Any]:
    known = place_of(standing, gauge.place)
    name = f"The {_GAUGE_WORDS[gauge.name]} of {known.name if known is not None else 'an unknown place'}"
    if gauge.checked_ms is None:
        on, words = None, f"{name} was not checked this season."
    else:
        on = local_date(instant(gauge.checked_ms), standing.keeper.zone)
        off = gauge.off or 0.0
        by = f"{off:+.1f} %" if gauge.name == "humidity" else warmer_told(off, standing.keeper.temperature, "+")
        day = day_told(on, standing.keeper.region)
        words = f"{name} was checked on {day}; readings after that are put right by {by}."
    return {"place": gauge.place, "gauge": gauge.name, "checked_on": on, "off": gauge.off, "words": words}


def _guidance(spells: Sequence[Excursion], outages: Sequence[Outage]) -> list[dict[str, Any]]:
    """What to do and what may follow, for what happened; both machines' rows where the machine is not known."""
    topics = [way for way in ("hot", "cold") if any(spell.way == way for spell in spells)]
    if outages:
        airs = {one.air for one in outages}
        topics += ["power_cut", *(f"power_cut_{air}" for air in ("forced", "still") if {air, None} & airs)]
    return [
        {"about": topic, "words": row["value"], "source": origin(cell(row))}
        for topic in topics
        for row in _GUIDANCE[topic]
    ]


def _range(value: Any) -> str:
    return " to ".join(f"{one:g}" for one in value) if isinstance(value, list) else f"{value:g}"


def _moment(setting: Setting, hours: float) -> str:
    return instant_text(instant(setting.set_at_ms + round(hours * HOUR_MS)))
