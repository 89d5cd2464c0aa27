"""When a setting's hatch is likely: the species' window, moved and narrowed by the incubator's own earlier hatches."""

from collections.abc import Sequence
from datetime import timedelta
from itertools import islice
from typing import Any

from broodline.book.moments import instant
from broodline.book.standing import Setting, Standing
from broodline.book.told_days import told_alone
from broodline.reports.hatch import fit_of
from broodline.trade.calendar import instant_text, later, local_time
from broodline.trade.hatch_forecast import HATCHES_USED, Earlier, Forecast, forecast, middle_h


def forecast_json(standing: Standing, setting: Setting) -> dict[str, Any] | None:
    """{from_h, median_h, to_h, from, to, shift_h, hatches, species: {from_h, to_h}, words}; None for unknown species.

    from, to: 5 and 95 % hatched, UTC. hatches: how many earlier hatches of this incubator and species it rests on.
    """
    usual = forecast(setting.species, [])
    found = forecast(setting.species, earlier_hatches(standing, setting))
    if usual is None or found is None:
        return None
    set_at = instant(setting.set_at_ms)
    ends = [later(set_at, timedelta(hours=hours)) for hours in (found.from_h, found.to_h)]
    zone = standing.keeper.zone
    return {
        "from_h": found.from_h,
        "median_h": found.median_h,
        "to_h": found.to_h,
        "from": instant_text(ends[0]),
        "to": instant_text(ends[1]),
        "shift_h": found.shift_h,
        "hatches": found.hatches,
        "species": {"from_h": usual.from_h, "to_h": usual.to_h},
        "words": _words(found, [told_alone(local_time(end, zone), standing.keeper.region) for end in ends]),
    }


def earlier_hatches(standing: Standing, setting: Setting) -> list[Earlier]:
    """The latest hatches of eggs of this species set before these in the same incubator, those whose looks told one."""
    before = [
        other
        for other in standing.settings.values()
        if (other.set_at_ms, other.id) < (setting.set_at_ms, setting.id)
        and (other.place, other.species) == (setting.place, setting.species)
    ]
    latest_first = sorted(before, key=lambda one: (one.set_at_ms, one.id), reverse=True)
    fits = (fit_of(other, [standing.lots[name] for name in other.lots]) for other in latest_first)
    middle = middle_h(setting.species) or 0.0
    told = (Earlier(fit.median_h - middle, fit.sd_h) for fit in fits if fit is not None)
    return list(islice(told, HATCHES_USED))


def _words(found: Forecast, ends: Sequence[str]) -> str:
    said = f"Nine of ten chicks are likely between {ends[0]} and {ends[1]}."
    if not found.hatches:
        return f"{said} By the species alone: no earlier hatch of this incubator is known."
    way = "later" if found.shift_h > 0 else "earlier"
    hatches = "1 earlier hatch" if found.hatches == 1 else f"{found.hatches} earlier hatches"
    hours = round(abs(found.shift_h))
    moved = f"{hours} hour{'' if hours == 1 else 's'} {way} than" if hours else "at"
    return (
        f"{said} That rests on {hatches} in this incubator: {moved} the species' usual time. With few hatches it moves "
        "little."
    )
