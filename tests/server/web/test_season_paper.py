"""The season on paper: two sheets of either size, for the demo's five families and for twelve, with all it found."""

import re
from io import BytesIO

import pytest
from openpyxl import load_workbook

from broodline.book.fold import fold
from broodline.cli.season_words import say_season
from broodline.exchange.typeset import PAPERS
from broodline.reports.season import season_report
from broodline.web.exports import season_workbook
from broodline.web.papers import Wanted, season_paper
from tests.server.exchange.test_typeset import pages, text_of
from tests.server.exchange.told_books import NOW, demo_book
from tests.server.reports.test_season_outcome import NOW as MIXED_NOW
from tests.server.reports.test_season_outcome import mixed_book
from tests.twelve_families import NOW as TWELVE_NOW
from tests.twelve_families import twelve_families

WANTED = Wanted(NOW, None, "https://book.example")


@pytest.fixture(scope="module")
def demo():
    return demo_book()


def words_of(printed):
    return " ".join(text_of(printed.content).split())


@pytest.mark.parametrize("paper", PAPERS)
def test_the_season_prints_on_two_sheets_with_all_that_it_found(demo, paper):
    twelve = twelve_families()
    for standing, now in ((demo, NOW), (twelve, TWELVE_NOW)):
        printed = season_paper(standing, 2026, Wanted(now, paper, None))
        text = " ".join(text_of(printed.content).split())
        assert len(pages(printed.content)) == 2
        report = season_report(standing, 2026, now)
        for title in report["titles"].values():
            assert title in text
        for family in report["families"]:
            rate = family["hatch_of_set"]
            assert family["name"] in text
            assert rate["n"] == 0 or f"{rate['k']} of {rate['n']}, {100 * rate['rate']:.0f} % (" in text
        assert report["hatches"]
        assert all(f"{one['set_words']}, {one['place_name']}" in text for one in report["hatches"])
        assert report["chick_losses"]
        assert all(f"{one['lost']['k']} of {one['lost']['n']}, " in text for one in report["chick_losses"])
        assert all(str(one["year"]) in text for one in report["earlier"])
        assert all(one["words"] in text for one in report["against"])
        assert report["hatches_left_out"]["words"] in text
        assert report["problems"]
        assert "Settle it in the book." in text
    assert "No eggs set in this season, but in one before: Whitebeam." in text
    assert "And 1 more, in the book." in text


def test_a_family_whose_eggs_all_lie_in_a_machine_has_no_row_of_noughts(demo):
    text = words_of(season_paper(demo, 2026, WANTED))
    assert re.findall(r"Sedge \(duck\) \S+ [a-z ]{5,18}", text) == ["Sedge (duck) 16 still in a machine"]
    assert "Sedge" not in text.split("died in the shell")[1]


def test_the_season_is_printed_in_greys(demo):
    """No colour operator but grey ones in the drawings of either sheet (ISO 32000-1, table 74)."""
    for page in pages(season_paper(demo, 2026, WANTED).content):
        drawn = page.get_contents().get_data().decode("latin-1")
        spaces = set(re.findall(r"/(\w+) cs\b", drawn, re.IGNORECASE))
        assert not re.search(r"\b(?:rg|RG|k|K)\b\s", drawn)
        resources = page["/Resources"].get("/ColorSpace", {})
        assert all("Gray" in str(resources[f"/{one}"].get_object()) or _is_grey(resources[f"/{one}"]) for one in spaces)


def _is_grey(space):
    """An ICC profile of one component."""
    name, profile = space.get_object()
    return name == "/ICCBased" and profile.get_object()["/N"] == 1


def test_chicks_of_unknown_family_and_chicks_sold_are_told_on_paper_in_the_workbook_and_in_words(capsys):
    """14 of 20 out, 3 of them Rowan's or Birch's; 2 of Rowan's 6 sold, 1 dead (tests/server/reports)."""
    book = mixed_book()
    lot = book.documents[-1]["body"]["moves"][0]["among"][0]
    for n, to in ((2, "parted"), (1, "died")):
        book.move(lot, "hatched", to, n, at=MIXED_NOW)
    standing = fold(book.entries())
    text = words_of(season_paper(standing, 2026, Wanted(MIXED_NOW, None, None)))
    assert "11 1 fewer, 2 sold or given" in text
    assert text.count("6 of 10, 60 % (31 to 83), up to 3 more") == 2, "of the fertile and of those set"
    assert text.count("14 of 20, 70 % (48 to 85)") == 3, "by age, by machine, by month"
    assert "up to 6 more" not in text
    sheet = load_workbook(BytesIO(season_workbook(standing, 2026, MIXED_NOW))).worksheets[0]
    head, *rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    at = head.index("Hatched of set: up to so many more, family unknown")
    assert [row[at] for row in rows] == [3, 3]
    say_season(season_report(standing, 2026, MIXED_NOW), standing)
    said = capsys.readouterr().out
    assert "2 chicks of these were sold or given: not lost." in said
    assert "60 % (31 to 83) of 10, up to 3 more" in said
