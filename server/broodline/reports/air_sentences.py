"""The air a setting had in sentences: its phases, each spell outside the band, power cuts. For print and terminal."""

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.book.told_days import told_alone
from broodline.trade.calendar import local_time
from broodline.trade.counted import many
from broodline.trade.units import temperature_told


def air_sentences(air: Mapping[str, Any], standing: Standing) -> Iterator[str]:
    """air: as `setting_air.air_json` tells it. Temperatures in the keeper's degrees, times in the keeper's zone."""
    degrees = _degrees(standing)
    for phase in air["phases"]:
        yield _phase(phase, degrees)
    for spell in air["excursions"]:
        ended = ", and no reading within half a day says when it ended" if spell["still"] else ""
        yield (
            f"{_when(spell['from'], standing)}: too {'warm' if spell['way'] == 'hot' else 'cool'} for "
            f"{spell['hours']:.1f} hours, {degrees(spell['dry_c'])} at worst ({spell['tier']}){ended}."
        )
    for cut in air["outages"]:
        length = "until now" if cut["hours"] is None else f"for {cut['hours']:.1f} hours"
        guess = "" if cut["told"] else " (nobody entered it: the readings fell after a silence)"
        yield (
            f"{_when(cut['from'], standing)}: no power {length}{guess}. Candle again "
            f"{' to '.join(told_alone(day, standing.keeper.region) for day in cut['candle_again'])}."
        )


def _phase(phase: Mapping[str, Any], degrees: Callable[[float], str]) -> str:
    if phase["band_c"] is None:
        return (
            f"{phase['phase'].capitalize()}: {many(phase['readings'], 'reading')}; no target is known for this species."
        )
    low, high = phase["band_c"]
    return (
        f"{phase['phase'].capitalize()}: {many(phase['readings'], 'reading')} against {degrees(phase['target_c'])}, "
        f"{phase['readings_out'] or 'none'} of them outside {degrees(low)} to {degrees(high)}. {_hours(phase)}"
    )


def _hours(phase: Mapping[str, Any]) -> str:
    """As far as readings tell: those more than half a day apart say nothing of the time between."""
    if phase["hours_in"] + phase["hours_out"] == 0:
        return "They lie too far apart to say anything of the hours between."
    return f"As far as they tell {phase['hours_in']:.0f} hours inside, {phase['hours_out']:.0f} outside."


def _degrees(standing: Standing) -> Callable[[float], str]:
    return lambda celsius: temperature_told(celsius, standing.keeper.temperature)


def _when(moment: str, standing: Standing) -> str:
    told = local_time(datetime.fromisoformat(moment), standing.keeper.zone)
    return told_alone(told, standing.keeper.region)
