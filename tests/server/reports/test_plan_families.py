"""Whom a plan of eggs is for and when it is to hatch: families and days that cannot be are left out, with a word."""

from datetime import UTC, date, datetime
from time import process_time
from typing import Any

import pytest

from broodline.book.told_days import day_told
from tests.server.reports.test_plan import book, gathered, plan


def names(report: dict[str, Any]) -> list[str]:
    return [one["name"] for one in report["targets"]]


def test_families_that_died_out_get_no_eggs_and_do_not_swell_the_others() -> None:
    """Each family more asks for a greater chance of all the others: four of hens long dead cost 13 eggs of 27."""
    writer, rowan, _ = book()
    writer.write("bird", {"name": "Wren", "sex": "female", "family": rowan})
    alone = plan(writer)
    for number in range(4):
        old = writer.family(f"Old {number}")
        hen = writer.write("bird", {"sex": "female", "family": old})
        writer.write("bird", {"sex": "male", "family": old})
        writer.write("left", {"bird": hen, "on": "2022-01-01", "how": "died"})
    report = plan(writer)
    assert (names(report), report["eggs"]) == (["Rowan"], alone["eggs"])
    left = "Old 0, Old 1, Old 2, Old 3"
    assert report["assumptions"][0] == f"No hen and no egg of {left} is left: nothing is planned for {left}."
    assert names(plan(writer, family="Old 2")) == ["Old 2"], "asked for by name it is planned all the same"


@pytest.mark.parametrize("what", ["hen", "unsexed", "pen", "eggs", "eggs set", "young"])
def test_a_family_with_anything_left_is_planned(what: str) -> None:
    """Its hen of long ago is dead; what there is instead may lay, or hatch."""
    writer, _, place = book()
    hazel = writer.family("Hazel")
    dead = writer.write("bird", {"sex": "female", "family": hazel})
    writer.write("left", {"bird": dead, "on": "2022-01-01", "how": "died"})
    assert names(plan(writer)) == ["Rowan"]
    lot = writer.lot()
    if what in ("hen", "unsexed"):
        writer.write("bird", {"sex": "female" if what == "hen" else "unknown", "family": hazel})
    elif what == "pen":
        pen = {
            "family": hazel,
            "since": "2026-08-01",
            "sires": [],
            "dams": [{"bird": writer.write("bird", {"sex": "female"})}],
        }
        writer.write("penned", pen)
    elif what == "eggs":
        gathered(writer, hazel, date(2026, 8, 29), 1, 3)
    else:
        writer.set_eggs(place, [(lot, hazel, 9)], set_at=datetime(2026, 8, 28, 9, tzinfo=UTC))
        if what == "young":
            for source, target in (("set", "hatched"), ("hatched", "growing")):
                writer.move(lot, source, target, 9)
    assert names(plan(writer)) == ["Hazel", "Rowan"]


def test_grown_birds_of_a_batch_who_all_were_written_down_and_died_are_gone() -> None:
    writer, _, place = book()
    hazel, lot = writer.family("Hazel"), writer.lot()
    writer.set_eggs(place, [(lot, hazel, 1)])
    for source, target in (("set", "hatched"), ("hatched", "growing"), ("growing", "flock")):
        writer.move(lot, source, target)
    assert names(plan(writer)) == ["Hazel", "Rowan"]
    hen = writer.write("bird", {"sex": "female", "family": hazel, "lots": [{"lot": lot}]})
    writer.write("left", {"bird": hen, "on": "2026-08-01", "how": "culled"})
    assert names(plan(writer)) == ["Rowan"]


def test_a_name_that_no_family_has_is_said() -> None:
    report = plan(book()[0], family="Rown")
    assert (report["targets"], report["settings"], report["chance"]) == ([], [], None)
    assert report["assumptions"] == ["No family in the book is called Rown: there are Rowan."]


@pytest.mark.parametrize("on", ["0001-01-01", "2026-08-31", "2028-09-01", "3000-01-01", "9999-12-31"])
def test_a_day_that_is_past_or_too_far_away_is_not_planned_for(on: str) -> None:
    """Two years from 1 September 2026 are over on 31 August 2028."""
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 26), 7, 3)
    report = plan(writer, hatch_on=on)
    assert report["settings"][0]["set_on"] == "2026-09-01"
    end = "is past" if on < "2027" else "is too far away to plan for, 31 Aug 2028 at most"
    assert report["assumptions"][0] == f"{day_told(on, None)} {end}: the eggs are set as soon as can be."


def test_two_years_ahead_are_planned_in_no_time() -> None:
    writer, rowan, _ = book()
    gathered(writer, rowan, date(2026, 8, 26), 7, 1)
    began = process_time()
    report = plan(writer, hatch_on="2028-08-31", pullets=20)
    assert report["settings"][0]["set_on"] == "2028-08-10"
    assert process_time() - began < 2


@pytest.mark.parametrize("odd", [{"lockdown_day": 1e10}, {"set_at": datetime(9999, 12, 30, tzinfo=UTC)}])
def test_days_of_a_setting_that_cannot_be_leave_a_plan(odd: dict[str, Any]) -> None:
    writer, rowan, place = book(capacity=60)
    writer.set_eggs(place, [(writer.lot(), rowan, 20)], **{"set_at": datetime(2026, 8, 30, 9, tzinfo=UTC), **odd})
    report = plan(writer)
    assert report["settings"][0]["set_on"] == "2026-09-01"
    assert report["settings"][-1]["hatch_on"] < "2029"
