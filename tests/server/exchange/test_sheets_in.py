"""Spreadsheets in: what is read, what is refused and in which row, and that one file is one act.

The expected counts are added up by hand from the rows written here.
"""

import io
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.book.stages import NOT_WRITTEN
from broodline.book.whereabouts import broods
from broodline.errors import BroodlineError, EnvelopeError, TooLarge
from broodline.exchange.book_sheets import book_sheets
from broodline.exchange.csv_text import csv_bytes
from broodline.exchange.sheet_choice import read_tables
from broodline.exchange.sheets_in import read_sheets, undo_entries
from broodline.exchange.table_in import MOST_ROWS
from broodline.exchange.told_in import Told, read_told
from broodline.reports.agenda import due
from broodline.reports.inspection import inspection
from broodline.reports.season import season_report
from tests.book_writer import BookWriter
from tests.server.exchange.told_books import FORMULAS

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
FAMILIES = """Name;Breed;Species;Shell;Letter
Rowan;Marsh Speckle;Chicken;brown;R
Hazel;Marsh Speckle;chicken;tinted;H
Sedge;Brook Grey;duck;blue;S
"""
HATCHES = """Date set,Line,Eggs set,Incubator,Infertile,Early dead,Dead in shell,Hatched,Died first week,Reared,Moon
01/03/2025,Rowan,24,Loft box,3,2,4,15,1,8,full
01/03/2025,Hazel,20,Loft box,2,1,5,12,0,6,
15/04/2025,Rowan,12,Loft box,1,,,9,,,
"""


def keeper_book(*more):
    writer = BookWriter()
    writer.keeper()
    return [*writer.entries(), *more]


def taken(text, entries, name="table.csv", now=NOW, **told):
    content = text.encode() if isinstance(text, str) else text
    return read_sheets(name, content, Told(**told), fold(entries), now)


@pytest.fixture
def with_families():
    entries = keeper_book()
    return [*entries, *taken(FAMILIES, entries).entries]


def test_families_are_read_from_a_table_with_semicolons(with_families):
    families = {one.name: one for one in fold(with_families).families.values()}
    assert [(name, one.species, one.shell, one.sign) for name, one in sorted(families.items())] == [
        ("Hazel", "chicken", "tinted", "H"),
        ("Rowan", "chicken", "brown", "R"),
        ("Sedge", "duck", "blue", "S"),
    ]


def test_past_hatches_add_up_to_the_rows_and_leave_nothing_due(with_families):
    found = taken(HATCHES, with_families)
    assert found.bad == []
    assert found.tables[0].passed_over == ["Moon"]
    standing: Any = fold([*with_families, *found.entries])
    assert standing.problems == ()
    lots = {
        (standing.families[lot.family].name, lot.n): {stage: n for stage, n in lot.stages.items() if n}
        for lot in standing.lots.values()
    }
    assert lots == {
        ("Rowan", 24): {"clear": 3, "blood_ring": 2, "unhatched": 4, "died": 1, "flock": 8, "parted": 6},
        ("Hazel", 20): {"clear": 2, "blood_ring": 1, "unhatched": 5, "flock": 6, "parted": 6},
        ("Rowan", 12): {"clear": 1, "unhatched": 2, "parted": 9},
    }
    assert len(standing.settings) == 2  # two rows of one day and machine are one setting
    report = season_report(standing, 2025, NOW)
    rates = {one["name"]: one for one in report["families"]}
    assert (rates["Rowan"]["hatch_of_set"]["k"], rates["Rowan"]["hatch_of_set"]["n"]) == (15 + 9, 24 + 12)
    # of the nine nobody wrote what became of them: they are in no share that is alive at a week
    assert (rates["Rowan"]["alive_7d"]["k"], rates["Rowan"]["alive_7d"]["n"]) == (14, 15)
    assert due(standing, NOW)["tasks"] == []


def test_chicks_of_whom_nothing_was_written_are_neither_sold_nor_lost_nor_here(with_families):
    standing: Any = fold([*with_families, *taken(HATCHES, with_families).entries])
    told = inspection(standing, date(2025, 1, 1), date(2025, 12, 31))
    assert told["left"] == []
    assert [row["what"] for row in told["deaths"]] == ["1, batch of Rowan"]  # the one that the table says died
    assert sum(row["hatched"] for row in told["hatched"]) == 15 + 12 + 9
    assert [brood.n for brood in broods(standing)] == []
    lost = [row["died"] + row["missing"] + row["culled"] for row in season_report(standing, 2025, NOW)["chick_losses"]]
    assert sum(lost) == 1
    untold = [head.body for head in standing.heads["moved"] if head.body.cause == NOT_WRITTEN]
    assert sum(move.n for body in untold for move in body.moves) == 6 + 6 + 9
    assert {body.why for body in untold} == {None}


def test_a_clear_of_0_was_candled_and_an_empty_cell_says_nothing(with_families):
    """Of 20 eggs with 4 clear and 20 with none 36 of 40 are fertile; of 12 of which nobody wrote nothing is known."""
    head = "Set,Family,Eggs,Clear,Hatched\n"
    rows = head + "2025-03-01,Rowan,20,4,10\n2025-04-15,Rowan,20,0,14\n2025-05-20,Rowan,12,,9\n"
    book = [*with_families, *taken(rows, with_families).entries]
    standing = fold(book)
    assert standing.problems == ()
    fertility = next(one for one in season_report(standing, 2025, NOW)["families"] if one["name"] == "Rowan")[
        "fertility"
    ]
    assert (fertility["k"], fertility["n"]) == (36, 40)
    again = taken(rows, book)
    assert {entry.id for entry in again.entries} == {entry.id for entry in book} - {one.id for one in with_families}
    book += undo_entries(again, standing, NOW)
    assert (fold(book).settings, fold(book).heads.get("looked", ()), fold(book).problems) == ({}, (), ())


def test_the_same_file_adds_nothing_is_undone_as_one_and_comes_back(with_families):
    book = list(with_families)
    for _ in range(3):
        first = taken(HATCHES, book)
        known = {entry.id for entry in book}
        assert known.isdisjoint(entry.id for entry in first.entries)
        book += first.entries
        again = taken(HATCHES, book)
        assert [entry.id for entry in again.entries] == [entry.id for entry in first.entries]
        assert again.bad == []
        undone = undo_entries(again, fold(book), NOW)
        assert len(undone) == len(first.entries)
        book += undone
        standing = fold(book)
        assert (standing.settings, standing.lots, standing.problems) == ({}, {}, ())
        assert len(standing.families) == 3  # they came from another file
        assert undo_entries(taken(HATCHES, book), standing, NOW) == []


def test_undoing_takes_back_what_a_keeper_corrected_too(with_families):
    found = taken(HATCHES, with_families)
    book = [*with_families, *found.entries]
    writer = BookWriter()
    setting = next(entry for entry in found.entries if entry.kind == "set")
    writer.write("set", {**setting.body, "note": "windy"}, at=NOW, amends=setting.id)
    corrected = writer.entries()[0]._replace(id="019aa000-0000-7000-8000-000000000001")
    book = [*book, corrected]
    assert any(one.note == "windy" for one in fold(book).settings.values())
    book += undo_entries(taken(HATCHES, book), fold(book), NOW)
    assert fold(book).settings == {}


BAD_ROWS = [
    ("01/03/2025,Nobody,12,,,,,9,,", "family"),
    ("31/02/2025,Rowan,12,,,,,9,,", "set_on"),
    (",Rowan,12,,,,,9,,", "set_on"),
    ("01/03/2031,Rowan,12,,,,,9,,", "set_on"),
    ("20/11/2026,Rowan,12,,,,,9,,", "set_on"),
    ("01/03/2025,Rowan,ten,,,,,9,,", "eggs"),
    ("01/03/2025,Rowan,0,,,,,9,,", "eggs"),
    ("01/03/2025,Rowan,12,,5,2,,9,,", "eggs"),
    ("01/03/2025,Rowan,12,,,,,,,", "hatched"),
    ("01/03/2025,Rowan,12,,,,,-3,,", "hatched"),
    ("01/03/2025,Rowan,12,,,,,9,8,3", "hatched"),
    ("01/03/2025,,12,,,,,9,,", "family"),
]


@pytest.mark.parametrize(("row", "field"), BAD_ROWS)
def test_a_bad_row_is_told_by_its_number_and_field_and_the_others_go_in(with_families, row, field):
    found = taken(f"{HATCHES}\n\n{row}\n", with_families)
    assert [(one.number, one.field) for one in found.bad] == [(7, field)]
    assert all(one.message and one.remedy for one in found.bad)
    assert len([entry for entry in found.entries if entry.kind == "set"]) == 2


def test_birds_find_their_parents_in_any_order_and_days_are_read_one_way(with_families):
    text = (
        "Band,Band color,Sex,Strain,Hatch date,Father,Mother,Status,Date left\n"
        "R3,red,F,Rowan,5/20/2025,R1,R2,,\n"
        "R1,red,M,Rowan,4/1/2023,,,alive,\n"
        "R2,red,F,Rowan,4/1/2023,,X9,Died,6/2/2026\n"
        ",blue,M,Rowan,,,,,\n"
    )
    found = taken(text, with_families)
    told = sorted((one.number, one.field, one.taken) for one in found.bad)
    assert told == [(4, "dam", True), (5, "name", False)]
    standing: Any = fold([*with_families, *found.entries])
    everyone: Any = birds_of(standing, None)
    birds = {one.body.tags[0].text: one for one in everyone.values()}
    assert birds["R1"].body.hatched_on == "2023-04-01"
    assert birds["R3"].body.sires[0].bird == birds["R1"].id
    assert birds["R3"].body.dams[0].bird == birds["R2"].id
    assert (birds["R2"].where, birds["R3"].where) == ("gone", "here")
    assert standing.heads["left"][0].body.on == "2026-06-02"


def test_a_circle_of_parents_ends(with_families):
    found = taken("Name,Sex,Sire\nA,m,B\nB,m,A\n", with_families)
    assert len(fold([*with_families, *found.entries]).heads["bird"]) == 2
    assert [one.field for one in found.bad] == ["sire"]


def test_a_workbook_of_several_sheets_is_one_act_and_families_come_first():
    book = openpyxl.Workbook()
    page: Any = book.active
    page.title = "Counts"
    page.append(["Set on", "Family", "Eggs", "Hatched"])
    page.append([datetime(2025, 3, 1, tzinfo=UTC).replace(tzinfo=None), "Rowan", 24, 15.0])
    other = book.create_sheet("Lines")
    other.append(["Line", "Species", "Breed"])
    other.append(["Rowan", "chicken", "Marsh Speckle"])
    book.create_sheet("Shopping").append(["What", "How much"])
    out = io.BytesIO()
    book.save(out)
    entries = keeper_book()
    found = taken(out.getvalue(), entries, "mine.xlsx")
    assert [(one.table.name, one.kind) for one in found.tables] == [("Lines", "families"), ("Counts", "hatches")]
    assert found.others == ["Shopping"]
    standing: Any = fold([*entries, *found.entries])
    assert [(lot.n, standing.families[lot.family].name) for lot in standing.lots.values()] == [(24, "Rowan")]
    undone = undo_entries(found, standing, NOW)
    assert fold([*entries, *found.entries, *undone]).families == {}


def test_columns_can_be_told_and_a_wrong_one_is_refused(with_families):
    text = "When,Whose,Put in,Came out\n2025-03-01,Rowan,24,15\n"
    lost = taken(text, with_families, kind="hatches")
    assert (lost.entries, [one.field for one in lost.bad]) == ([], ["set_on", "family", "eggs", "hatched"])
    told = {"set_on": "when", "family": "Whose", "eggs": "Put in", "hatched": "Came out"}
    assert taken(text, with_families, kind="hatches", columns=told).bad == []
    with pytest.raises(EnvelopeError, match="No column is headed Moon"):
        taken(text, with_families, kind="hatches", columns={"eggs": "Moon"})
    with pytest.raises(EnvelopeError, match="nothing named moon"):
        taken(text, with_families, kind="hatches", columns={"moon": "When"})


def test_days_in_digits_follow_the_file_then_the_keeper_then_the_country(with_families):
    def first_day(text, **told):
        standing = fold([*with_families, *taken(text, with_families, **told).entries])
        return min(datetime.fromtimestamp(one.set_at_ms / 1000, UTC).date() for one in standing.settings.values())

    head = "Set,Family,Eggs,Hatched\n"
    assert first_day(head + "03/04/2025,Rowan,9,5\n") == date(2025, 4, 3)
    assert first_day(head + "03/04/2025,Rowan,9,5\n", dates="mdy") == date(2025, 3, 4)
    assert first_day(head + "03/04/2025,Rowan,9,5\n05/20/2025,Rowan,9,5\n") == date(2025, 3, 4)
    assert first_day(head + "3 March 2025,Rowan,9,5\n") == date(2025, 3, 3)


def test_letters_of_windows_and_shielded_formulas_are_read():
    entries = keeper_book()
    families = "Name;Species;Breed\nKöster;chicken;Höner\n".encode("cp1252")
    book = [*entries, *taken(families, entries).entries]
    assert [one.name for one in fold(book).families.values()] == ["Köster"]
    writer = BookWriter()
    for name in FORMULAS:
        writer.family(name.strip())
    sheet = next(one for one in book_sheets(fold(writer.entries())) if one.name == "families")
    back = fold([*entries, *taken(csv_bytes(sheet), entries).entries])
    assert {one.name for one in back.families.values()} == {name.strip() for name in FORMULAS}


@pytest.mark.parametrize(
    "words",
    [{"kind": "eggs"}, {"dates": "dym"}, {"columns": ["a"]}, {"columns": {"a": 1}}, {"species": "dodo"}, {"breed": 3}],
)
def test_what_is_told_wrongly_is_refused(words):
    with pytest.raises(EnvelopeError):
        read_told(words)


def test_files_that_are_no_tables_and_tables_without_end_are_refused():
    for name, content in [("a.xlsx", b"PK\x03\x04broken"), ("a.xlsx", b""), ("a.csv", b"\n\n"), ("a.csv", b"a\x00b")]:
        with pytest.raises(EnvelopeError, match=r"^([a-z ,]|The|: )+[.]$"):  # words, and no name out of a program
            read_tables(name, content)
    with pytest.raises(TooLarge):
        read_tables("a.csv", b"Name\n" + b"x\n" * (MOST_ROWS + 1))


@given(st.binary(max_size=300), st.sampled_from(["a.csv", "a.xlsx", "a"]))
def test_any_bytes_are_read_or_refused_in_words(content, name):
    with suppress(BroodlineError):
        found = read_sheets(name, b"Name,Sex,Ring\n" * (name == "a.csv") + content, Told(), fold([]), NOW)
        assert all(one.message for one in found.bad)
