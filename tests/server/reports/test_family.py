"""The reports of birds and of the state of the flock, through a book."""

from datetime import UTC, datetime
from typing import Any

import pytest

from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.matings import Wishes, matings_report
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 9, 1, tzinfo=UTC)


def two_generations() -> tuple[PenBook, str, str]:
    """A pen of one cock and two hens, two chicks of it, and a chick of these two; the grandchild and the cock."""
    book = PenBook()
    (cock,), hens = book.birds("male", 1), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07")
    son, daughter = (book.bird(sex, family=book.rowan, lots=[{"lot": lot}]) for sex in ("male", "female"))
    grandchild = book.bird("female", family=book.rowan, sires=[{"bird": son}], dams=[{"bird": daughter}])
    return book, grandchild, cock


def birds(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {bird["bird"]: bird for bird in report["birds"]}


def test_family_in_its_shape() -> None:
    """Half sibs by the cock for certain, full sibs by one chance in two: F .125 or .25, mean .1875."""
    book, grandchild, cock = two_generations()
    report = family_report(book.standing(), NOW)
    assert {"birds", "ne", "delta_f_pct", "founders", "warnings"} <= set(report)
    found = birds(report)[grandchild]
    assert (found["F"], found["F_low"], found["F_high"]) == (0.1875, 0.125, 0.25)
    assert found["completeness"] == 2.0
    assert birds(report)[cock]["F"] is None
    assert birds(report)[cock]["F_low"] is None
    # The pen that stands is of 1 cock and 2 hens, of 2 and 4 that live: 4 x 1 x 2 / 3, and one over twice that.
    assert report["ne"] == pytest.approx(8 / 3)
    assert report["delta_f_pct"] == pytest.approx(100 * 3 / 16)
    # All founders live, so that nothing of theirs is lost: the cock's share is 1/6 + 3 x 1/12, each hen's 1/6 + 3/24.
    assert report["founders"]["fe"] == report["founders"]["fg"] == pytest.approx(32 / 11)
    assert report["warnings"][0].startswith("Nothing is written of the parents of 3 of 6 birds")
    assert "1 cock and 2 hens stand in the pens: worth 2.7 breeders" in report["warnings"][1]
    assert report["problems"] == []


def test_dead_birds_are_listed_and_not_of_the_living() -> None:
    book, _, cock = two_generations()
    book.write("left", {"bird": cock, "on": "2026-06-01", "how": "died"})
    report = family_report(book.standing(), NOW)
    assert birds(report)[cock]["mean_kinship"] is None
    assert report["ne"] == pytest.approx(16 / 5)


def test_an_empty_book_and_one_without_a_cock() -> None:
    book = PenBook()
    empty = family_report(book.standing(), NOW)
    assert (empty["birds"], empty["ne"], empty["founders"], empty["warnings"]) == (
        [],
        None,
        {"fe": None, "fg": None},
        [],
    )
    assert flock_report(book.standing(), NOW) == {"breeds": [], "problems": []}
    book.birds("female", 2)
    report = family_report(book.standing(), NOW)
    assert (report["ne"], report["delta_f_pct"]) == (None, None)
    assert "there is no next generation" in report["warnings"][1]
    (breed,) = flock_report(book.standing(), NOW)["breeds"]
    assert (breed["ne"], breed["delta_f_pct"], breed["changes"]["one_son_a_cock_one_daughter_a_hen_pct"]) == (None,) * 3


def test_breeds_stand_apart() -> None:
    book, _, _ = two_generations()
    book.bird("female", breed="Fen Buff")
    report = family_report(book.standing(), NOW)
    assert report["kind"] == "Marsh Speckle"
    assert any("Fen Buff stand apart" in warning for warning in report["warnings"])


def test_a_large_flock_is_told_of_no_alarm() -> None:
    book = PenBook()
    book.birds("male", 30)
    book.birds("female", 60)
    report = family_report(book.standing(), NOW)
    assert len(report["warnings"]) == 1
    (breed,) = flock_report(book.standing(), NOW)["breeds"]
    assert "all 30 cocks and 60 hens are taken to breed" in breed["words"][1]
    assert "above 0.5 %" in breed["words"][2]


def test_the_state_of_the_flock() -> None:
    book, _, cock = two_generations()
    book.write("left", {"bird": cock, "on": "2026-06-01", "how": "died"})
    (breed,) = flock_report(book.standing(), NOW)["breeds"]
    assert (breed["breed"], breed["cocks"], breed["hens"], breed["not_sexed"]) == ("Marsh Speckle", 1, 4, 0)
    assert breed["gene_diversity"] == 1 - breed["mean_kinship"]
    assert breed["gene_diversity"] < breed["gene_diversity_possible"] < 1
    assert breed["delta_f_pct"] == pytest.approx(15.625)
    assert breed["changes"]["one_more_cock_each_family_pct"] == pytest.approx(100 * (1 / 16 + 1 / 32))
    assert breed["changes"]["one_son_a_cock_one_daughter_a_hen_pct"] == pytest.approx(100 * (3 / 32 + 1 / 128))
    assert breed["changes"]["mean_kinship_with_one_borrowed"] < breed["mean_kinship"]
    assert breed["ne_from_pedigree"] == pytest.approx(1 / (2 * 0.1875))
    assert breed["founders_at_risk"] == []
    book = PenBook()
    (gone,) = book.birds("male", 1)
    book.bird("male", sires=[{"bird": gone}], family=book.rowan)
    book.write("left", {"bird": gone, "on": "2026-06-01", "how": "died"})
    (breed,) = flock_report(book.standing(), NOW)["breeds"]
    assert [(one["bird"], one["descendants"]) for one in breed["founders_at_risk"]] == [(gone, 1)]


def test_the_line_begins_with_a_declared_founder_whose_inbreeding_is_none() -> None:
    """The convention of pedigrees: founders are unrelated and not inbred (common practice, no source)."""
    book = PenBook()
    declared = [book.bird(sex, family=book.rowan, founder=True) for sex in ("male", "female", "female")]
    unknown = book.bird("female", family=book.rowan)
    report = family_report(book.standing(), NOW)
    told = {one["bird"]: (one["F"], one["F_low"], one["F_high"]) for one in report["birds"]}
    assert {told[one] for one in declared} == {(0.0, 0.0, 0.0)}
    assert told[unknown] == (None, None, None)
    assert report["warnings"][0].startswith("Nothing is written of the parents of 1 of 4 birds")
    plan = matings_report(book.standing(), Wishes(pens=1), NOW)
    assert [row["known"] for row in plan["table"]] == [row["dam"] != unknown for row in plan["table"]]
    assert (plan["pens"][0]["mean_F"], plan["pens"][0]["not_known"]) == (0.0, 1)
