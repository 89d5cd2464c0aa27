"""Rolling matings: old cocks with the pullets, young cocks with the old hens, every year anew, in one closed flock.

Half of a year's pullets come from each of the two pens; its cockerels come from the young cocks and the old hens. A
year later the cockerels are the cocks, the pullets the hens. The recursion is exact for birds drawn at random within
each pen and a flock that starts unrelated. Told for small flocks by C. Russell of the SPPA (quoted in magazines); the
curve is our own working, held to a simulation bird by bird.

>>> [round(100 * f, 1) for f in rolling_forecast(cocks=1, cockerels=1, hens=6, pullets=6, years=4)]
[0.0, 6.2, 12.6, 16.5]
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.float64]
COCKS, COCKERELS, HENS_OLD, HENS_YOUNG, PULLETS_OLD, PULLETS_YOUNG = range(6)
"""Groups: hens and pullets are told apart by whether an old or a young cock got them."""

_Draw = Mapping[int, float]
# New group -> the groups its sires and its dams are drawn from.
_OLD_PEN: tuple[_Draw, _Draw] = ({COCKS: 1.0}, {PULLETS_OLD: 0.5, PULLETS_YOUNG: 0.5})
_YOUNG_PEN: tuple[_Draw, _Draw] = ({COCKERELS: 1.0}, {HENS_OLD: 0.5, HENS_YOUNG: 0.5})
_BRED = {COCKERELS: _YOUNG_PEN, PULLETS_OLD: _OLD_PEN, PULLETS_YOUNG: _YOUNG_PEN}
_GROWN = {COCKS: COCKERELS, HENS_OLD: PULLETS_OLD, HENS_YOUNG: PULLETS_YOUNG}


@dataclass(frozen=True, slots=True)
class _Groups:
    """among: mean kinship of two different birds of two groups. own: mean F of each group. sizes: birds in each."""

    among: Matrix
    own: Matrix
    sizes: Sequence[float]


def rolling_forecast(*, cocks: int, cockerels: int, hens: int, pullets: int, years: int) -> list[float]:
    """Mean F of each year's pullets, from the first year on. Numbers of birds kept each year, at least 1 of each."""
    sizes = (cocks, cockerels, max(1.0, hens / 2), max(1.0, hens / 2), max(1.0, pullets / 2), max(1.0, pullets / 2))
    groups = _Groups(np.zeros((6, 6)), np.zeros(6), sizes)
    curve = []
    for _ in range(years):
        groups = _next_year(groups)
        curve.append(float((groups.own[PULLETS_OLD] + groups.own[PULLETS_YOUNG]) / 2))
    return curve


def _next_year(now: _Groups) -> _Groups:
    among, own = np.zeros((6, 6)), np.zeros(6)
    for group, (sires, dams) in _BRED.items():
        own[group] = _drawn(now, sires, dams)
        for other, (their_sires, their_dams) in _BRED.items():
            among[group, other] = (
                _drawn(now, sires, their_sires)
                + _drawn(now, sires, their_dams)
                + _drawn(now, dams, their_sires)
                + _drawn(now, dams, their_dams)
            ) / 4
        for grown, was in _GROWN.items():
            among[group, grown] = (_drawn(now, sires, {was: 1.0}) + _drawn(now, dams, {was: 1.0})) / 2
            among[grown, group] = among[group, grown]
    for grown, was in _GROWN.items():
        own[grown] = now.own[was]
        for other, was_other in _GROWN.items():
            among[grown, other] = now.among[was, was_other]
    return _Groups(among, own, now.sizes)


def _drawn(now: _Groups, one: _Draw, other: _Draw) -> float:
    """Kinship of two birds drawn apart from each other, which may be one and the same bird."""
    total = 0.0
    for group, share in one.items():
        for across, part in other.items():
            kin = float(now.among[group, across])
            if group == across:
                same = 1 / now.sizes[group]
                kin = same * float(1 + now.own[group]) / 2 + (1 - same) * kin
            total += share * part * kin
    return total
