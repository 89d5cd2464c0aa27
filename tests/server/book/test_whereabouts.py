"""Where chicks are, told by moves that name only where they went; and a slow walk of single chicks beside it."""

import pytest

from broodline.book.fold import fold
from broodline.book.whereabouts import Brood, broods
from broodline.book.wire import read_entry
from tests.server.book.brooded_books import brooded_book
from tests.server.oracles.chicks_and_places import who_is_where
from tests.server.reports.test_brood import Nest


def standing_broods(nest: Nest) -> list[Brood]:
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
