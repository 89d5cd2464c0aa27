"""The reports of the scenario, whenever it is loaded: one season holds it all, each setting stands on its day."""

from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from broodline.book.fold import fold
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from seed_scenario.flock import FAMILIES
from seed_scenario.forebears import EARLIER_SETS, EARLY_SET, hatch_name
from tests.seed.told import LOAD_DAYS, Told, expected

# One day of each sort: one year, two years, a change of clocks amid the running settings.
DAYS = [day for day in LOAD_DAYS if str(day) in ("2026-06-10", "2027-01-01", "2026-03-30")]


@pytest.fixture(scope="module", params=DAYS, ids=str)
def report(request):
    """The scenario told, its standing, and the moment the reports are asked for."""
    told = Told(request.param)
    return told, fold(told.entries), datetime.combine(told.today, time(12), ZoneInfo("Europe/Dublin"))


@pytest.fixture(scope="module")
def season(report):
    told, standing, now = report
    return season_report(standing, (told.today + timedelta(days=EARLY_SET)).year, now)


def counts(rates, names):
    return {name: {"k": rates[name]["k"], "n": rates[name]["n"]} for name in names}


def test_the_season_of_the_first_hatch_holds_all_settings_and_its_counts(report, season):
    told, _, _ = report
    assert season["settings"] == expected("season")["settings"] == 5
    families = {family["family"]: family for family in season["families"]}
    assert {families[told.ids[key]]["name"] for key in FAMILIES} == {truth.name for truth in FAMILIES.values()}
    for key, rates in expected("season")["families"].items():
        assert counts(families[told.ids[key]], rates) == rates
    assert families[told.ids["sedge"]]["fertility"]["n"] == 0, "the ducks' setting still runs"


def test_every_earlier_season_holds_its_own_setting_alone(report):
    told, standing, now = report
    for number, set_day in enumerate(EARLIER_SETS):
        earlier = season_report(standing, (told.today + timedelta(days=EARLY_SET)).year - 3 + number, now)
        assert earlier["settings"] == 1, set_day
        found = {family["family"]: family for family in earlier["families"]}
        counted = expected("season")["earlier"][hatch_name(number)]
        assert set(found) == {told.ids[key] for key in counted}
        for key, rates in counted.items():
            assert counts(found[told.ids[key]], rates) == rates


def test_every_setting_reports_its_day_and_its_lots_counts(report):
    told, standing, now = report
    for name, counted in expected("standing")["settings"].items():
        setting = setting_report(standing, told.ids[name], now)
        assert (setting["day"], setting["species"]) == (counted["day"], counted["species"])
        lots = {lot["lot"]: lot for lot in setting["lots"]}
        for lot, rates in expected("season")["lots"].items():
            if expected("standing")["lots"][lot]["setting"] == name:
                three = {rate: rates[rate] for rate in ("fertility", "hatch_of_set", "hatch_of_fertile")}
                assert counts(lots[told.ids[lot]], three) == three
                assert lots[told.ids[lot]]["stages"] == expected("standing")["lots"][lot]["stages"]


def test_the_verdict_claims_no_more_than_so_few_eggs_can_tell(season):
    # The truth differs (Birch 0.42 of the eggs set, Rowan 0.75), but so few eggs do not show it at the 5 % level.
    assert season["overall_test"]["p"] > 0.05
    assert [pair for pair in season["pairs"] if pair["p_holm"] < 0.05] == []
