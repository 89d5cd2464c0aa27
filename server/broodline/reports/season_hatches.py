"""When the hatches of a season came out, each beside what is usual for its species; and which of them cannot say."""

from collections.abc import Sequence
from typing import Any

from broodline.book.moments import HOUR_MS, instant
from broodline.book.own_words import OwnWords
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Setting, Standing
from broodline.book.told_days import day_told
from broodline.reports.hatch import HatchLook, fit_of, looks_at_hatch
from broodline.trade.calendar import local_date
from broodline.trade.hatch_forecast import forecast


def season_hatches(standing: Standing, settings: Sequence[Setting]) -> list[dict[str, Any]]:
    """[{setting, place_name, set_on, set_words, species, hatched, first_h, median_h, last_h, usual_h}] in order of
    setting.

    Hours since the eggs were set; first and last are the looks at which the first and the last chick so far were seen.
    median_h is None where the looks cannot tell a curve, usual_h where the species' hours are not known. Hatches that
    were only counted, at one look, have no window and are left out, for nobody saw when they came.
    """
    rows = []
    for setting in settings:
        lots = [standing.lots[name] for name in setting.lots]
        looks = looks_at_hatch(setting, lots)
        if not _has_window(looks):
            continue
        seen = [look for look in looks if look.n]
        place = standing.places.get(setting.place)
        fit = fit_of(setting, lots)
        usual = forecast(setting.species, ())
        set_on = local_date(instant(setting.set_at_ms), standing.keeper.zone)
        rows.append(
            {
                "setting": setting.id,
                "place_name": place.name if place is not None else None,
                "set_on": set_on,
                "set_words": day_told(set_on, standing.keeper.region),
                "species": setting.species,
                "hatched": sum(look.n for look in seen),
                "first_h": (seen[0].at_ms - setting.set_at_ms) / HOUR_MS,
                "median_h": None if fit is None else fit.median_h,
                "last_h": (seen[-1].at_ms - setting.set_at_ms) / HOUR_MS,
                "usual_h": None if usual is None else [usual.from_h, usual.to_h],
            }
        )
    return rows


def hatches_left_out(standing: Standing, settings: Sequence[Setting], own: OwnWords) -> dict[str, Any]:
    """{once, none, running, words}: the settings of a season that have no window, and why.

    once: chicks came, but were counted at one look. none: over without a chick. running: eggs in, no chick yet.
    """
    once = none = running = 0
    for setting in settings:
        looks = looks_at_hatch(setting, [standing.lots[name] for name in setting.lots])
        if _has_window(looks):
            continue
        if any(look.n for look in looks) or any(setting.stages.get(stage, 0) > 0 for stage in CHICK_STAGES):
            once += 1
        elif setting.runs:
            running += 1
        else:
            none += 1
    told = []
    if once:
        told.append(f"{_counted(once, own)} whose chicks were counted at one look, so that nobody saw when they came")
    if none:
        told.append(f"{_counted(none, own)} without a chick")
    if running:
        told.append(f"{_counted(running, own)} still in the machine without a chick")
    words = f"Left out: {'; '.join(told)}." if told else ""
    return {"once": once, "none": none, "running": running, "words": words}


def _has_window(looks: Sequence[HatchLook]) -> bool:
    return len(looks) > 1 and any(look.n for look in looks)


def _counted(n: int, own: OwnWords) -> str:
    return f"{n} {own.setting if n == 1 else own.settings}"
