"""Spreadsheets read again, corrected, and taken back while others use what they brought.

The expected counts are those of the rows written here.
"""

from datetime import UTC, datetime

import pytest

from broodline.book.fold import fold
from broodline.exchange.sheets_in import undo_entries
from tests.book_writer import BookWriter
from tests.server.exchange.test_sheets_in import FAMILIES, HATCHES, NOW, keeper_book, taken

HEAD = "Set,Family,Incubator,Eggs,Clear,Hatched\n"
OAK, ELM, ASH = (f"2026-03-08,{name},Loft box,20,2,12\n" for name in ("Rowan", "Hazel", "Ash"))
TOLD = {"species": "chicken", "breed": "Marsh Speckle"}


@pytest.fixture
def book():
    entries = keeper_book()
    return [*entries, *taken(FAMILIES, entries).entries]


def undone(text, book, **told):
    return undo_entries(taken(text, book, **told), fold(book), NOW)


def test_rows_whose_counts_were_corrected_are_refused_until_the_file_is_taken_back(book):
    first = [*book, *taken(HEAD + OAK + ELM, book).entries]
    corrected = HEAD + OAK.replace(",12", ",14") + ELM
    again = taken(corrected, first)
    assert again.entries == []
    assert [(row.number, row.field) for row in again.bad] == [(2, "set_on")]
    assert all("changed since" in row.message and "Take this file back" in row.remedy for row in again.bad)
    first += undone(corrected, first)  # the file that is at hand: it was saved over
    assert (fold(first).lots, fold(first).places, fold(first).problems) == ({}, {}, ())
    second = taken(corrected, first)
    assert second.bad == []
    lots = fold([*first, *second.entries]).lots.values()
    assert sorted(lot.stages["unhatched"] for lot in lots) == [20 - 2 - 14, 20 - 2 - 12]


def test_rows_put_right_after_the_good_ones_were_taken_join_their_setting(book):
    wrong, right = HEAD + OAK + ELM.replace(",20,", ",twenty,"), HEAD + OAK + ELM
    tried = taken(wrong, book)
    assert [(row.number, row.field) for row in tried.bad] == [(3, "eggs")]
    now = [*book, *tried.entries]
    for _ in range(2):
        second = taken(right, now)
        assert second.bad == []
        both = [*now, *second.entries]
        standing = fold(both)
        (setting,) = standing.settings.values()
        names = [standing.families[standing.lots[lot].family or ""].name for lot in setting.lots]
        assert (sorted(names), standing.problems) == (["Hazel", "Rowan"], ())
        assert [dict(standing.lots[lot].stages) for lot in setting.lots] == [
            {"clear": 2, "unhatched": 6, "parted": 12}
        ] * 2
        for text in (right, wrong):  # a second time nothing is added, whichever is read
            again = taken(text, both)
            assert {entry.id for entry in again.entries} <= {entry.id for entry in both}
            assert len(again.bad) == (text == wrong)
            back = undone(text, both)
            after = fold([*both, *back])
            assert (after.settings, after.lots, after.places, after.problems) == ({}, {}, {}, ())
            assert after.heads.get("moved", ()) == ()
        now = [*both, *back, *taken(wrong, [*both, *back]).entries]


def test_two_files_of_one_day_share_its_setting_and_each_is_taken_back_alone(book):
    oak, elm = HEAD + OAK, HEAD + ELM.replace(",2,12", ",0,12")
    now = [*book, *taken(oak, book).entries]
    now += taken(elm, now).entries
    assert [len(one.lots) for one in fold(now).settings.values()] == [2]
    for gone, stays in ((oak, "Hazel"), (elm, "Rowan")):
        left = [*now, *undone(gone, now)]
        standing = fold(left)
        assert [standing.families[lot.family or ""].name for lot in standing.lots.values()] == [stays]
        assert (len(standing.settings), standing.problems) == (1, ())
        back = taken(gone, left)
        assert back.bad == []
        whole = fold([*left, *back.entries])
        assert [len(one.lots) for one in whole.settings.values()] == [2]
        assert whole.problems == ()
        assert sorted(sum(lot.stages.values()) for lot in whole.lots.values()) == [20, 20]
        assert all(lot.stages["parted"] == 12 for lot in whole.lots.values())


def test_undoing_needs_neither_breed_nor_species_told_again(book):
    text = HEAD + OAK + ASH
    now = [*book, *taken(text, book, **TOLD).entries]
    assert "Ash" in {family.name for family in fold(now).families.values()}
    back = undone(text, now)
    assert len(back) == len(now) - len(book)
    after = fold([*now, *back])
    assert (after.lots, after.places, after.families) == ({}, {}, fold(book).families)
    families = "Name\nMoss\nAsh\n"
    now = [*book, *taken(families, book, kind="families", **TOLD).entries]
    assert len(undone(families, now, kind="families")) == 2


def test_a_file_read_again_later_adds_nothing_to_what_a_keeper_wrote_since(book):
    text = "Set,Family,Eggs,Hatched,Kept\n2026-09-20,Rowan,12,10,10\n"
    first = [*book, *taken(text, book).entries]
    later = NOW.replace(year=2027, month=3)
    again = taken(text, first, now=later)
    assert {entry.id for entry in again.entries} <= {entry.id for entry in first}
    assert again.bad == []


def test_undoing_takes_back_what_the_file_brought_and_nothing_that_others_use(book):
    first = [*book, *taken(HEAD + OAK, book).entries]
    other = taken(HEAD + ASH, first, **TOLD)
    both = [*first, *other.entries]
    assert len(fold(both).lots) == 2
    back = undone(HEAD + ASH, both)
    after = fold([*both, *back])
    before = fold(first)
    assert (after.lots, after.places, after.families, after.problems) == (
        before.lots, before.places, before.families, (),
    )  # fmt: skip
    both += back
    anew = taken(HEAD + ASH, both, **TOLD)
    assert len(fold([*both, *anew.entries]).lots) == 2
    both += undone(HEAD + OAK, both)
    assert (fold(both).lots, fold(both).places) == ({}, {})  # the last who used the machine takes it back


def test_a_row_refused_for_its_family_joins_the_day_once_the_book_has_that_family(book):
    text = HEAD + OAK + ASH
    part = taken(text, book)
    assert [(row.number, row.field) for row in part.bad] == [(3, "family")]
    writer = BookWriter()
    writer.family("Ash")
    ash = writer.entries()[0]._replace(id="019aa000-0000-7000-8000-000000000001")
    now = [*book, *part.entries, ash]
    again = taken(text, now)
    assert again.bad == []
    now += again.entries
    assert ([len(one.lots) for one in fold(now).settings.values()], fold(now).problems) == ([2], ())
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


def test_eggs_the_book_has_already_are_not_taken_twice(book):
    now = [*book, *taken(HATCHES, book).entries]
    longer = taken(HATCHES + "01/03/2025,Hazel,6,Loft box,,,,3,,,\n01/03/2025,Sedge,6,Loft box,,,,3,,,\n", now)
    assert longer.bad == []
    standing = fold([*now, *longer.entries])
    assert standing.problems == ()
    assert sum(lot.n for lot in standing.lots.values()) == 24 + 20 + 12 + 6 + 6
    assert len(standing.settings) == 3  # Sedge is another species
    assert taken(HATCHES, [*now, *longer.entries]).bad == []


def test_eggs_set_in_the_app_are_not_taken_from_a_table_too(book):
    standing = fold(book)
    rowan = next(one for one, family in standing.families.items() if family.name == "Rowan")
    writer = BookWriter()
    writer.minutes = 900_000
    writer.keeper()
    box = writer.incubator()
    writer.set_eggs(box, [(writer.lot(), rowan, 24)], set_at=datetime(2025, 3, 1, 9, tzinfo=UTC))
    found = taken(HATCHES, [*book, *writer.entries()])
    assert [(one.number, one.field) for one in found.bad] == [(2, "set_on")]
    assert "already." in found.bad[0].message
