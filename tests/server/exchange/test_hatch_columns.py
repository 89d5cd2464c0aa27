"""Columns of past hatches as keepers have them: a breed in each row, chicks sold, cells that say they say nothing.

The expected counts are those of the rows written here.
"""

import pytest

from broodline.book.fold import fold
from broodline.exchange.sheets_in import undo_entries
from tests.server.exchange.test_sheets_in import NOW, keeper_book, taken

HEAD = "Set,Family,Species,Breed,Eggs,Clear,Hatched,Died first week,Kept,Sold\n"
ROWS = HEAD + "2026-03-08,Ash,chicken,Marsh Speckle,20,2,12,1,5,4\n2026-03-08,Elm,duck,Brook Grey,10,n/a,6,?,NA,none\n"


def test_a_breed_in_each_row_is_read_and_not_asked():
    found = taken(ROWS, keeper_book())
    assert (list(found.bad), list(found.asked), found.tables[0].passed_over) == ([], [], [])
    families = fold([*keeper_book(), *found.entries]).families.values()
    assert {(one.name, one.species, one.breed) for one in families} == {
        ("Ash", "chicken", "Marsh Speckle"),
        ("Elm", "duck", "Brook Grey"),
    }


def test_another_breed_than_the_familys_is_told_and_the_row_is_taken():
    book = [*keeper_book(), *taken(ROWS, keeper_book()).entries]
    other = taken(HEAD + "2026-05-08,Ash,chicken,Brook Grey,20,2,12,1,5,4\n", book)
    assert [(bad.number, bad.field, bad.taken) for bad in other.bad] == [(2, "breed", True)]
    assert len(fold([*book, *other.entries]).settings) == 3


def test_chicks_sold_left_as_sold_and_the_rest_as_not_written_of():
    book = [*keeper_book(), *taken(ROWS, keeper_book()).entries]
    standing = fold(book)
    ash, elm = sorted(standing.lots.values(), key=lambda lot: -lot.n)
    assert dict(ash.stages) == {"clear": 2, "unhatched": 6, "died": 1, "flock": 5, "parted": 12 - 1 - 5}
    gone = {(move.why, move.cause): move.n for move in ash.moves if move.target == "parted"}
    assert gone == {("left", None): 4, (None, "not written"): 2}
    assert (dict(elm.stages), elm.looks, standing.problems) == ({"unhatched": 4, "parted": 6}, (), ())
    changed = taken(ROWS.replace("1,5,4\n", "1,5,6\n"), book)
    assert [(bad.number, bad.field) for bad in changed.bad] == [(2, "set_on")]
    book += undo_entries(changed, standing, NOW)
    assert (fold(book).lots, fold(book).families, fold(book).places) == ({}, {}, {})
    more = taken(ROWS.replace("1,5,4\n", "1,5,7\n"), keeper_book())
    assert [(bad.number, bad.field) for bad in more.bad] == [(2, "hatched")]


@pytest.mark.parametrize("cell", ["n/a", "NA", "none", "?", "-", "n.a."])
def test_a_cell_that_says_it_says_nothing_is_read_like_an_empty_one(cell):
    rows = "Set,Family,Species,Breed,Incubator,Eggs,Clear,Hatched\n2026-03-08,Ash,chicken,Sussex,{0},20,{0},12\n"
    empty, told = (taken(rows.format(one), keeper_book()) for one in ("", cell))
    assert told.bad == []
    assert [entry.body for entry in told.entries if entry.kind != "looked"] == [entry.body for entry in empty.entries]


def test_what_is_wrong_names_the_family_and_one_that_is_left_out_whole_is_told():
    rows = HEAD + "".join(f"2026-03-0{day},Oak,chicken,Sussex,20,two,12,,,\n" for day in (1, 2, 3))
    found = taken(rows + "2026-03-08,Ash,chicken,Sussex,20,2,12,,,\n", keeper_book())
    told = [bad for bad in found.bad if bad.number]
    assert [bad.number for bad in told] == [2, 3, 4]
    assert all(bad.message.startswith("Oak: ") and "leave the cell empty" in bad.remedy for bad in told)
    needed = taken(HEAD + "2026-03-08,Oak,chicken,Sussex,20,2,ten,,,\n", keeper_book()).bad[0]
    assert (needed.field, "empty" in needed.remedy) == ("hatched", False)
    (whole,) = [bad for bad in found.bad if not bad.number]
    assert "Not one of the 3 rows of Oak" in whole.message
    assert whole.as_read
