"""Spreadsheets read again, corrected, and taken back while others use what they brought.

The expected counts are those of the rows written here.
"""

import pytest

from broodline.book.fold import fold
from broodline.exchange.sheets_in import undo_entries
from tests.book_writer import BookWriter
from tests.server.exchange.test_sheets_in import FAMILIES, NOW, keeper_book, taken

HEAD = "Set,Family,Incubator,Eggs,Clear,Hatched\n"
OAK, ELM, ASH = (f"2026-03-08,{name},Loft box,20,2,12\n" for name in ("Rowan", "Hazel", "Ash"))
TOLD = {"species": "chicken", "breed": "Marsh Speckle"}


@pytest.fixture
def book():
    entries = keeper_book()
    return [*entries, *taken(FAMILIES, entries).entries]


def undone(text, book, **told):
    return undo_entries(taken(text, book, **told), fold(book), NOW)


def test_rows_whose_counts_were_corrected_are_refused_and_the_book_stays_as_it_was(book):
    first = [*book, *taken(HEAD + OAK + ELM, book).entries]
    corrected = HEAD + OAK.replace(",12", ",14") + ELM
    again = taken(corrected, first)
    assert again.entries == []
    assert [(row.number, row.field) for row in again.bad] == [(2, "set_on"), (3, "set_on")]
    assert all("changed since" in row.message and "as it was" in row.remedy for row in again.bad)
    first += undone(HEAD + OAK + ELM, first)
    second = taken(corrected, first)
    assert second.bad == []
    lots = fold([*first, *second.entries]).lots.values()
    assert sorted(lot.stages["unhatched"] for lot in lots) == [20 - 2 - 14, 20 - 2 - 12]


def test_a_file_read_again_later_adds_nothing_to_what_a_keeper_wrote_since(book):
    text = "Set,Family,Eggs,Hatched,Kept\n2026-09-20,Rowan,12,10,10\n"
    first = [*book, *taken(text, book).entries]
    later = NOW.replace(year=2027, month=3)
    again = taken(text, first, now=later)
    assert {entry.id for entry in again.entries} <= {entry.id for entry in first}
    assert again.bad == []


def test_undoing_takes_back_what_the_file_brought_and_nothing_that_others_use(book):
    first = [*book, *taken(HEAD + OAK, book).entries]
    other = taken(HEAD + OAK + ASH, first, **TOLD)
    assert [row.number for row in other.bad] == [2]
    both = [*first, *other.entries]
    assert len(fold(both).lots) == 2
    back = undone(HEAD + OAK + ASH, both, **TOLD)
    after = fold([*both, *back])
    before = fold(first)
    assert (after.lots, after.places, after.families, after.problems) == (
        before.lots, before.places, before.families, (),
    )  # fmt: skip
    both += back
    anew = taken(HEAD + OAK + ASH, both, **TOLD)
    assert len(fold([*both, *anew.entries]).lots) == 2
    both += undone(HEAD + OAK, both)
    assert (fold(both).lots, fold(both).places) == ({}, {})  # the last who used the machine takes it back


def test_a_file_of_which_rows_were_refused_is_undone_when_those_could_be_read_too(book):
    text = HEAD + OAK + ASH
    part = taken(text, book)
    assert [(row.number, row.field) for row in part.bad] == [(3, "family")]
    writer = BookWriter()
    writer.family("Ash")
    ash = writer.entries()[0]._replace(id="019aa000-0000-7000-8000-000000000001")
    now = [*book, *part.entries, ash]
    again = taken(text, now)
    assert {entry.id for entry in again.entries} == {entry.id for entry in part.entries}
    assert [(row.number, row.field) for row in again.bad] == [(3, "set_on")]
    now += undone(text, now)
    assert (fold(now).lots, fold(now).places, fold(now).problems) == ({}, {}, ())
    assert "Ash" in {family.name for family in fold(now).families.values()}


def test_families_that_are_used_stay_when_their_file_is_undone(book):
    now = [*book, *taken(HEAD + OAK, book).entries]
    now += undone(FAMILIES, now)
    assert [family.name for family in fold(now).families.values()] == ["Rowan"]
    assert fold(now).problems == ()
    now += taken(FAMILIES, now).entries
    assert {family.name for family in fold(now).families.values()} == {"Rowan", "Hazel", "Sedge"}


def test_days_of_more_batches_than_an_entry_holds_are_known_and_undone_whole(book):
    rows = HEAD + "".join(f"2026-03-08,Rowan,Loft box,{n},0,1\n" for n in range(5, 57))
    now = [*book, *taken(rows, book).entries]
    assert len(fold(now).settings) == 3
    again = taken(rows, now)
    assert (again.bad, {entry.id for entry in again.entries} <= {entry.id for entry in now}) == ([], True)
    now += undone(rows, now)
    assert (fold(now).lots, fold(now).problems) == ({}, ())
