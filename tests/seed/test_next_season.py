"""What the scenario says of next season: known forebears, a cock over the fence, a plan that beats today's pens."""

import re
from datetime import datetime, time
from zoneinfo import ZoneInfo

import pytest

from broodline.book.fold import fold
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.family import family_report
from broodline.reports.matings import Wishes, matings_report
from broodline.reports.plan import Wanted, plan_report


@pytest.fixture(scope="module")
def asked(told):
    return fold(told.entries), datetime.combine(told.today, time(12), ZoneInfo("Europe/Dublin"))


@pytest.fixture(scope="module")
def birds(told, asked):
    """The answer's birds by the scenario's names."""
    names = {entry: name for name, entry in told.ids.items()}
    return {names[bird["bird"]]: bird for bird in family_report(*asked)["birds"]}


def chances(birds, told, name, side):
    found: dict[str, float] = {}
    for pair in birds[name]["parents"]:
        found[pair[side]] = found.get(pair[side], 0) + pair["chance"]
    names = {entry: told_name for told_name, entry in told.ids.items()}
    return {names[bird]: chance for bird, chance in found.items()}


def test_a_cock_over_the_fence_is_as_likely_as_the_pens_own(birds, told):
    """Oisin was with Alder's hens 14 days before the setting: inside a hen's three weeks for all eggs of that week."""
    assert chances(birds, told, "alder_hen_2", "sire") == pytest.approx(
        {"hazel_cock_1_years_ago": 0.5, "rowan_cock_1_years_ago": 0.5}
    )
    assert chances(birds, told, "hazel_hen_2", "sire") == {"rowan_cock_1_years_ago": pytest.approx(1)}
    assert len(chances(birds, told, "hazel_hen_2", "dam")) == 3


def test_the_line_begins_with_its_founders_and_known_parents_go_three_generations_back(birds):
    for name in ("birch_cock", "sedge_cock", "sedge_hen_1", "rowan_cock_3_years_ago"):
        assert (birds[name]["F"], birds[name]["completeness"]) == (0, 0), name
    for family in ("rowan", "hazel", "alder"):
        assert birds[f"{family}_cock"]["completeness"] == pytest.approx(3)
        assert birds[f"{family}_cock"]["F"] is not None
    # Birch kept its own cocks: sons with mothers and sisters. A pen's chicks among each other: (1 + 1/3) / 8 at first.
    assert birds["birch_hen_1"]["F"] == pytest.approx((1 + 1 / 3) / 8)
    assert birds["birch_hen_2"]["F"] > birds["birch_hen_1"]["F"] > birds["rowan_hen_2"]["F"]


def test_the_plan_beats_todays_pens_and_chance(asked):
    report = matings_report(asked[0], Wishes(), asked[1])
    against = report["compared_with"]
    assert report["not_known"]["plan"] == {"n": 0, "of": 34}, "the cock that Birch lends is a founder"
    assert report["mean_F"] < 0.08 < against["random"] < against["today"] < against["worst"]
    assert len(report["today"]) == len(report["pens"]) == 4
    # Pens and moves are one plan: each family's hens, all in one pen, with a cock of the family whose turn it is.
    assert report["rotation"]["followed"]
    homes = [[asked[0].families[birds[pen[side][0]]["family"]].name for side in ("sires", "dams")]
             for birds in ({one["bird"]: one for one in report["birds"]},) for pen in report["pens"]]  # fmt: skip
    cocks = [pen["labels"][pen["sires"][0]] for pen in report["pens"]]
    told = sorted(f"{giver}'s {{}} {cock} goes to {to}." for (giver, to), cock in zip(homes, cocks, strict=True))
    moves = report["rotation"]["moves"]
    assert sorted(re.sub("'s cock(erel)? ", "'s {} ", move) for move in moves) == told
    assert [move for move in moves if "'s cock " in move] == ["Birch's cock white B1M goes to Rowan."]
    assert sorted(asked[0].families[pen["family"]].name for pen in report["pens"]) == sorted(home for _, home in homes)
    assert report["rotation"]["cocks"] == 1, "four cocks of seventeen are used"


def test_what_breeds_is_what_stands_in_the_pens(asked):
    """17 cocks and 34 hens live, 4 and 21 stand in pens: 4 x 4 x 21 / 25 breeders."""
    assert family_report(*asked)["ne"] == pytest.approx(13.44)


def test_a_son_of_each_cock_that_has_one_is_kept(asked):
    report = choosing_report(asked[0], Keeping(), asked[1])
    kept = {row["label"]: row["chance"] for row in report["parents"] if row["sex"] == "male"}
    assert kept == pytest.approx({"green A1M": 1, "red R1M": 1, "yellow H1M": 1, "white B1M": 0})
    assert report["response"] is not None


def test_eggs_are_set_as_the_store_gives_them(asked):
    report = plan_report(asked[0], Wanted(), asked[1])
    first = report["settings"][0]
    there = {target["family"]: target["in_store"] for target in report["targets"]}
    assert all(lot["n"] <= there[lot["family"]] for lot in first["lots"])
    placed = sum(target["placed"] for target in report["targets"])
    assert sum(lot["n"] for one in report["settings"] for lot in one["lots"]) == placed
    assert report["eggs"] - placed < 6, "no more than a rest too small to be set alone"
    assert report["chance"] >= 0.9
