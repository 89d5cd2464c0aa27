"""Who the parents of a brood can be, said before its chicks are kept, and carried over to the birds that are."""

from datetime import UTC, datetime

import pytest

from broodline.reports.brood import brood_report
from broodline.reports.family import family_report
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 6, 1, 9, 0, tzinfo=UTC)


def test_the_pens_candidates_the_likeliest_first() -> None:
    book = PenBook()
    cock = book.bird("male", name="Tom")
    hens = [book.bird("female", name=name) for name in ("Ann", "Bea")]
    book.pen([cock], [(hens[0], 0.25), (hens[1], 0.75)], "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07")
    told = brood_report(book.standing(), lot, NOW)["parents"]
    assert [(one["sire_label"], one["dam_label"], one["chance"]) for one in told["pairs"]] == [
        ("Tom", "Bea", pytest.approx(0.75)),
        ("Tom", "Ann", pytest.approx(0.25)),
    ]
    assert told["notes"] == []


def test_a_kept_chick_has_the_candidates_of_its_batch() -> None:
    """What the phone writes when a chick is kept: the move into the flock and a bird of that lot."""
    book = PenBook()
    cock, hens = book.bird("male"), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07")
    out = datetime(2026, 5, 1, 9, 0, tzinfo=UTC)
    for source, target in (("set", "hatched"), ("hatched", "brooding"), ("brooding", "flock")):
        book.move(lot, source, target, 1, at=out)
    kept = book.bird("female", family=book.rowan, lots=[{"lot": lot, "share": 1}], hatched_on="2026-05-01")
    brood = brood_report(book.standing(), lot, NOW)
    bird = next(one for one in family_report(book.standing(), NOW)["birds"] if one["bird"] == kept)
    of_lot = {(one["sire"], one["dam"]): one["chance"] for one in brood["parents"]["pairs"]}
    of_bird = {(one["sire"], one["dam"]): one["chance"] for one in bird["parents"]}
    assert of_bird == pytest.approx(of_lot)
    assert of_bird == {(cock, hen): pytest.approx(0.5) for hen in hens}
    assert (brood["stages"]["flock"], brood["alive"]) == (1, 1)


def test_chicks_that_came_have_no_pairs_and_say_why() -> None:
    book = PenBook()
    lot = book.lot()
    book.write("came", {"lot": lot, "n": 5, "family": book.rowan, "on": "2026-05-01", "how": "bought"})
    told = brood_report(book.standing(), lot, NOW)["parents"]
    assert told["pairs"] == []
    assert told["notes"] == ["The eggs or chicks came from elsewhere; parents unknown."]
