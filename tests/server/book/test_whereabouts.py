"""Where chicks are, told by moves that name only where they went; and a slow walk of single chicks beside it."""

import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.hatch_day import brood_hatched_ms, hatched_ms, hatched_on
from broodline.book.standing import Standing
from broodline.book.tied import tied_to
from broodline.book.whereabouts import LIVING, YOUNG, Brood, broods, broods_of
from broodline.book.wire import read_entry
from tests.server.book.brooded_books import brooded_book
from tests.server.book.odd_books import odd_book
from tests.server.book.tallied_books import hatched_among_book, tallied_book
from tests.server.oracles.chicks_and_places import who_is_where
from tests.server.reports.test_brood import OUT, Nest
from tests.server.reports.test_brood_mixed import Mixed

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "whereabouts.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold([read_entry(document) for document in case["in"]["entries"]])
    found = [
        {
            "lot": brood.lot,
            "among": list(brood.among),
            "place": brood.place or "",
            "stages": dict(brood.stages),
            "hatched_ms": brood_hatched_ms(standing, brood),
        }
        for brood in broods(standing)
    ]
    hatched = {name: hatched_ms(standing, lot) for name, lot in standing.lots.items()}
    days = {name: hatched_on(standing, lot) for name, lot in standing.lots.items()}
    assert {"broods": found, "hatched_ms": hatched, "hatched_on": days} == case["out"]


def standing_broods(nest: Nest | Mixed) -> list[Brood]:
    return broods(fold(nest.book.entries()))


def second_place(nest: Nest, role: str = "pen") -> str:
    return nest.book.write("place", {"name": "Grass run", "role": role})


def test_chicks_stay_where_they_are_until_a_place_is_named() -> None:
    nest = Nest(12)
    run = second_place(nest)
    nest.move("brooding", "growing", 5, days=30)
    assert standing_broods(nest) == [Brood(nest.lot, nest.place, {"brooding": 7, "growing": 5})]
    nest.move("growing", "growing", 3, days=31, place=run)
    nest.move("brooding", "died", 2, days=32)
    found = {brood.place: dict(brood.stages) for brood in standing_broods(nest)}
    assert found == {nest.place: {"brooding": 5, "growing": 2}, run: {"growing": 3}}
    assert [brood.n for brood in standing_broods(nest)] == [7, 3]


def test_those_that_left_are_taken_from_the_place_named() -> None:
    nest = Nest(12)
    run = second_place(nest)
    nest.move("brooding", "brooding", 3, days=2, place=run)
    nest.move("brooding", "died", 2, days=3, place=run)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {nest.place: 9, run: 1}
    nest.move("brooding", "died", 4, days=4)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {nest.place: 5, run: 1}


def test_those_that_came_to_a_place_were_not_there_before() -> None:
    nest = Nest(12)
    run = second_place(nest)
    nest.move("brooding", "brooding", 7, days=2, place=run)
    nest.move("brooding", "brooding", 3, days=3, place=run)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {nest.place: 2, run: 10}


def test_out_of_a_machine_without_a_place_is_nobody_knows_where() -> None:
    nest = Nest(12)
    nest.move("set", "hatched", 4, days=0.1)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {nest.box: 4, nest.place: 12}
    nest.move("hatched", "brooding", 4, days=1)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {None: 4, nest.place: 12}
    nest.move("brooding", "died", 20, days=2)
    assert standing_broods(nest) == [], "more died than there were: a Problem of the book, nobody is left here"


def test_missing_chicks_come_back_to_where_most_are() -> None:
    nest = Nest(12)
    run = second_place(nest)
    nest.move("brooding", "brooding", 2, days=2, place=run)
    nest.move("brooding", "unaccounted", 1, days=3, place=run)
    nest.move("unaccounted", "brooding", 1, days=4)
    assert {brood.place: brood.n for brood in standing_broods(nest)} == {nest.place: 11, run: 1}


def test_bought_chicks_are_nowhere_until_they_are_put_somewhere() -> None:
    nest = Nest(12)
    bought = nest.book.lot()
    nest.book.write(
        "came", {"lot": bought, "n": 6, "family": nest.family, "on": "2026-03-25", "how": "bought", "stage": "brooding"}
    )
    assert [(one.place, one.n) for one in standing_broods(nest) if one.lot == bought] == [(None, 6)]
    nest.book.move(bought, "brooding", "brooding", 6, place=nest.place)
    assert [(one.place, one.n) for one in standing_broods(nest) if one.lot == bought] == [(nest.place, 6)]


@pytest.mark.parametrize("seed", range(60))
def test_single_chicks_walked_one_by_one_end_in_the_same_places(seed: int) -> None:
    standing = fold([read_entry(document) for document in brooded_book(seed)])
    found = {(brood.lot, brood.place): dict(brood.stages) for brood in broods(standing)}
    assert found == who_is_where(standing)


def test_chicks_that_died_unknown_to_another_phone_do_not_move_house() -> None:
    nest = Nest(10)
    run = second_place(nest)
    nest.move("brooding", "died", 2, days=20)
    nest.move("brooding", "brooding", 10, days=20.1, place=run, why="brooded")
    assert standing_broods(nest) == [Brood(nest.lot, run, {"brooding": 8})]


def test_chicks_pulled_by_a_clock_that_is_slow_are_in_the_brooder_alone() -> None:
    nest = Nest(4)
    nest.move("set", "hatched", 10, days=2)
    nest.move("hatched", "brooding", 10, days=1.999, place=nest.place)
    assert standing_broods(nest) == [Brood(nest.lot, nest.place, {"brooding": 14})]


@pytest.mark.parametrize("book", [brooded_book, tallied_book, odd_book])
def test_places_hold_as_many_as_the_counts_say(book: Any) -> None:
    """Whatever was written in whichever order: no place makes or loses a chick."""
    for seed in range(40):
        standing = fold([read_entry(document) for document in book(seed)])
        for lot in standing.lots.values():
            there = {stage: sum(one.stages.get(stage, 0) for one in broods_of(standing, lot)) for stage in YOUNG}
            assert there == {stage: max(0, lot.stages.get(stage, 0)) for stage in YOUNG}, seed


@pytest.mark.parametrize("book", [tallied_book, hatched_among_book])
def test_chicks_of_unknown_family_are_no_more_than_the_counts_leave(book: Any) -> None:
    found = 0
    for seed in range(40):
        standing = fold([read_entry(document) for document in book(seed)])
        for brood in broods(standing):
            found += bool(brood.among)
            if brood.among:
                assert _shared_room(standing, brood) >= sum(
                    one.n for one in broods(standing) if one.among == brood.among
                )
    assert found, "some of these books have chicks of unknown family"


def _shared_room(standing: Standing, brood: Brood) -> int:
    """Living chicks of the lots together, less those known to be of one of them."""
    tied = tied_to(standing, standing.lots[brood.lot])
    known = sum(max(0, lot.stages.get(stage, 0)) for lot in tied.lots for stage in LIVING)
    return sum(tied.stages.get(stage, 0) for stage in LIVING) - known


def test_chicks_of_unknown_family_are_a_brood_of_the_lots_they_may_be_of() -> None:
    mixed = Mixed()
    one, both = mixed.lots[0], tuple(mixed.lots)
    assert standing_broods(mixed) == [
        Brood(one, mixed.box, {"hatched": 1}),
        Brood(one, mixed.box, {"hatched": 19}, both),
    ]
    mixed.move("hatched", "brooding", 19, days=1, why="pulled", place=mixed.place)
    mixed.move("brooding", "died", 2, days=2)
    mixed.move("brooding", "growing", 5, days=30)
    assert standing_broods(mixed)[1:] == [Brood(one, mixed.place, {"brooding": 12, "growing": 5}, both)]


def test_losses_among_chicks_of_known_family_make_no_brood() -> None:
    """Two of twelve and two are gone: whose nobody knows, and none is left over that would be of unknown family."""
    mixed = Mixed(known=12, unknown=2)
    mixed.move("hatched", "died", 4, days=1)
    assert [(brood.n, bool(brood.among)) for brood in standing_broods(mixed)] == [(12, False)]
    mixed.move("died", "hatched", 4, days=2)
    assert [(brood.n, bool(brood.among)) for brood in standing_broods(mixed)] == [(12, False), (2, True)]


def test_chicks_told_apart_later_are_no_longer_of_unknown_family() -> None:
    mixed = Mixed(known=0, unknown=20)
    for lot in mixed.lots:
        mixed.book.move(lot, "hatched", "brooding", 10, at=OUT + timedelta(days=1), place=mixed.place)
    assert [(brood.lot, brood.n, brood.among) for brood in standing_broods(mixed)] == [
        (lot, 10, ()) for lot in mixed.lots
    ]
