"""Eggs to set for next season, through a book."""

import re
from datetime import UTC, date, datetime, timedelta
from typing import Any

import numpy as np
import pytest

from broodline.book.fold import fold
from broodline.reports.plan import Wanted, plan_report, wanted_of
from broodline.reports.plan_places import Held, Place, _free
from broodline.trade.planning import Share, chance_of
from broodline.trade.species import species_named
from tests.book_writer import BookWriter

NOW = datetime(2026, 9, 1, 12, tzinfo=UTC)


def book(capacity: int | None = 30) -> tuple[BookWriter, str, str]:
    """Rowan with 24 eggs set, 4 clear, 15 hatched, 5 unhatched; a machine. The family and the machine."""
    writer = BookWriter()
    writer.keeper("UTC")
    rowan = writer.family("Rowan")
    body = {"name": "Loft box", "role": "incubator"}
    place = writer.write("place", body if capacity is None else {**body, "capacity": capacity})
    lot = writer.lot()
    writer.set_eggs(place, [(lot, rowan, 24)])
    writer.move(lot, "set", "clear", 4, why="candled", day=7)
    writer.move(lot, "set", "locked", 20)
    writer.move(lot, "locked", "hatched", 15)
    writer.move(lot, "locked", "unhatched", 5)
    return writer, rowan, place


def plan(writer: BookWriter, **wanted: Any) -> dict[str, Any]:
    return plan_report(fold(writer.entries()), Wanted(**wanted), NOW)


def test_a_plan_in_its_shape_from_the_familys_own_record() -> None:
    """Fertility 20 of 24 with 85 % of 10 beside it, hatch 15 of 20 with 72 %, alive 15 of 15 with 90 %."""
    writer, rowan, place = book()
    report = plan(writer, pullets=4, cockerels=2, chance=0.9)
    assert {"targets", "eggs", "settings", "chance", "assumptions"} <= set(report)
    (target,) = report["targets"]
    steps = [Share(8.5 + 20, 1.5 + 4), Share(7.2 + 15, 2.8 + 5), Share(9 + 15, 1)]
    assert target["rates"]["fertility"] == pytest.approx(steps[0].mean)
    assert target["rates"]["alive"] == pytest.approx(steps[2].mean)
    assert report["chance"] == pytest.approx(chance_of(report["eggs"], steps, pullets=4, cockerels=2))
    assert chance_of(report["eggs"] - 1, steps, pullets=4, cockerels=2) < 0.9 <= report["chance"]
    assert [one["chance"] for one in target["options"]] == sorted(one["chance"] for one in target["options"])
    assert report["settings"][0] == {
        "set_on": "2026-09-01", "place": place, "species": "chicken", "lockdown_on": "2026-09-19",
        "hatch_on": "2026-09-22", "lots": [{"family": rowan, "n": report["eggs"]}],
    }  # fmt: skip


def test_several_families_reach_the_chance_together_and_take_turns_in_a_small_machine() -> None:
    writer, _, place = book(capacity=20)
    hazel = writer.family("Hazel")
    report = plan(writer, hatch_on="2026-10-10")
    assert report["chance"] >= 0.9
    assert [one["name"] for one in report["targets"]] == ["Hazel", "Rowan"]
    first, second = report["settings"][:2]
    assert (first["set_on"], first["hatch_on"], first["place"]) == ("2026-09-19", "2026-10-10", place)
    assert second["set_on"] == "2026-10-12"
    assert all(sum(lot["n"] for lot in one["lots"]) <= 20 for one in report["settings"])
    assert sum(lot["n"] for one in report["settings"] for lot in one["lots"]) == report["eggs"]
    assert any("No finished hatch is on record for Hazel" in words for words in report["assumptions"])
    assert plan(writer, family="Hazel")["targets"][0]["family"] == hazel


def test_eggs_that_find_no_place_are_said_and_hatch_nothing() -> None:
    """Room for five at a time, and 30 turns at most: the chance is that of the eggs placed, not of those wished."""
    writer, rowan, _ = book(capacity=5)
    report = plan(writer, pullets=60, cockerels=60)
    (target,) = report["targets"]
    assert target["placed"] == sum(lot["n"] for one in report["settings"] for lot in one["lots"]) < target["eggs"]
    left = target["eggs"] - target["placed"]
    assert target["placed"] > 0
    assert f"{left} eggs find no place ({left} of Rowan)" in " ".join(report["assumptions"])
    steps = [Share(8.5 + 20, 1.5 + 4), Share(7.2 + 15, 2.8 + 5), Share(9 + 15, 1)]
    assert report["chance"] == target["chance"] == chance_of(target["placed"], steps, pullets=60, cockerels=60)
    assert report["chance"] < 0.5 < target["options"][2]["chance"]
    # Hens that stopped laying leave eggs wished for unlaid: they are not counted either.
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 22), 3, 3)
    (dry,) = plan(writer)["targets"]
    assert dry["placed"] == 9 < dry["eggs"]
    assert dry["chance"] == pytest.approx(chance_of(9, steps, pullets=4, cockerels=2))


def test_batches_that_follow_one_another_do_not_crowd_a_machine() -> None:
    """Two species: ducks in for four weeks beside chickens of three and of the three after: never both of these."""
    writer, _, _ = book(capacity=40)
    held = [
        Held(date(2026, 9, 1), date(2026, 9, 19), date(2026, 9, 22), 30, "chicken"),
        Held(date(2026, 9, 25), date(2026, 10, 13), date(2026, 10, 16), 30, "chicken"),
    ]
    duck = species_named("duck")
    assert duck is not None
    assert _free(held, Place("x", "Loft box", 40), duck, date(2026, 9, 2)) == 10
    writer.family("Teal", "duck")
    report = plan(writer, pullets=1, cockerels=1)
    most = 0
    for day in {one["set_on"] for one in report["settings"]}:
        there = [one for one in report["settings"] if one["set_on"] <= day <= one["hatch_on"]]
        most = max(most, sum(lot["n"] for one in there for lot in one["lots"]))
    assert most <= 40


def test_many_lockdowns_are_told_by_their_number_once_for_each_machine() -> None:
    writer, rowan, _ = book(capacity=60)
    gathered(writer, rowan, date(2026, 8, 26), 7, 1)
    writer.family("Teal", "duck")
    told = [words for words in plan(writer, pullets=8, cockerels=4)["assumptions"] if "still want turning" in words]
    assert len(told) == 1
    assert re.search(r"with \d+ lockdowns from \d+ \w{3} 2026 to \d+ \w{3} 202\d\.", told[0])


def test_the_chance_of_all_families_together_is_said() -> None:
    writer, _, _ = book()
    assert not any("together" in words for words in plan(writer)["assumptions"])
    writer.family("Hazel")
    said = "Each family gets eggs for a chance of 95 of 100, so that all 2 together come to 90 of 100."
    assert plan(writer)["assumptions"][0] == said


def test_a_running_setting_takes_room_and_its_lockdown_clashes() -> None:
    writer, rowan, place = book(capacity=30)
    writer.set_eggs(place, [(writer.lot(), rowan, 20)], set_at=datetime(2026, 8, 25, 9, tzinfo=UTC))
    report = plan(writer)
    assert sum(lot["n"] for lot in report["settings"][0]["lots"]) == 10
    (clash,) = [words for words in report["assumptions"] if "still want turning" in words]
    assert clash.startswith("Loft box will hold eggs of several days, with lockdowns on 12 Sep 2026; 19 Sep 2026")
    assert clash.endswith("Move what is due to a hatcher, or use another machine.")
    writer.write("place", {"name": "Warm cupboard", "role": "hatcher"})
    (moved,) = [words for words in plan(writer)["assumptions"] if "still want turning" in words]
    assert moved.endswith("On each of these days move what is due to Warm cupboard, and keep that free for it.")


def gathered(writer: BookWriter, family: str, first: date, days: int, each: int) -> None:
    for day in range(days):
        on = (first + timedelta(days=day)).isoformat()
        writer.write("gathered", {"family": family, "on": on, "n": each, "kept": each})


def test_the_store_gives_what_it_has_and_the_rest_comes_later() -> None:
    """Two eggs a day in the week to 1 September: 14 there, 14 a week more. Of 22 eggs 14 are set today and the rest
    ten days on; no egg is set older than ten days.
    """
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 26), 7, 2)
    report = plan(writer)
    (target,) = report["targets"]
    eggs = target["eggs"]
    assert [(one["set_on"], one["lots"][0]["n"]) for one in report["settings"]] == [
        ("2026-09-01", 14), ("2026-09-11", eggs - 14),
    ]  # fmt: skip
    assert (target["in_store"], target["store"]["pace_week"]) == (14, 14)
    assert target["store"]["enough_on"] == f"2026-09-{1 + -(-(eggs - 14) // 2):02}"
    # A week on there are 14 + 14, less those laid before 29 August: eggs of 26, 27 and 28 August are over ten days old.
    assert [one["n"] for one in target["store"]["by"][:3]] == [14, 28 - 2 * 3, 22]
    assert any("lay on as in the last week" in words for words in report["assumptions"])


def test_hens_that_stopped_laying() -> None:
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 22), 3, 3)
    report = plan(writer)
    assert [one["set_on"] for one in report["settings"]] == ["2026-09-01"]
    assert report["targets"][0]["store"]["enough_on"] is None
    assert any("no egg was kept in the last week" in words for words in report["assumptions"])


def test_a_handful_of_eggs_is_not_set_alone() -> None:
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 29), 4, 1)
    settings = plan(writer)["settings"]
    assert settings[0]["set_on"] > "2026-09-01"
    assert min(sum(lot["n"] for lot in one["lots"]) for one in settings) >= 6


def test_two_species_do_not_fill_a_machine_twice() -> None:
    writer, _, _ = book(capacity=30)
    writer.family("Teal", "duck")
    report = plan(writer, pullets=1, cockerels=1)
    on_day: dict[str, int] = {}
    for one in report["settings"]:
        on_day[one["set_on"]] = on_day.get(one["set_on"], 0) + sum(lot["n"] for lot in one["lots"])
    assert max(on_day.values()) <= 30
    assert any("still want turning" in words for words in report["assumptions"])


def test_a_day_that_is_past_and_machines_of_unknown_room() -> None:
    writer, _, _ = book(capacity=None)
    report = plan(writer, hatch_on="2026-09-05")
    assert report["settings"][0]["set_on"] == "2026-09-01"
    assert any("which is past" in words for words in report["assumptions"])
    assert any("capacity" in words for words in report["assumptions"])


def test_no_incubator_no_family_and_a_species_nobody_knows() -> None:
    writer = BookWriter()
    writer.keeper("UTC")
    assert (plan(writer)["targets"], plan(writer)["chance"]) == ([], None)
    writer.family("Rowan")
    assert plan(writer)["settings"][0]["place"] is None
    writer.family("Ash", "phoenix")
    report = plan(writer, family="Ash")
    assert report["settings"] == []
    assert any("phoenix" in words for words in report["assumptions"])


def test_more_than_600_eggs_is_said() -> None:
    writer, _, _ = book()
    (target,) = plan(writer, pullets=100, cockerels=100, chance=0.999)["targets"]
    assert target["enough"] == (target["eggs"] < 600)


def test_nothing_wished_for_needs_no_egg() -> None:
    writer, _, _ = book()
    report = plan(writer, pullets=0, cockerels=0)
    assert (report["eggs"], report["settings"], report["chance"]) == (0, [], 1.0)


def test_wishes_in_words() -> None:
    assert wanted_of({}) == Wanted()
    assert wanted_of(
        {"pullets": "3", "cockerels": "1", "chance": "80", "family": "Rowan", "hatch_on": "2026-10-10"}
    ) == (Wanted(3, 1, 0.8, "Rowan", "2026-10-10"))
    for odd in ({"pullets": "many"}, {"pullets": "-1"}, {"chance": "nan"}, {"chance": "100"}, {"hatch_on": "soon"}):
        assert wanted_of(odd) is None


def test_all_families_together_within_chance_of_100_000_seasons() -> None:
    """Seasons drawn egg by egg, the families apart: four standard errors of a share from 100,000 are at most .0063."""
    writer, rowan, _ = book(capacity=500)
    hazel = writer.family("Hazel")
    report = plan(writer, pullets=4, cockerels=2, chance=0.7)
    # Rowan from its own record; Hazel, of which nothing is known, from the flock's, which is Rowan's.
    steps = [Share(8.5 + 20, 1.5 + 4), Share(7.2 + 15, 2.8 + 5), Share(9 + 15, 1)]
    drawn = np.random.default_rng(3)
    came = np.ones(100_000, bool)
    for family in (rowan, hazel):
        (eggs,) = [target["placed"] for target in report["targets"] if target["family"] == family]
        left = np.full(100_000, eggs)
        for step in steps:
            left = drawn.binomial(left, drawn.beta(step.a, step.b, 100_000))
        hens = drawn.binomial(left, 0.5)
        came &= (hens >= 4) & (left - hens >= 2)
    assert report["chance"] == pytest.approx(came.mean(), abs=0.0063)
