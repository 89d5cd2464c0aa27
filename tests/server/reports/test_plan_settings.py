"""Settings of a plan that a keeper would make: none too small, a machine for each species, room in the hatcher."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.exchange.hatch_counts import UNNAMED_PLACE
from broodline.exchange.sheets_in import read_sheets
from broodline.exchange.told_in import Told
from broodline.reports.plan_lockdowns import _room_words
from broodline.reports.plan_places import Held, Place, _free, incubators, running
from broodline.trade.planning import Share, chance_of
from broodline.trade.species import species_named
from tests.server.reports.test_plan import book, gathered, plan


def eggs_in(setting: dict[str, Any]) -> int:
    return int(sum(lot["n"] for lot in setting["lots"]))


def test_a_rest_too_small_to_set_is_left_out_and_the_chance_is_without_it() -> None:
    """Eight laid every ten days: whatever the wish, what is left after the last eight is set with six or not at all."""
    seen = set()
    for pullets in range(2, 6):
        writer, rowan, _ = book()
        gathered(writer, rowan, date(2026, 8, 24), 9, 1)
        report = plan(writer, pullets=pullets)
        (target,) = report["targets"]
        assert min(eggs_in(one) for one in report["settings"]) >= 6
        left = target["eggs"] - sum(eggs_in(one) for one in report["settings"])
        assert target["placed"] == target["eggs"] - left
        said = [words for words in report["assumptions"] if "fewer than 6" in words]
        assert [words.split(" would")[0] for words in said] == ([f"{left} of Rowan"] if left else [])
        if left:
            wish = {"pullets": pullets, "cockerels": 2}
            steps = [Share(8.5 + 20, 1.5 + 4), Share(7.2 + 15, 2.8 + 5), Share(9 + 15, 1)]
            assert report["chance"] == pytest.approx(chance_of(target["placed"], steps, **wish))
        seen.add(left > 0)
    assert seen == {True, False}


def test_eggs_to_be_had_at_any_time_are_shared_so_that_no_setting_is_too_small() -> None:
    small = 0
    for capacity in range(10, 30, 3):
        report = plan(book(capacity=capacity)[0])
        assert min(eggs_in(one) for one in report["settings"]) >= 6
        assert sum(eggs_in(one) for one in report["settings"]) == report["eggs"]
        small += 0 < report["eggs"] % capacity < 6
    assert small > 0


def test_each_species_has_a_machine_of_its_own_where_there_are_two() -> None:
    writer, _, _ = book(capacity=60)
    writer.family("Teal", "duck")
    (shared,) = [words for words in plan(writer)["assumptions"] if "two species at once" in words]
    assert shared.startswith("Loft box will hold")
    writer.write("place", {"name": "Cabinet", "role": "incubator", "capacity": 50})
    report = plan(writer)
    kinds = {(one["place"], one["species"]) for one in report["settings"]}
    assert len(kinds) == len({place for place, _ in kinds}) == 2
    assert not any("two species at once" in words for words in report["assumptions"])


def test_a_hatcher_too_small_for_what_is_due_there_is_said() -> None:
    """20 of the running batch are due there with what is set beside it: 18 days and three more after each setting."""
    writer, rowan, place = book(capacity=60)
    writer.set_eggs(place, [(writer.lot(), rowan, 20)], set_at=datetime(2026, 8, 30, 9, tzinfo=UTC))
    hatcher = {"name": "Warm cupboard", "role": "hatcher"}
    root = writer.write("place", hatcher)
    assert any("Warm cupboard takes is not written down" in words for words in plan(writer)["assumptions"])
    writer.write("place", {**hatcher, "capacity": 30}, amends=root)
    report = plan(writer)
    due = 20 + eggs_in(report["settings"][0])
    said = [words for words in report["assumptions"] if words.startswith("Warm cupboard takes 30 eggs")]
    assert [f"up to {due} are due there on 19 Sep 2026" in words for words in said] == [True]
    writer.write("place", {**hatcher, "capacity": due}, amends=root)
    assert not any("Warm cupboard takes" in words for words in plan(writer)["assumptions"])


def test_eggs_moved_to_a_hatcher_are_there_and_leave_the_setter_free() -> None:
    """30 eggs of 14 August, moved on 1 September, are due to the 4th. A setter of 30 is free at once."""
    writer, rowan, place = book(capacity=30)
    lot = writer.lot()
    setting = writer.set_eggs(place, [(lot, rowan, 30)], set_at=datetime(2026, 8, 14, 9, tzinfo=UTC))
    setter = Place(place, "Loft box", 30)
    held = Held(date(2026, 8, 14), date(2026, 9, 1), date(2026, 9, 4), 30, "chicken")
    assert list(running(fold(writer.entries()), setter)) == [held]
    assert plan(writer)["settings"][0]["set_on"] == "2026-09-06"
    cupboard = writer.write("place", {"name": "Warm cupboard", "role": "hatcher", "capacity": 40})
    at = datetime(2026, 9, 1, 9, tzinfo=UTC)
    writer.write("locked", {"setting": setting, "place": cupboard}, at=at)
    writer.move(lot, "set", "locked", 30, at=at)
    standing = fold(writer.entries())
    assert list(running(standing, setter)) == []
    assert list(running(standing, Place(cupboard, "Warm cupboard", 40))) == [held._replace(begins=held.locks)]
    assert plan(writer)["settings"][0]["set_on"] == "2026-09-01"


def test_eggs_fill_a_machine_to_the_last_day_of_their_hatch() -> None:
    held = [Held(date(2026, 9, 1), date(2026, 9, 19), date(2026, 9, 22), 30, "chicken")]
    chicken = species_named("chicken")
    assert chicken is not None
    place = Place("x", "Loft box", 40)
    assert [_free(held, place, chicken, date(2026, 9, day)) for day in (21, 22, 23)] == [10, 10, 40]
    late = held[0]._replace(begins=date(2026, 9, 22), n=20)
    for begins, said in ((22, True), (23, False)):
        there = [*held, late._replace(begins=date(2026, 9, begins), ends=date(2026, 9, 30))]
        words = list(_room_words([place], there, None))
        assert [
            one.startswith("Loft box takes 40 eggs, but up to 50 are due there on 22 Sep 2026") for one in words
        ] == ([True] if said else [])


def test_eggs_are_not_planned_into_the_machine_that_stands_for_those_of_past_hatches() -> None:
    """A row of a table that names no machine has one made up for it; its id tells which it is."""
    writer, _, _ = book()
    own = {place.name for place in incubators(fold(writer.entries()))}
    rows = b"Set,Family,Eggs,Hatched\n2025-03-01,Rowan,12,9\n"
    past = read_sheets("past.csv", rows, Told(), fold(writer.entries()), datetime(2026, 11, 25, tzinfo=UTC))
    standing = fold([*writer.entries(), *past.entries])
    assert {place.name for place in standing.places.values()} - own >= {UNNAMED_PLACE}
    assert {place.name for place in incubators(standing)} == own
