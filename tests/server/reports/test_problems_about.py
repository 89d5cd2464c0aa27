"""Which of the book's problems a report tells: those of its own eggs, and those that nobody can tell whose they are."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter

NOW = START + timedelta(days=23)


class Two:
    """Two settings: Rowan's eggs in the loft box, Birch's in the cellar box; the second a year later."""

    def __init__(self) -> None:
        book = self.book = BookWriter()
        book.keeper()
        self.rowan, self.birch = book.family("Rowan"), book.family("Birch")
        self.loft, self.cellar = book.incubator("Loft box"), book.incubator("Cellar box")
        self.a, self.b = book.lot(), book.lot()
        self.first = book.set_eggs(self.loft, [(self.a, self.rowan, 12)])
        self.second = book.set_eggs(self.cellar, [(self.b, self.birch, 9)], set_at=START + timedelta(days=365))

    def told(self) -> tuple[list[str], list[str]]:
        """The codes that the reports of the first and of the second setting tell; not that the second lies ahead."""
        standing = fold(self.book.entries())
        reports = [setting_report(standing, one, NOW) for one in (self.first, self.second)]
        seasons = [season_report(standing, year, NOW) for year in (2026, 2027)]
        every = [[problem["code"] for problem in report["problems"]] for report in [*reports, *seasons]]
        codes = [[code for code in told if code != "set_late"] for told in every]
        assert codes[:2] == codes[2:], "each season holds one of the settings"
        return codes[0], codes[1]


@pytest.fixture
def two() -> Two:
    return Two()


def test_a_body_that_does_not_fit_is_told_where_its_eggs_are(two: Two) -> None:
    two.book.write("moved", {"moves": [{"lot": two.a, "from": "set", "to": "clear", "n": "3"}]})
    two.book.write("looked", {"setting": two.first, "lot": "whose", "what": "tasted"})
    assert two.told() == (["body", "body"], [])
    standing = fold(two.book.entries())
    report = setting_report(standing, two.first, NOW)
    assert report["lots"][0]["stages"] == {"set": 12}
    assert report["lots"][0]["n"] == 12


def test_a_newer_entry_is_told_where_its_eggs_are(two: Two) -> None:
    two.book.write("weighed_by_drone", {"eggs": {"of": [two.b]}})
    two.book.write("moved", {"moves": []}, amends=two.book.move(two.a, "set", "clear"), v=2)
    assert two.told() == (["newer_app"], ["newer_app"])


def test_a_correction_into_another_kind_is_told_by_what_the_whole_tree_names(two: Two) -> None:
    """The correction itself names no egg; the entry it corrects does, by an id of the setting that was corrected."""
    body = next(one["body"] for one in two.book.documents if one["id"] == two.first)
    corrected = two.book.write("set", body, amends=two.first)
    look = two.book.look(corrected, two.a, live=10)
    two.book.write("note", {"text": "oh"}, amends=look)
    assert two.told() == (["kind_changed"], [])


def test_what_names_no_eggs_is_told_by_place_or_family(two: Two) -> None:
    two.book.write("air", {"place": two.loft, "dry_c": "37.5"})
    two.book.write("gathered", {"family": two.birch, "on": "yesterday", "n": 3, "kept": 3})
    two.book.write("place", {"name": "Cellar box", "role": "shed"}, amends=two.cellar)
    first, second = two.told()
    assert first == ["body"]
    assert second == ["body", "body", "unknown_place"]


def test_what_is_of_something_else_in_the_book_is_told_nowhere(two: Two) -> None:
    pen = two.book.write("place", {"name": "Orchard", "role": "pen"})
    bird = two.book.write("bird", {"sex": "female"})
    two.book.write("air", {"place": pen, "dry_c": "37.5"})
    two.book.write("left", {"bird": bird, "on": "2026-03-04", "how": "flew"})
    assert two.told() == ([], [])


@pytest.mark.parametrize(
    ("kind", "body", "code"),
    [
        ("moved", {"moves": "two"}, "body"),
        ("moved", {"moves": [{"lot": "nobody's", "from": "set", "to": "clear", "n": 0}]}, "body"),
        ("moon_phase", {"waxing": True}, "newer_app"),
    ],
)
def test_what_names_nothing_of_the_book_is_told_everywhere(
    two: Two, kind: str, body: dict[str, Any], code: str
) -> None:
    two.book.write(kind, body)
    assert two.told() == ([code], [code])


def test_an_entry_that_corrects_itself_is_told_where_its_eggs_are(two: Two) -> None:
    looked = two.book.look(two.second, two.b, live=9)
    two.book.documents[-1]["amends"] = looked
    assert two.told() == ([], ["cycle"])


def test_fields_of_a_newer_app_count_and_are_told(two: Two) -> None:
    two.book.write("moved", {"moves": [{"lot": two.a, "from": "set", "to": "clear", "n": 3, "hue": "pale"}]})
    assert two.told() == (["newer_fields"], [])
    report = setting_report(fold(two.book.entries()), two.first, NOW)
    assert report["lots"][0]["stages"] == {"clear": 3, "set": 9}
    assert "newer app" in report["problems"][0]["message"]


def test_a_taken_back_entry_is_told_nowhere(two: Two) -> None:
    two.book.take_back(two.book.write("moved", {"moves": "two"}))
    assert two.told() == ([], [])
