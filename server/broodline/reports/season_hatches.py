"""When the hatches of a season came out, each beside what is usual for its species."""

from collections.abc import Sequence
from typing import Any

from broodline.book.moments import HOUR_MS, instant
from broodline.book.standing import Setting, Standing
from broodline.reports.hatch import fit_of, looks_at_hatch
from broodline.trade.calendar import local_date
from broodline.trade.hatch_forecast import forecast


def season_hatches(standing: Standing, settings: Sequence[Setting]) -> list[dict[str, Any]]:
    """[{setting, place_name, set_on, species, hatched, first_h, median_h, last_h, usual_h}] in order of setting.

    Hours since the eggs were set; first and last are the looks at which the first and the last chick so far were seen.
    median_h is None where the looks cannot tell a curve, usual_h where the species' hours are not known. Hatches that
    were only counted, at one look, have no window and are left out, for nobody saw when they came.
    """
    rows = []
    for setting in settings:
        lots = [standing.lots[name] for name in setting.lots]
        looks = looks_at_hatch(setting, lots)
        seen = [look for look in looks if look.n]
        if not seen or len(looks) < 2:
            continue
        place = standing.places.get(setting.place)
        fit = fit_of(setting, lots)
        usual = forecast(setting.species, ())
        rows.append(
            {
                "setting": setting.id,
                "place_name": place.name if place is not None else None,
                "set_on": local_date(instant(setting.set_at_ms), standing.keeper.zone),
                "species": setting.species,
                "hatched": sum(look.n for look in seen),
                "first_h": (seen[0].at_ms - setting.set_at_ms) / HOUR_MS,
                "median_h": None if fit is None else fit.median_h,
                "last_h": (seen[-1].at_ms - setting.set_at_ms) / HOUR_MS,
                "usual_h": None if usual is None else [usual.from_h, usual.to_h],
            }
        )
    return rows
