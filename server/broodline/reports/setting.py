"""The whole story of one setting: calendar, lots, rates, the hatch, the weighings, the air, the losses."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from broodline.book.moments import instant
from broodline.book.problems import Problem
from broodline.book.standing import Lot, Setting, Standing
from broodline.errors import NotFound
from broodline.reports.hatch import hatch_json, moves_out_of_shell, weak_and_helped
from broodline.reports.hatch_expected import forecast_json
from broodline.reports.notes import notes_json, storage_json
from broodline.reports.pattern import closing_json, pattern_json
from broodline.reports.problems_about import problems_about
from broodline.reports.rates import Outcome, lot_outcome, rates_json, setting_outcome
from broodline.reports.readings import SettingAir, air_of
from broodline.reports.season_lots import SeasonLot, egg_age_days
from broodline.reports.setting_air import air_json
from broodline.reports.setting_dates import date_problems
from broodline.reports.setting_summary import summary_words
from broodline.reports.shells import setting_calendar
from broodline.reports.untold import count_untold
from broodline.reports.weighings import Weighings, brought_up_json, weighings_of, weight_loss_json
from broodline.trade.calendar import day_of, instant_text, local_date, milestone
from broodline.trade.species import species_named


def setting_report(standing: Standing, setting_id: str, now: datetime) -> dict[str, Any]:
    """The report of one setting (contract of reports: setting). now: aware. Raises NotFound for an unknown id.

    Calendar days are dates in the holding's zone. hatch, weight_loss and air are None where nothing was recorded.
    """
    setting = standing.settings.get(standing.root_of.get(setting_id, setting_id))
    if setting is None:
        raise NotFound(f"There is no setting {setting_id} in the book.")
    now_ms = round(now.timestamp() * 1000)
    lots = [standing.lots[name] for name in setting.lots]
    outcomes = [lot_outcome(lot, setting, now_ms) for lot in lots]
    whole = setting_outcome(setting, lots, now_ms)
    day = day_of(instant(setting.set_at_ms), now)
    place = standing.places.get(setting.place)
    species = species_named(setting.species)
    weighed = weighings_of(standing, setting)
    air = air_of(standing, setting, lots)
    pattern = pattern_json(standing, setting, lots, outcomes, whole)
    told = list(zip(lots, outcomes, strict=True))
    ages = {lot.id: egg_age_days(SeasonLot(setting, lot, outcome), standing.keeper.zone) for lot, outcome in told}
    unseen = sum(lot.stages.get("unhatched", 0) for lot, outcome in told if not outcome.fertility.n)
    problems = [*problems_about(standing, [setting]), *setting_problems(standing, setting, lots, weighed, air, now_ms)]
    return {
        "setting": setting.id,
        "species": setting.species,
        "species_name": species.name if species is not None else setting.species,
        "place": setting.place,
        "place_name": place.name if place is not None else None,
        "set_at": instant_text(instant(setting.set_at_ms)),
        "day": day,
        "summary": summary_words(setting, day, whole, unseen),
        "so_far": setting.runs,
        "calendar": _calendar(standing, setting, standing.keeper.zone),
        "lots": [_lot_json(standing, lot, outcome, ages[lot.id]) for lot, outcome in told],
        "total": {
            "n": sum(lot.n for lot in lots),
            "stages": dict(setting.stages),
            "not_written": sum(count_untold(lot.moves) for lot in lots),
            **rates_json(whole),
            **weak_and_helped(moves_out_of_shell(setting, lots)),
            "deaths": dict(whole.deaths),
            "closing": closing_json(sum(lot.n for lot in lots), dict(setting.stages)),
        },
        "hatch": hatch_json(setting, lots),
        "forecast": forecast_json(standing, setting),
        "weight_loss": weight_loss_json(setting, weighed, air, now),
        "brought_up": brought_up_json(standing, setting, air),
        "air": air_json(standing, setting, lots, air),
        "pattern": pattern,
        "notes": notes_json(standing, setting, lots, ages, pattern),
        "problems": [problem.as_json() for problem in problems],
    }


def setting_problems(
    standing: Standing, setting: Setting, lots: Sequence[Lot], weighed: Weighings, air: SettingAir, now_ms: int
) -> list[Problem]:
    """What the fold says nothing of: dates that cannot be, weighings and readings that no eggs and no air give, and a
    species that no table knows."""
    problems = [*date_problems(standing, setting, lots, now_ms), *weighed.problems, *air.problems]
    return problems if species_named(setting.species) is not None else [*problems, _unknown_species(setting)]


def _calendar(standing: Standing, setting: Setting, zone: str) -> dict[str, Any]:
    """Dates of candling, lockdown and the hatch window, and their days of incubation; None where not known."""
    set_at = instant(setting.set_at_ms)
    species = species_named(setting.species)
    if species is None:
        own = None if setting.lockdown_day is None else milestone(set_at, setting.lockdown_day)
        return {
            "candle": [],
            "lockdown": None if own is None else local_date(own.at, zone),
            "hatch_from": None,
            "hatch_to": None,
            "days": {"candle": [], "lockdown": setting.lockdown_day, "hatch_from": None, "hatch_to": None},
        }
    plan = setting_calendar(standing, setting, species)
    return {
        "candle": [local_date(stone.at, zone) for stone in plan.candle],
        "lockdown": local_date(plan.lockdown.at, zone),
        "hatch_from": local_date(plan.hatch_from.at, zone),
        "hatch_to": local_date(plan.hatch_to.at, zone),
        "days": {
            "candle": [stone.day for stone in plan.candle],
            "lockdown": plan.lockdown.day,
            "hatch_from": plan.hatch_from.day,
            "hatch_to": plan.hatch_to.day,
        },
    }


def _lot_json(standing: Standing, lot: Lot, outcome: Outcome, age_days: int | None) -> dict[str, Any]:
    family = None if lot.family is None else standing.families.get(lot.family)
    written: dict[str, Any] = {
        "lot": lot.id,
        "family": lot.family,
        "family_name": family.name if family is not None else None,
        "n": lot.n,
        "stages": dict(lot.stages),
        "not_written": count_untold(lot.moves),
        **rates_json(outcome),
        **weak_and_helped(lot.moves),
        "deaths": dict(outcome.deaths),
        "closing": closing_json(lot.n, dict(lot.stages)),
        "storage": storage_json(age_days),
    }
    if lot.open:
        written["open"] = dict(lot.open)
    return written


def _unknown_species(setting: Setting) -> Problem:
    return Problem(
        "unknown_species",
        setting.id,
        f"No table tells how long {setting.species} eggs take, so there are no days for candling, lockdown and hatch.",
        "Correct the species, or give the lockdown day in the setting.",
    )
