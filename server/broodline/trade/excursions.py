"""Spells outside the band of the air, with value and duration, and falls that look like a power cut.

Readings are distances from the target, so that species, air and gauge height are already in them. Between readings the
air is taken to change in a straight line; over gaps of more than 12 hours nothing is known. Tiers as in climate.py.

    >>> found = excursions([Reading(1, 0.0), Reading(5, 2.8), Reading(9, 0.0)])
    >>> [(spell.way, round(spell.from_h, 1), round(spell.until_h, 1), spell.tier) for spell in found]
    [('hot', 3.0, 7.0, 'red')]
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import Literal

from broodline.trade.climate import (
    AMBER_ABOVE_C,
    AMBER_BELOW_C,
    CUT_FALL_C,
    CUT_GAP_TIMES,
    CUT_LEAST_GAP_H,
    LONGEST_GAP_H,
    RED_ABOVE_C,
    RED_BELOW_C,
    Tier,
    tier,
)

Way = Literal["hot", "cold"]
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Reading:
    """at_h: hours since setting, rising. off_c: degrees Celsius above the target, below it negative."""

    at_h: float
    off_c: float


@dataclass(frozen=True, slots=True)
class Excursion:
    """A spell outside the band. worst_off_c: its furthest reading. still: no later reading says that it ended."""

    way: Way
    from_h: float
    until_h: float
    worst_off_c: float
    worst_at_h: float
    tier: Tier
    still: bool


@dataclass(frozen=True, slots=True)
class Cut:
    """A fall between two readings, after a longer silence than usual, that looks like a power cut."""

    from_h: float
    until_h: float
    fell_c: float


def excursions(readings: Sequence[Reading]) -> list[Excursion]:
    """All spells outside the band, in order of their beginning. readings: of one machine and one phase."""
    hot = _spells(readings, "hot", 1, AMBER_ABOVE_C, RED_ABOVE_C)
    cold = _spells(readings, "cold", -1, AMBER_BELOW_C, RED_BELOW_C)
    return sorted([*hot, *cold], key=lambda spell: (spell.from_h, spell.until_h))


def hours_beyond(readings: Sequence[Reading], above_c: float, below_c: float) -> float:
    """Hours further above or below the target than that, by straight lines between readings."""
    total = 0.0
    for one, other in _known(readings):
        low, high = sorted((one.off_c, other.off_c))
        total += (other.at_h - one.at_h) * (_part_over(low, high, above_c) + _part_over(-high, -low, below_c))
    return total


def hours_known(readings: Sequence[Reading]) -> float:
    """Hours between readings that lie close enough together to say something.

    >>> hours_known([Reading(1, 0), Reading(5, 0), Reading(100, 0)])
    4
    """
    return sum(other.at_h - one.at_h for one, other in _known(readings))


def suspected_cuts(readings: Sequence[Reading]) -> list[Cut]:
    """Falls from the band to well below it over a gap of at least twice the usual spacing, and at least an hour."""
    gaps = [other.at_h - one.at_h for one, other in pairwise(readings)]
    if len(gaps) < 2:
        return []
    silence = max(CUT_LEAST_GAP_H, CUT_GAP_TIMES * median(gaps))
    return [
        Cut(one.at_h, other.at_h, one.off_c - other.off_c)
        for one, other in pairwise(readings)
        if other.at_h - one.at_h >= silence
        and one.off_c >= -AMBER_BELOW_C
        and other.off_c < -AMBER_BELOW_C
        and one.off_c - other.off_c >= CUT_FALL_C
    ]


def _known(readings: Sequence[Reading]) -> Iterator[tuple[Reading, Reading]]:
    return ((one, other) for one, other in pairwise(readings) if 0 < other.at_h - one.at_h <= LONGEST_GAP_H)


def _spells(readings: Sequence[Reading], way: Way, sign: int, amber_c: float, red_c: float) -> Iterator[Excursion]:
    """Spells to one side. sign: 1 above, -1 below."""
    spell: list[Reading] = []
    for number, one in enumerate(readings):
        if sign * one.off_c <= amber_c + _SLACK:
            continue
        spell.append(one)
        after = readings[number + 1] if number + 1 < len(readings) else None
        if after is not None and after.at_h - one.at_h <= LONGEST_GAP_H and sign * after.off_c > amber_c + _SLACK:
            continue
        before = readings[number - len(spell)] if number >= len(spell) else None
        crossed_in = before is not None and spell[0].at_h - before.at_h <= LONGEST_GAP_H
        known_after = after is not None and after.at_h - one.at_h <= LONGEST_GAP_H
        run = [*([before] if before and crossed_in else []), *spell, *([after] if after and known_after else [])]
        worst = max(spell, key=lambda reading: (sign * reading.off_c, -reading.at_h))
        over_red = hours_beyond(run, *((red_c, float("inf")) if sign > 0 else (float("inf"), red_c)))
        yield Excursion(
            way,
            _crossing(run[0], run[1], sign * amber_c) if crossed_in else spell[0].at_h,
            _crossing(run[-2], run[-1], sign * amber_c) if known_after else one.at_h,
            worst.off_c,
            worst.at_h,
            tier(worst.off_c, over_red) or "amber",
            not known_after,
        )
        spell = []


def _crossing(one: Reading, other: Reading, limit_c: float) -> float:
    """When a straight line between two readings passes the limit, which lies between them."""
    return one.at_h + (other.at_h - one.at_h) * (limit_c - one.off_c) / (other.off_c - one.off_c)


def _part_over(low: float, high: float, limit: float) -> float:
    """The part of a straight run from low to high that lies over the limit."""
    if high <= limit:
        return 0.0
    return 1.0 if low >= limit else (high - limit) / (high - low)
