"""Workbooks as keepers have them: titles, merged headings, totals, days written in every way, names spelled twice.

Nothing of them may go in wrongly without a word; what is refused names its row. The expected values are read off the
rows written here.
"""

import io
from datetime import UTC, datetime
from typing import Any

import openpyxl
import pytest

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.errors import EnvelopeError, TooLarge
from broodline.exchange.sheet_choice import read_tables
from broodline.exchange.told_in import SheetTold
from broodline.trade.calendar import local_date
from tests.server.exchange.test_sheets_in import FAMILIES, keeper_book, taken

HEAD = "Set,Family,Eggs,Hatched\n"
BREED = {"species": "chicken", "breed": "Marsh Speckle"}


@pytest.fixture
def book():
    entries = keeper_book()
    return [*entries, *taken(FAMILIES, entries).entries]


def workbook(*rows, title="Hatches", change=None):
    made = openpyxl.Workbook()
    page: Any = made.active
    page.title = title
    for row in rows:
        page.append(row)
    if change is not None:
        change(made, page)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def lots_of(found, book):
    """[(day set, family, eggs, hatched)], in the order of days."""
    standing: Any = fold([*book, *found.entries])
    rows = [
        (
            local_date(datetime.fromtimestamp(standing.settings[lot.setting].set_at_ms / 1000, UTC), "Europe/Dublin"),
            standing.families[lot.family].name,
            lot.n,
            lot.n - lot.stages.get("unhatched", 0) - lot.stages.get("clear", 0),
        )
        for lot in standing.lots.values()
    ]
    return sorted(rows)


def told(found):
    return [(one.number, one.field, one.taken, one.as_read) for one in found.bad]


def test_a_title_and_merged_headings_over_the_table_are_passed_by(book):
    def merge(_made, page):
        page.merge_cells("A1:E1")
        page.merge_cells("C3:D3")

    content = workbook(
        ["Hatches of 2025, set by hand", None, None, None, None],
        [],
        [None, None, "Eggs", None, "Chicks"],
        ["Date", "Family", "set", "clear", "hatched"],
        [datetime(2025, 3, 1), "Rowan", 24, 3, 15],  # noqa: DTZ001 a workbook's days have no zone
        change=merge,
    )
    found = taken(content, book, "mine.xlsx")
    assert found.bad == []
    assert (found.tables[0].table.heading_row, lots_of(found, book)) == (4, [("2025-03-01", "Rowan", 24, 15)])


def test_columns_with_no_heading_or_the_same_one_are_told_and_can_be_chosen(book):
    text = "Set,Family,,Eggs,Hatched,Hatched\n2025-03-01,Rowan,7,24,15,12\n"
    found = taken(text, book)
    assert found.tables[0].passed_over == ["column C", "Hatched (column F)"]
    other = taken(text, book, columns={"hatched": "Hatched (column F)", "clear": "column C"})
    assert lots_of(other, book) == [("2025-03-01", "Rowan", 24, 12)]


def test_sums_below_a_table_bring_nothing_and_are_told(book):
    found = taken(HEAD + "2025-03-01,Rowan,24,15\n,Total,24,15\nTotal 120,,,\n", book)
    assert told(found) == [(3, "family", False, True), (4, "set_on", False, True)]
    assert len(lots_of(found, book)) == 1
    families = taken("Name,Species,Breed\nRowan,chicken,Marsh Speckle\nTotal,,\n", keeper_book(), **BREED)
    assert [one.name for one in fold([*keeper_book(), *families.entries]).families.values()] == ["Rowan"]
    birds = taken("Name,Sex\nNell,f\nTotal: 120,\n", book)
    assert len(fold([*book, *birds.entries]).heads["bird"]) == 1


def test_shares_are_no_counts_in_whatever_form(book):
    headed = taken("Set,Family,Eggs,Hatched %,Hatched\n2025-03-01,Rowan,24,63,15\n", book)
    assert lots_of(headed, book) == [("2025-03-01", "Rowan", 24, 15)]
    chosen = taken("Set,Family,Eggs,Hatch %\n2025-03-01,Rowan,80,63\n", book, columns={"hatched": "Hatch %"})
    assert (told(chosen), chosen.bad[0].message) == (
        [(2, "hatched", False, False)], "Rowan: The column “Hatch %” holds shares, not counts.",
    )  # fmt: skip

    def percent(_made, page):
        page["D2"].number_format = "0%"

    whole = taken(workbook(["Set", "Family", "Eggs", "Hatched"], ["2025-03-01", "Rowan", 24, 1.0], change=percent),
                  book, "a.xlsx")  # fmt: skip
    assert [(one.number, one.message) for one in whole.bad] == [(2, "Rowan: “100 %” is a share.")]
    assert [one.number for one in taken(HEAD + "2025-03-01,Rowan,24,63 %\n", book).bad] == [2]


def test_counts_with_decimal_commas_are_read_where_they_are_whole(book):
    text = "Set;Family;Eggs;Hatched\n2025-03-01;Rowan;24,0;15,00\n2025-03-02;Rowan;24,5;15\n"
    found = taken(text, book)
    assert (lots_of(found, book), told(found)) == ([("2025-03-01", "Rowan", 24, 15)], [(3, "eggs", False, False)])


def test_more_chicks_than_eggs_are_refused_with_their_row(book):
    found = taken(HEAD + "2025-03-01,Rowan,12,15\n", book)
    assert [(one.number, one.message) for one in found.bad] == [(2, "Rowan: 12 eggs were set, but more are told of.")]


def test_one_family_in_several_spellings_is_one_and_near_names_are_told(book):
    rows = "2025-03-01,Rowan,24,15\n2025-03-02,rowan ,20,9\n2025-03-03,Rowan line,9,5\n2025-03-04,Rowan line,9,4\n"
    for known, more in ((book, {}), (keeper_book(), BREED)):
        found = taken(HEAD + rows, known, **more)
        assert told(found) == [(4, "family", True, True)]
        assert "“Rowan line” was read as Rowan." in found.bad[0].message
        assert {row[1] for row in lots_of(found, known)} == {"Rowan"}
        after = [*known, *found.entries]
        assert {one.id for one in taken(HEAD + rows, after, **more).entries} <= {one.id for one in after}
    composed = taken("Name,Species,Breed\nK\u00f6ster,chicken,Speckle\nKo\u0308ster,chicken,Speckle\n", keeper_book())
    assert len(fold([*keeper_book(), *composed.entries]).families) == 1
    two = [*book, *taken("Name,Species,Breed\nRowan line,duck,Brook Grey\n", book).entries]
    assert told(taken("Name,Species,Breed\nRowan line,duck,Brook Grey\n", book)) == [(2, "name", True, True)]
    assert [row[1] for row in lots_of(taken(HEAD + "2025-03-03,Rowan line,9,5\n", two), two)] == ["Rowan line"]
    unsure = taken(HEAD + "2025-03-03,the Rowan family,9,5\n", two)
    assert [one.message for one in unsure.bad] == ["“the Rowan family” may be Rowan or Rowan line."]


def test_a_family_known_with_another_breed_keeps_it_and_says_so(book):
    found = taken("Name,Species,Breed,Sign\nrowan,chicken,Brook Grey,R\n", book)
    assert told(found) == [(2, "breed", True, False)]
    assert fold([*book, *found.entries]).families == fold(book).families
    twice = taken("Name,Species,Breed\nAsh,chicken,Brook Grey\nASH,chicken,Marsh Speckle\n", book)
    assert told(twice) == [(3, "breed", True, False)]
    assert taken(FAMILIES, book).bad == []


def test_rows_copied_twice_are_read_and_told(book):
    found = taken(HEAD + "2025-03-01,Rowan,24,15\n2025-03-01,Rowan,24,15\n", book)
    assert (told(found), len(lots_of(found, book))) == ([(3, "eggs", True, True)], 2)
    assert "row 2" in found.bad[0].message


def test_a_bird_that_two_rows_name_is_nobodys_parent(book):
    found = taken("Name,Sex,Sire\nRed,m,\nRed,m,\nNell,f,Red\n", book)
    assert told(found) == [(4, "sire", True, False)]
    assert "Several birds are known as Red." in found.bad[0].message


def test_a_bird_that_left_says_how_or_is_refused(book):
    text = "Name,Sex,Status,{}\nNell,f,,2025-06-02\nRuby,f,alive,2025-06-02\nPearl,f,sold,2025-06-02\nOna,f,,\n"
    found = taken(text.format("Date left"), book)
    assert told(found) == [(2, "left_how", False, False), (3, "left_how", False, False)]
    standing: Any = fold([*book, *taken(text.format("Died on"), book).entries])
    everyone: Any = birds_of(standing, None)
    assert {everyone[head.body.bird].body.name: head.body.how for head in standing.heads["left"]} == {
        "Nell": "died", "Pearl": "sold",
    }  # fmt: skip
    assert told(taken("Name,Sex,Left\nNell,f,yes\nOna,f,no\n", book)) == [(2, "left_how", False, False)]


def test_faults_of_formulas_and_lost_letters_are_refused_with_their_row(book):
    found = taken("Name,Species,Breed\n#REF!,chicken,Speckle\n#N/A,chicken,Speckle\nAsh,chicken,Speckle\n", book)
    assert told(found) == [(2, "name", False, False), (3, "name", False, False)]
    lost = taken(b"Name,Species,Breed\nK\x81ster,chicken,Speckle\n", book)
    assert (told(lost), lost.entries) == ([(2, "name", False, False)], [])


@pytest.mark.parametrize(
    "content",
    [
        "Name;Species;Breed\nKöster;chicken;Höner\n".encode("cp1252"),
        "Name\tSpecies\tBreed\nKöster\tchicken\tHöner\n".encode("utf-16"),
        "sep=;\nName;Species;Breed\nKöster;chicken;Höner\n".encode(),
        "My lines, as of May, 2025, by hand\n\nName;Species;Breed\nKöster;chicken;Höner\n".encode("utf-8-sig"),
        "Name;Species;Breed\r\nKöster;chicken;Höner\r\n".encode("utf-16-le").join((b"\xff\xfe", b"")),
    ],
)
def test_text_of_other_programs_is_read(content):
    found = taken(content, keeper_book())
    (family,) = fold([*keeper_book(), *found.entries]).families.values()
    assert (found.bad, family.name, family.breed) == ([], "Köster", "Höner")


@pytest.mark.parametrize(
    "rows", ['"Ash,chicken,Speckle\nOak,duck,Grey\n', 'Ash,chicken,"5\nOak,duck,"\nElm,duck,Grey\n']
)
def test_a_quotation_mark_that_is_not_closed_swallows_no_rows(rows):
    with pytest.raises(EnvelopeError, match=r"quotation mark in row [23]"):
        read_tables("a.csv", f"Name,Species,Breed\n{rows}".encode())


def test_a_sheet_with_only_headings_says_so(book):
    found = taken(HEAD, book)
    assert [(one.number, one.as_read, one.message) for one in found.bad] == [
        (0, True, "There are headings and no rows.")
    ]


def test_a_sheet_formatted_to_its_end_is_no_long_table_and_a_wide_one_is_refused(book):
    def far(_made, page):
        page["A19990"].number_format = "0.00"

    assert lots_of(taken(workbook(["Set", "Family", "Eggs", "Hatched"], ["2025-03-01", "Rowan", 24, 15], change=far),
                         book, "a.xlsx"), book) == [("2025-03-01", "Rowan", 24, 15)]  # fmt: skip
    with pytest.raises(TooLarge, match="Row 2 goes on beyond column 100"):
        read_tables("a.csv", b"Name,Sex\nNell,f" + b"," * 100 + b"x\n")


def several():
    made = openpyxl.Workbook()
    page: Any = made.active
    page.title = "Lines"
    page.append(["Line", "Species", "Breed"])
    page.append(["Rowan", "chicken", "Marsh Speckle"])
    counts = made.create_sheet("Counts 2025")
    counts.append(["When", "Whose", "Put in", "Came out"])
    counts.append(["03/04/2025", "Rowan", 24, 15])
    feed = made.create_sheet("Birds fed")
    feed.append(["Name", "Sex", "Feed"])
    feed.append(["Sack", "f", 20])
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


COUNTS = {"set_on": "When", "family": "Whose", "eggs": "Put in", "hatched": "Came out"}


def test_each_sheet_of_a_workbook_is_told_by_itself():
    found = taken(several(), keeper_book(), "mine.xlsx")
    assert ([one.table.name for one in found.tables], found.others) == (["Lines", "Birds fed"], ["Counts 2025"])
    sheets = {
        "Counts 2025": SheetTold("hatches", columns=COUNTS, dates="mdy"),
        "birds fed": SheetTold(is_ours=False),
    }
    mine = taken(several(), keeper_book(), "mine.xlsx", sheets=sheets)
    assert ([one.kind for one in mine.tables], mine.others) == (["families", "hatches"], ["Birds fed"])
    assert lots_of(mine, keeper_book()) == [("2025-03-04", "Rowan", 24, 15)]
    none = taken(several(), keeper_book(), "mine.xlsx", sheets={
        name: SheetTold(is_ours=False) for name in ("Lines", "Counts 2025", "Birds fed")
    })  # fmt: skip
    assert (none.tables, none.entries, len(none.others)) == ([], [], 3)
    with pytest.raises(EnvelopeError, match="no sheet named Eggs"):
        taken(several(), keeper_book(), "mine.xlsx", sheets={"Eggs": SheetTold()})


def test_one_sheet_alone_is_read_and_told_of():
    book = keeper_book()
    book += taken(several(), book, "mine.xlsx", only="lines").entries
    only = taken(several(), book, "mine.xlsx", only="Counts 2025", kind="hatches", columns=COUNTS)
    assert (lots_of(only, book), only.others) == ([("2025-04-03", "Rowan", 24, 15)], ["Lines", "Birds fed"])
    with pytest.raises(EnvelopeError, match="several tables"):
        taken(several(), book, "mine.xlsx", kind="hatches")


def test_species_and_breed_are_asked_only_where_rows_do_not_say_them(book):
    assert taken(FAMILIES, book).asked == []
    assert taken("Name,Species\nAsh,chicken\n", book).asked == ["breed"]
    assert taken("Name\nAsh\n", book, kind="families", **BREED).asked == ["breed", "species"]
    assert taken(HEAD + "2025-03-01,Rowan,9,5\n", book).asked == []
    assert taken(HEAD + "2025-03-01,Ash,9,5\n", book).asked == ["breed", "species"]
