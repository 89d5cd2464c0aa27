"""A plan of eggs says whose they are: kinship by hand (a cock on his daughters, .25), semen by Lippincott."""

from datetime import UTC, datetime
from typing import Any

import pytest

from broodline.reports.plan import Wanted, plan_report
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 4, 20, 12, tzinfo=UTC)


def with_daughters() -> tuple[PenBook, dict[str, Any]]:
    """A cock with the daughters of himself and a hen, since March; another cock stands by, of parents of his own."""
    book = PenBook()
    cock, hen, other_cock, other_hen = (book.bird(sex, family=book.rowan) for sex in ("male", "female") * 2)
    parents = {"sires": [{"bird": cock}], "dams": [{"bird": hen}]}
    son_of_others = {"sires": [{"bird": other_cock}], "dams": [{"bird": other_hen}]}
    stranger = book.bird("male", family=book.rowan, name="Stranger", **son_of_others)
    daughters = book.birds("female", 2, **parents)
    book.pen([cock], daughters, "2026-03-01")
    return book, {"cock": cock, "stranger": stranger, "daughters": daughters}


def kept(book: PenBook, on: str, n: int) -> None:
    book.write("gathered", {"family": book.rowan, "on": on, "n": n, "kept": n})


def parents(book: PenBook) -> dict[str, Any]:
    (target,) = plan_report(book.standing(), Wanted(), NOW)["targets"]
    return dict(target["parents"])


def test_eggs_of_a_pen_over_the_limit_are_said_with_the_first_day_of_new_ones() -> None:
    """The plan of pens wants this one ended (.25): without a word the plan of eggs would fill a machine from it."""
    book, birds = with_daughters()
    told = parents(book)
    assert [(pen["sires"], pen["dams"]) for pen in told["pens"]] == [([birds["cock"]], birds["daughters"])]
    assert told["F"] == pytest.approx(0.25)
    assert (told["over"], told["clean_on"], told["new_on"]) == (True, None, "2026-05-12")
    assert "inbreeding 25.0 % to be expected" in told["words"]
    assert "12.5 % or more: see the matings" in told["words"]
    assert "theirs alone from 12 May 2026 on" in told["words"]


def test_after_penning_anew_the_old_cock_counts_for_three_weeks() -> None:
    """Together on 10 April: up to 1 May an egg may be the old cock's, with a half of the chance. In store lie two eggs
    of before and two of after: a mean of .25 and .125.
    """
    book, birds = with_daughters()
    book.pen([birds["stranger"]], birds["daughters"], "2026-04-10")
    told = parents(book)
    assert [pen["sires"] for pen in told["pens"]] == [[birds["stranger"]]]
    assert told["F"] == pytest.approx(0.125)
    assert told["clean_on"] == "2026-05-02"
    assert "Laid before 2 May 2026 they may still be of an earlier cock." in told["words"]
    kept(book, "2026-04-08", 2)
    kept(book, "2026-04-15", 2)
    assert parents(book)["F"] == pytest.approx((0.25 + 0.125) / 2)


def test_what_is_not_known_is_not_said() -> None:
    book = PenBook()
    (target,) = plan_report(book.standing(), Wanted(), NOW)["targets"]
    assert target["parents"] is None
    hens = book.birds("female", 2)
    book.pen([], hens, "2026-03-01")
    assert (parents(book)["F"], parents(book)["over"]) == (None, False)
    assert "not all parents are known" in parents(book)["words"]
    cock = book.bird("male", family=book.rowan, name="Bram")
    book.pen([cock], hens, "2026-03-20")
    assert (parents(book)["F"], parents(book)["known"]) == (0, False)
    assert parents(book)["words"] == "Eggs of the pen of Bram: no inbreeding that is known of."


def test_a_species_that_nobody_read_about_has_no_first_day() -> None:
    book = PenBook("peafowl")
    book.pen([book.bird("male", family=book.rowan)], book.birds("female", 1), "2026-03-01")
    told = parents(book)
    assert (told["clean_on"], told["new_on"]) == (None, None)
