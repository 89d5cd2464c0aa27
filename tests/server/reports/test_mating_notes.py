"""What the plan of pens takes for granted is said: shares nobody wrote down, chances counted in draws, unequal pens."""

import pytest

from broodline.reports.mating_pens import pen_words
from broodline.trade import inbreeding_spread
from tests.server.reports.pen_book import PenBook
from tests.server.reports.test_matings import plan, two_families


def test_shares_nobody_wrote_down_are_said_to_be_taken_alike() -> None:
    book, birds = two_families()
    book.pen([birds["rowan cock"]], [birds["rowan hen"]], "2026-03-01")
    assert len(plan(book)["notes"]) == 1, "one cock and one hen leave nothing to take"
    hazel = next(one["family"] for one in plan(book)["birds"] if one["bird"] == birds["hazel hen"])
    book.pen([birds["hazel cock"]], [birds["hazel hen"], birds["hazel daughter"]], "2026-03-01", family=hazel)
    said = "In today's pens no shares are written down for some: there, too, all are taken to count alike."
    assert plan(book)["notes"][1:] == [said]
    assert plan(book, pens=9)["notes"] == [said]


def test_a_chance_counted_in_draws_says_so_with_its_error(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where every way is gone through there is no error; where they are drawn, the note and the pen say how far off."""
    book = PenBook()
    cocks, hen = book.birds("male", 2), book.bird("female", family=book.rowan)
    book.bird("female", family=book.rowan, sires=[{"bird": one} for one in cocks], dams=[{"bird": hen}])
    book.write("left", {"bird": hen, "on": "2026-06-01", "how": "died"})
    exact = plan(book, pens=1, hens=1)
    assert (exact["pens"][0]["p_over"], exact["pens"][0]["p_over_error"]) == (0.5, None)
    assert not any("draws" in note for note in exact["notes"])
    monkeypatch.setattr(inbreeding_spread, "MOST_WAYS", 1)
    report = plan(book, pens=1, hens=1)
    (pen,) = report["pens"]
    assert pen["p_over_error"] == pytest.approx(0.0098, abs=0.0002), "1.96 x sqrt(.5 x .5 / 10,000)"
    assert abs(pen["p_over"] - 0.5) < pen["p_over_error"]
    assert "chance of 12.5 % or more (in draws, give or take 1.0)" in pen_words(pen, report["limit"])
    assert "10,000 draws" in report["notes"][-1]


def test_families_of_unequal_size_apart() -> None:
    """Two hens of Rowan and five of Hazel: every hen has a place in her family's pen, and three pens halve Hazel's."""
    book, birds = two_families()
    hazel = next(one["family"] for one in plan(book)["birds"] if one["bird"] == birds["hazel hen"])
    for _ in range(3):
        book.bird("female", family=hazel)
    assert sorted(len(pen["dams"]) for pen in plan(book, apart=True)["pens"]) == [2, 5]
    assert sorted(len(pen["dams"]) for pen in plan(book, pens=3, apart=True)["pens"]) == [2, 2, 3]
    assert sorted(len(pen["dams"]) for pen in plan(book, pens=2, hens=3, apart=True)["pens"]) == [2, 3]


@pytest.mark.parametrize("better", [0, 1])
def test_of_equal_plans_the_young_birds_worth_keeping_breed(better: int) -> None:
    """Two brothers, less kin to all than their sire; whichever scores more is kept, and stands in the plan's pen."""
    book = PenBook()
    old, hen = book.bird("male", family=book.rowan, name="Old"), book.bird("female", family=book.rowan)
    book.pen([old], [hen], "2026-01-01")
    sons = [
        book.bird("male", hatched_on="2026-05-01", family=book.rowan, sires=[{"bird": old}], name=name)
        for name in ("one", "other")
    ]
    for at, son in enumerate(sons):
        book.write("scored", {"bird": son, "on": "2026-08-01", "scores": {"type": 9 if at == better else 1}})
    (pen,) = plan(book, pens=1, hens=1)["pens"]
    assert pen["sires"] == [sons[better]]


def test_a_pen_with_more_hens_than_a_cock_usually_has_is_said() -> None:
    """10 to 12 with heavy breeds (Univ. Florida CIR1112): over 12 is said, 12 is not; of ducks nothing was read."""
    for hens, species, said in ((12, "chicken", False), (13, "chicken", True), (13, "duck", False)):
        book = PenBook(species)
        book.birds("male", 1)
        book.birds("female", hens)
        notes = plan(book)["notes"]
        assert (
            any(note.startswith(f"Hens for each cock: pen 1 has {hens}. Usual are 12 to 15") for note in notes) is said
        )
