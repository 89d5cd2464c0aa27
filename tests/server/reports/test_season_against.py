"""A season against those before it: within species and family; p is scipy's Boschloo test, the interval Newcombe's
worked out from scipy's Wilson intervals."""

from datetime import UTC, datetime, timedelta
from math import sqrt
from typing import Any

import pytest
from scipy.stats import binomtest, boschloo_exact

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, tzinfo=UTC)
Years = dict[int, tuple[int, int]]


def against(families: dict[str, Years], ducks: dict[str, Years] | None = None) -> dict[str, Any]:
    """families: name -> years ago -> (hatched, set); this season is 0."""
    book = BookWriter()
    book.keeper()
    place = book.incubator()
    for species, some in (("chicken", families), ("duck", ducks or {})):
        ids = {name: book.family(name, species) for name in some}
        for name, years in some.items():
            for ago, (k, n) in years.items():
                set_at = START - timedelta(days=365 * ago)
                lot = book.lot()
                book.set_eggs(place, [(lot, ids[name], n)], set_at=set_at, species=species)
                book.move(lot, "set", "hatched", k, at=set_at + timedelta(days=30))
                book.move(lot, "set", "unhatched", n - k, at=set_at + timedelta(days=32))
    return season_report(fold(book.entries()), 2026, NOW)


def test_where_no_difference_is_shown_that_is_said() -> None:
    """60 % of 40 against 64 of 100: far from shown."""
    report = against({"Rowan": {0: (24, 40), 1: (32, 50), 2: (32, 50)}})
    (hens,) = report["against"]
    (rowan,) = hens["families"]
    assert (rowan["now"]["k"], rowan["now"]["n"], rowan["before"]["k"], rowan["before"]["n"]) == (24, 40, 64, 100)
    assert rowan["p"] == pytest.approx(boschloo_exact([[24, 64], [16, 36]], n=64).pvalue, abs=2e-3)
    now, then = (binomtest(k, n).proportion_ci(method="wilson") for k, n in ((24, 40), (64, 100)))
    low = -0.04 - sqrt((0.6 - now.low) ** 2 + (then.high - 0.64) ** 2)
    high = -0.04 + sqrt((now.high - 0.6) ** 2 + (0.64 - then.low) ** 2)
    assert (rowan["difference"], rowan["low"], rowan["high"]) == pytest.approx((-0.04, low, high))
    assert (rowan["shown"], hens["shown"]) == (False, False)
    assert hens["words"] == "No difference shown between any family and its own seasons before."
    assert report["titles"]["earlier"] == (
        "No difference shown from the seasons before: 60 % of those set hatched, 64 % then"
    )


def test_a_difference_is_shown_in_the_family_that_has_it_and_no_cause_is_claimed() -> None:
    """Rowan 10 of 40 after 80 of 100; Hazel as ever."""
    report = against({"Rowan": {0: (10, 40), 1: (40, 50), 2: (40, 50)}, "Hazel": {0: (28, 40), 1: (70, 100)}})
    (hens,) = report["against"]
    assert [(one["name"], one["shown"]) for one in hens["families"]] == [("Hazel", False), ("Rowan", True)]
    assert hens["words"].startswith("Rowan: 55 points fewer than in its seasons before (likely 37 to 68).")
    assert "No difference shown for the others." in hens["words"]
    assert "cannot say why" in hens["words"]
    assert report["titles"]["earlier"] == ("Fewer hatched than in the seasons before: 48 % of those set, 75 % then")


def test_seasons_that_differ_among_themselves_let_nothing_be_said() -> None:
    """90 % in one year, 40 % in another: 20 % now is no sign."""
    report = against({"Rowan": {0: (8, 40), 1: (45, 50), 2: (20, 50)}})
    (hens,) = report["against"]
    assert (hens["families"][0]["p"] < 0.001, hens["families"][0]["shown"], hens["shown"]) == (True, False, False)
    assert hens["words"] == "The seasons before differ among themselves for Rowan: nothing is said of this one."
    assert report["titles"]["earlier"].startswith("The seasons before differ among themselves")


def test_no_species_and_no_family_is_held_against_another() -> None:
    """Hens as ever; ducks far worse than hens before, but as ever for ducks. Birch is new, Elm set none this year."""
    hens = {"Rowan": {0: (30, 40), 1: (75, 100)}, "Birch": {0: (4, 40)}, "Elm": {1: (38, 40)}}
    report = against(hens, {"Sedge": {0: (12, 40), 1: (12, 40)}})
    by_species = {one["species"]: one for one in report["against"]}
    assert list(by_species) == ["chicken", "duck"]
    assert [one["name"] for one in by_species["chicken"]["families"]] == ["Rowan"]
    assert [one["name"] for one in by_species["duck"]["families"]] == ["Sedge"]
    assert (by_species["duck"]["before"]["k"], by_species["duck"]["before"]["n"]) == (12, 40)
    assert [(one["year"], one["set"]) for one in by_species["duck"]["years"]] == [(2025, 40)]
    assert report["titles"]["earlier"].endswith(
        "Duck: no difference shown from the seasons before: 30 % of those set hatched, 30 % then"
    )
    assert report["unset"] == "No eggs set in this season, but in one before: Elm."
    assert "Elm" not in [one["name"] for one in report["families"]], "no row of noughts"


def test_many_families_are_not_told_apart_by_looking_often() -> None:
    """One of ten at p 0.02 is what chance gives; by Holm's correction nothing is shown."""
    counts: dict[str, Years] = {f"Line {n}": {0: (24, 40), 1: (60, 100)} for n in range(9)}
    report = against({**counts, "Odd": {0: (15, 40), 1: (60, 100)}})
    odd = next(one for one in report["against"][0]["families"] if one["name"] == "Odd")
    assert boschloo_exact([[15, 60], [25, 40]], n=64).pvalue < 0.05 < odd["p"]
    assert not odd["shown"]
