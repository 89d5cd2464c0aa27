"""Titles of the season's parts: each states what its figures add up to, species apart. Counts are added by hand; p by
scipy's exact test of two families."""

from datetime import UTC, datetime, timedelta

import pytest
from scipy.stats import chi2_contingency

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter
from tests.server.reports.test_season import hatch

NOW = datetime(2026, 12, 1, tzinfo=UTC)
HENS = {"Rowan": (24, 30, 0), "Birch": (20, 29, 6)}
"""Hatched of so many fertile, and clear eggs."""


def whole(ducks: bool = False) -> BookWriter:
    """Hens of two families in one setting, ducks of one in another, hens still in the machine."""
    book = BookWriter()
    book.keeper()
    place = book.incubator()
    _hatch(book, place, {name: (book.family(name), *counts) for name, counts in HENS.items()}, "chicken", 21)
    if ducks:
        _hatch(book, place, {"Sedge": (book.family("Sedge", "duck"), 5, 8, 2)}, "duck", 28)
    return book


def _hatch(
    book: BookWriter, place: str, families: dict[str, tuple[str, int, int, int]], species: str, day: int
) -> None:
    lots = {name: book.lot() for name in families}
    eggs = [(lots[name], family, fertile + clear) for name, (family, _, fertile, clear) in families.items()]
    setting = book.set_eggs(place, eggs, species=species)
    for name, (_, hatched, fertile, clear) in families.items():
        lot = lots[name]
        if clear:
            book.move(lot, "set", "clear", clear, at=at(8), why="candled")
        else:
            book.look(setting, lot, at=at(8), day=8, live=fertile)
        book.move(lot, "set", "hatched", hatched - 2, at=at(day - 0.5), why="hatch")
        book.move(lot, "set", "hatched", 2, at=at(day), why="hatch")
        book.move(lot, "set", "unhatched", fertile - hatched, at=at(day + 2), why="hatch")
        book.move(lot, "unhatched", "dead_late", fertile - hatched, at=at(day + 2), why="opened")
    book.move(lots[next(iter(families))], "hatched", "died", 1, at=at(day + 4))


def at(days: float) -> datetime:
    return START + timedelta(days=days)


def titles(book: BookWriter) -> dict[str, str]:
    found: dict[str, str] = season_report(fold(book.entries()), 2026, NOW)["titles"]
    return found


def test_each_part_states_its_finding() -> None:
    told = titles(whole())
    p = chi2_contingency([[24, 6], [20, 15]], correction=False).pvalue
    assert p == pytest.approx(0.05, abs=0.02)
    assert told["headline"] == "These eggs do not separate the families"
    assert told["under"].startswith("Most of Rowan's hatched, 24 of 30")
    assert told["families"] == (
        "Fertile 83 % (Birch) to 100 % (Rowan); hatched of the fertile 69 % (Birch) to 80 % (Rowan)"
    )
    assert told["funnel"] == "Of 65 eggs set 44 hatched; 43 live now"
    assert told["compared"].startswith("Chance alone may give such differences (p 0.0")
    assert told["losses"] == "15 died in the shell, all late"
    assert told["chicks"] == "1 chick lost, most at 3 to 7 days"
    assert told["groups"] == "Hatched of those set: by egg age 68 %, by machine 68 %, by month 68 %"
    assert told["windows"] == "When the chicks came out", "two looks tell no curve"
    assert told["earlier"] == "The seasons before"


def test_species_are_told_apart() -> None:
    report = season_report(fold(whole(ducks=True).entries()), 2026, NOW)
    told = report["titles"]
    assert told["headline"] == "Chicken: these eggs do not separate the families"
    assert told["under"].startswith("Chicken: Most of Rowan's hatched")
    assert "Duck: Only Sedge has settings that are over" in told["under"]
    assert told["families"].endswith("Duck: fertile 80 % (Sedge); hatched of the fertile 62 % (Sedge)")
    assert "Sedge" not in told["families"].split("Duck")[0]
    assert told["compared"].endswith("; Duck: only one to compare")
    assert [one["label"] for one in report["families"]] == ["Birch", "Rowan", "Sedge (duck)"]


def test_two_families_that_these_eggs_separate_are_named() -> None:
    book = BookWriter()
    book.keeper()
    _hatch(book, book.incubator(), {name: (book.family(name), k, 30, 0) for name, k in (("Rowan", 28), ("Elm", 9))},
           "chicken", 21)  # fmt: skip
    told = titles(book)
    assert told["headline"] == "Fewer of Elm's eggs hatched than of Rowan's"
    assert told["under"].startswith("The families' eggs hatched differently")
    assert told["compared"] == "The differences are more than chance gives (p under 0.001)"


def test_a_season_without_eggs_says_so() -> None:
    book = BookWriter()
    book.keeper()
    told = titles(book)
    assert told["headline"] == "No eggs were set in season 2026"
    assert told["losses"] == "None is known to have died in the shell"
    assert told["chicks"] == "No chick was lost at these ages"
    assert told["families"] == "Family by family"


def test_families_of_one_setting_only_are_told_in_one_sentence() -> None:
    book = BookWriter()
    book.keeper(region="us")
    place, rowan = book.incubator(), book.family("Rowan")
    others = [book.family(name) for name in ("Birch", "Elm", "Hazel")]
    for days, families in ((0, [rowan, *others[:2]]), (40, [rowan, others[2]])):
        lots = [(book.lot(), family, 12) for family in families]
        book.set_eggs(place, lots, set_at=START + timedelta(days=days))
        for lot, _, n in lots:
            hatch(book, lot, n, 8, days=days)
    verdict = season_report(fold(book.entries()), 2026, NOW)["verdict"]
    assert (
        "Birch and Elm had eggs in one setting only, that of Mar 1, 2026; Hazel in one only, that of Apr 10, 2026. "
        "Whether the family or the setting made a difference cannot be told." in verdict
    )
    assert verdict.count("cannot be told") == 1
