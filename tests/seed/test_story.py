"""The book of the scenario adds up to what the simulation counted egg by egg, on every day it may be loaded."""

from collections import Counter
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from broodline.book.fold import fold
from broodline.book.moments import instant
from broodline.trade.calendar import day_of
from seed_scenario.forebears import KEPT_FAMILIES
from tests.seed.told import LOAD_DAYS, Told, expected

ZONE = ZoneInfo("Europe/Dublin")


@pytest.fixture(scope="module", params=LOAD_DAYS, ids=str)
def on_day(request):
    return Told(request.param)


def at(told: Told, clock: str) -> datetime:
    return datetime.combine(told.today, time.fromisoformat(clock), ZONE)


def test_every_lot_stands_as_counted(on_day):
    standing = fold(on_day.entries)
    lots = expected("standing")["lots"]
    found = {
        name: {
            "setting": standing.lots[on_day.ids[name]].setting,
            "family": standing.lots[on_day.ids[name]].family,
            "n": standing.lots[on_day.ids[name]].n,
            "stages": dict(standing.lots[on_day.ids[name]].stages),
            "open": dict(standing.lots[on_day.ids[name]].open),
        }
        for name in lots
    }
    wanted = {
        name: {**lot, "setting": on_day.ids[lot["setting"]], "family": on_day.ids[lot["family"]]}
        for name, lot in lots.items()
    }
    assert found == wanted
    assert len(standing.lots) == len(lots)


def test_every_setting_stands_as_counted(on_day):
    standing = fold(on_day.entries)
    found = {
        name: {"species": setting.species, "stages": dict(setting.stages)}
        for name in expected("standing")["settings"]
        for setting in (standing.settings[on_day.ids[name]],)
    }
    wanted = {
        name: {"species": setting["species"], "stages": setting["stages"]}
        for name, setting in expected("standing")["settings"].items()
    }
    assert found == wanted
    assert len(standing.settings) == len(wanted)


@pytest.mark.parametrize("clock", ["07:30", "12:00", "23:59"])
def test_settings_are_where_the_story_says_all_day_long(on_day, clock):
    standing = fold(on_day.entries)
    found = {
        name: day_of(instant(standing.settings[on_day.ids[name]].set_at_ms), at(on_day, clock))
        for name in expected("standing")["settings"]
    }
    assert found == {name: setting["day"] for name, setting in expected("standing")["settings"].items()}


def test_only_the_intended_problem_is_left(on_day):
    standing = fold(on_day.entries)
    found = [{"code": problem.code, "entry": problem.entry} for problem in standing.problems]
    assert found == [{"code": p["code"], "entry": on_day.ids[p["entry"]]} for p in expected("problems")]
    assert standing.newer == 0


def test_the_day_written_beside_a_look_is_the_day_of_incubation_it_was_made_on(on_day):
    standing = fold(on_day.entries)
    days: list[tuple[int, int]] = []
    for lot in standing.lots.values():
        set_at = instant(standing.settings[str(lot.setting)].set_at_ms)
        days += [(move.day, day_of(set_at, instant(move.at_ms))) for move in lot.moves if move.day is not None]
        days += [(look.day, day_of(set_at, instant(look.at_ms))) for look in lot.looks]
    assert [pair for pair in days if pair[0] != pair[1]] == []
    assert len(days) > 150


def test_nothing_lies_in_the_future_once_the_morning_is_over(on_day):
    latest = max(datetime.fromisoformat(entry.at) for entry in on_day.entries)
    assert latest <= at(on_day, "07:30")
    assert latest > at(on_day, "07:30") - timedelta(hours=1)


def test_what_the_story_promises_is_in_the_book(told):
    standing = fold(told.entries)
    lines = {line["name"]: line for line in told.lines}
    tallied = {
        (entry.body["setting"], entry.body["lot"], entry.device) for entry in told.entries if entry.kind == "looked"
    }
    both = {(setting, lot) for setting, lot, _ in tallied if sum(one[:2] == (setting, lot) for one in tallied) == 2}
    assert (told.ids["at_candling"], told.ids["at_candling_hazel"]) in both, "one lot, two phones"
    assert sum(entry.void for entry in told.entries) == 2, "two entries taken back"
    assert sum(bool(move.among) for setting in standing.settings.values() for move in setting.among) == 1
    amended = [line for line in lines.values() if "amends" in line and not line.get("void")]
    (settled,) = amended
    assert "among" in lines[settled["amends"][1:]]["body"]["moves"][0], "a chick between two baskets, settled"
    count = next(line for line in told.lines if "settles" in line["body"])["body"]["settles"]
    assert lines[count[1:]]["body"]["ledger"] - lines[count[1:]]["body"]["n"] == 1, "a miscount, settled"
    assert {"outage", "eggs_weighed", "air", "gathered", "marked", "weighed", "penned"} <= set(standing.heads)
    places = {place.role: place for place in standing.places.values() if place.role != "pen"}
    assert {"incubator", "hatcher", "brooder", "store"} == set(places)
    assert {place.air for place in standing.places.values() if place.role == "incubator"} == {"forced", "still"}
    species = [family.species for family in standing.families.values()]
    assert sorted(species) == ["chicken"] * 4 + ["duck"]


def test_as_many_eggs_were_kept_as_were_set(told):
    kept: dict[str, int] = {}
    for entry in told.entries:
        if entry.kind == "gathered":
            kept[entry.body["family"]] = kept.get(entry.body["family"], 0) + entry.body["kept"]
        elif entry.kind == "set":
            for lot in entry.body["lots"]:
                kept[lot["family"]] -= lot["n"]
                assert kept[lot["family"]] == 0, "all eggs of that week were set"
        elif entry.kind == "eggs_out":
            kept[entry.body["family"]] -= entry.body["n"]
    assert all(n > 0 for n in kept.values()), "eggs are in the store for the next setting"


def test_every_grown_bird_of_an_earlier_season_is_written_down_by_itself(told):
    """So that none lives in a batch only: the others were sold in the autumn of their year."""
    written = Counter(
        part["lot"].removeprefix("@")
        for line in told.lines
        if line["kind"] == "bird"
        for part in line["body"].get("lots", ())
    )
    lots = expected("standing")["lots"]
    earlier = {
        name: lot["stages"] for name, lot in lots.items() if name.endswith(KEPT_FAMILIES) and "years_ago" in name
    }
    assert len(earlier) == 12
    assert {name: stages["flock"] for name, stages in earlier.items()} == {name: written[name] for name in earlier}
    assert all("growing" not in stages for stages in earlier.values())
