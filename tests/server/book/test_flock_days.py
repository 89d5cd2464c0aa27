"""Entries about birds whose days, ages or bands cannot be: each is told, and what is nearest to it and right is not."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.flock_checks import check_flock
from broodline.book.fold import fold
from broodline.reports.growth import weights_of
from tests.server.book.test_flock_checks import codes, weigh
from tests.server.reports.test_brood import OUT, Nest

HATCHED = "2026-03-22"


def a_bird(nest: Nest, name: str = "Ash", **more: Any) -> str:
    return nest.book.write("bird", {"name": name, "sex": "unknown", **more})


def of_the_lot(nest: Nest, **more: Any) -> str:
    return a_bird(nest, lots=[{"lot": nest.lot}], **more)


def weigh_bird(nest: Nest, bird: str, on: str, mass_g: float) -> str:
    return nest.book.write("weighed", {"birds": [{"bird": bird, "mass_g": mass_g}], "on": on})


def leave(nest: Nest, bird: str, on: str, how: str) -> str:
    return nest.book.write("left", {"bird": bird, "on": on, "how": how})


def messages(nest: Nest) -> list[str]:
    return [one.message for one in check_flock(fold(nest.book.entries()))]


def test_a_bird_by_itself_is_as_old_as_its_lot() -> None:
    """4 kg on day 1, and no lot in the entry: told, as it is left out of the means."""
    nest = Nest()
    odd = weigh_bird(nest, of_the_lot(nest), "2026-03-23", 4000.0)
    assert codes(nest) == [("weight_odd", odd)]
    assert "4000 g at 1 days" in messages(nest)[0]
    assert list(weights_of(fold(nest.book.entries()))) == []


def test_weights_before_the_hatch_are_told_and_left_out() -> None:
    nest = Nest()
    early = [weigh_bird(nest, of_the_lot(nest), "2026-03-19", 40.0), weigh(nest, "2026-03-19", 40.0)]
    early.append(weigh_bird(nest, a_bird(nest, "Bay", hatched_on="2026-03-22"), "2026-03-21", 40.0))
    kept = weigh(nest, "2026-03-21", 41.0)  # the day before, at noon: a hatch lasts into the next day
    assert [entry for _, entry in codes(nest)] == early
    assert [code for code, _ in codes(nest)] == ["before_hatch", "before_hatch", "bird_before_hatch"]
    assert all("left out of the means" in message for message in messages(nest))
    assert [(one.mass_g, one.age_days) for one in weights_of(fold(nest.book.entries()))] == [(41.0, 0)]
    assert kept not in early


def test_deaths_not_known_whose_before_the_hatch_of_all_they_may_be_of() -> None:
    both = Nest()
    one, two = both.book.lot(), both.book.lot()
    hazel = both.book.family("Hazel")
    both.book.set_eggs(both.box, [(one, both.family, 5), (two, hazel, 5)], species="chicken")
    both.book.move(one, "set", "hatched", 2, at=OUT + timedelta(days=4))
    both.book.move(two, "set", "hatched", 2, at=OUT)

    def died(days: float) -> str:
        moves = [{"among": [one, two], "from": "hatched", "to": "died", "n": 1}]
        return both.book.write("moved", {"moves": moves}, at=OUT + timedelta(days=days))

    died(1)  # after the first of the second lot
    assert codes(both) == []
    early = died(-3)
    assert codes(both) == [("before_hatch", early)]
    assert messages(both) == ["This is dated before the chicks of Rowan and Hazel hatched."]


def test_chicks_hatched_of_nobody_knows_which_lot_may_die_of_any() -> None:
    """Two came out not known whose; the first seen of the lot's own came two days later."""
    nest = Nest()
    one, two = nest.book.lot(), nest.book.lot()
    nest.book.set_eggs(nest.box, [(one, nest.family, 5), (two, nest.family, 5)], species="chicken")
    moves = [{"among": [one, two], "from": "set", "to": "hatched", "n": 2}]
    nest.book.write("moved", {"moves": moves}, at=OUT)
    nest.book.move(one, "set", "hatched", 2, at=OUT + timedelta(days=2))
    nest.book.move(one, "hatched", "died", 1, at=OUT + timedelta(hours=2))
    assert codes(nest) == []


def test_a_death_before_the_written_hatch_of_chicks_that_came() -> None:
    nest = Nest()
    bought = nest.book.lot()
    came = {"lot": bought, "n": 6, "family": nest.family, "on": "2026-03-25", "how": "bought", "stage": "brooding"}
    nest.book.write("came", {**came, "hatched_on": "2026-03-24"})
    nest.book.move(bought, "brooding", "died", 1, at=OUT + timedelta(days=4))
    assert codes(nest) == []
    early = nest.book.move(bought, "brooding", "died", 1, at=OUT - timedelta(days=1))
    assert codes(nest) == [("before_hatch", early)]


def test_a_bird_that_left_before_it_hatched() -> None:
    nest = Nest()
    leave(nest, a_bird(nest, hatched_on="2026-03-22"), "2026-03-22", "died")
    early = leave(nest, a_bird(nest, "Bay", hatched_on="2026-03-22"), "2026-03-01", "died")
    of_lot = leave(nest, of_the_lot(nest, name="Cob"), "2026-03-01", "sold")
    assert codes(nest) == [("bird_before_hatch", early), ("bird_before_hatch", of_lot)]
    assert messages(nest)[0] == "This is dated before Bay hatched."


@pytest.mark.parametrize(
    ("on", "is_told"), [(HATCHED, False), ("2026-03-29", False), ("2026-03-31", True), ("2025-03-22", True)]
)
def test_a_bird_hatched_far_from_its_only_lot(on: str, *, is_told: bool) -> None:
    nest = Nest()
    bird = of_the_lot(nest, hatched_on=on)
    assert codes(nest) == ([("hatch_apart", bird)] if is_told else [])


def test_a_bird_of_one_lot_among_two_is_held_to_neither() -> None:
    nest = Nest()
    a_bird(nest, lots=[{"lot": nest.lot}, {"lot": nest.book.lot()}], hatched_on="2025-03-22")
    assert codes(nest) == []


@pytest.mark.parametrize(
    ("one", "other", "is_told"),
    [
        ({"text": "R1", "leg": "left"}, {"text": "R1"}, True),
        ({"text": "R1"}, {"text": "r1"}, True),
        ({"text": "R 1", "colour": "Blue"}, {"text": "R1", "colour": "blue"}, True),
        ({"text": "R1", "leg": "left"}, {"text": "R1", "leg": "right"}, False),
        ({"text": "R1", "colour": "blue"}, {"text": "R1", "colour": "red"}, False),
        ({"text": "R1"}, {"text": "R11"}, False),
    ],
)
def test_one_band_written_in_two_ways(one: dict[str, str], other: dict[str, str], *, is_told: bool) -> None:
    nest = Nest()
    a_bird(nest, tags=[{"kind": "ring", **one}])
    second = a_bird(nest, "Bay", tags=[{"kind": "ring", **other}])
    assert codes(nest) == ([("band_twice", second)] if is_told else [])


def test_a_band_without_a_leg_clashes_with_either_and_the_legs_not_with_each_other() -> None:
    nest = Nest()
    for name, leg in (("Ash", "left"), ("Bay", "right")):
        a_bird(nest, name, tags=[{"kind": "ring", "text": "7", "leg": leg}])
    third = a_bird(nest, "Cob", tags=[{"kind": "ring", "text": "7"}])
    assert codes(nest) == [("band_twice", third)]


def test_a_bird_sold_and_two_days_later_dead() -> None:
    nest = Nest()
    bird = a_bird(nest)
    leave(nest, bird, "2026-05-01", "sold")
    assert codes(nest) == []
    leave(nest, bird, "2026-05-01", "sold")  # two phones, one day
    assert codes(nest) == []
    again = leave(nest, bird, "2026-05-03", "died")
    assert codes(nest) == [("left_twice", again)]
    assert messages(nest) == ["Ash had left for good on 2026-05-01 already."]
    nest.book.write("came", {"bird": bird, "on": "2026-05-02", "how": "returned"})
    assert codes(nest) == []


@pytest.mark.parametrize("how", ["lent", "lost"])
def test_a_bird_lent_or_lost_may_be_found_dead(how: str) -> None:
    nest = Nest()
    bird = a_bird(nest)
    leave(nest, bird, "2026-05-01", how)
    leave(nest, bird, "2026-05-03", "died")
    assert codes(nest) == []


@pytest.mark.parametrize(
    ("days", "what"),
    [
        ({"until": "2026-05-03"}, None),
        ({"until": "2026-05-01", "no_eggs_until": "2026-05-01"}, None),
        ({"until": "2026-04-30"}, "The treatment"),
        ({"until": "2026-05-01T06:00:00Z"}, None),
        ({"from": "2026-05-01T08:00:00Z", "until": "2026-05-01T06:00:00Z"}, "The treatment"),
        ({"from": "2026-05-02T01:00:00Z", "until": "2026-05-01"}, None),  # one evening west of Greenwich
        ({"no_eggs_until": "2026-04-20"}, "The time without eggs or meat"),
        ({"no_meat_until": "2026-04-20"}, "The time without eggs or meat"),
    ],
)
def test_a_treatment_that_ends_before_it_begins(days: dict[str, str], what: str | None) -> None:
    nest = Nest()
    entry = nest.book.write("treated", {"lot": nest.lot, "product": "drops", "from": "2026-05-01", **days})
    assert codes(nest) == ([] if what is None else [("ends_early", entry)])
    assert messages(nest) == ([] if what is None else [f"{what} ends before it begins."])


def test_a_time_apart_that_ends_before_they_came() -> None:
    nest = Nest()
    came = {"bird": a_bird(nest), "on": "2026-05-10", "how": "bought"}
    nest.book.write("came", {**came, "apart_until": "2026-05-10"})
    early = nest.book.write("came", {**came, "apart_until": "2026-05-01"})
    assert codes(nest) == [("ends_early", early)]


@pytest.mark.parametrize(
    ("until", "early"),
    [(None, False), ("2026-05-01", False), ("2026-05-01T20:00:00Z", False), ("2026-04-30", True)],
)
def test_a_stay_in_a_pen_that_ends_before_it_begins(until: str | None, early: bool) -> None:
    nest = Nest()
    days = {"since": "2026-05-01"} | ({"until": until} if until else {})
    entry = nest.book.write("penned", {"family": nest.family, "sires": [], "dams": [], **days})
    assert codes(nest) == ([("ends_early", entry)] if early else [])
    assert messages(nest) == (["The time in the pen ends before it begins."] if early else [])


@pytest.mark.parametrize(("kept", "odd"), [(0, False), (5, False), (6, True)])
def test_more_eggs_kept_than_were_gathered(kept: int, odd: bool) -> None:
    nest = Nest()
    entry = nest.book.write("gathered", {"family": nest.family, "on": "2026-05-01", "n": 5, "kept": kept})
    assert codes(nest) == ([("kept_over", entry)] if odd else [])
    assert messages(nest) == (["6 eggs were kept of 5 gathered, more than there were."] if odd else [])
