"""The season on paper: two sheets of either size, for the demo's five families and for twelve, with all it found."""

import re

import pytest

from broodline.exchange.typeset import PAPERS
from broodline.reports.season import season_report
from broodline.web.papers import Wanted, season_paper
from tests.server.exchange.test_typeset import pages, text_of
from tests.server.exchange.told_books import NOW, demo_book
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
