"""Losses of a brood by hand: those of unknown family, few to be expected, and counts that cannot be."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.brood import brood_report
from broodline.reports.brood_losses import expected_words
from broodline.trade.survival import Fate, survival
from tests.book_writer import BookWriter
from tests.server.reports.test_brood import OUT, Nest


class Pair:
    """Twelve chicks of Rowan and ten of Hazel, out of one setting and in one brooder."""

    def __init__(self) -> None:
        book = self.book = BookWriter()
        book.keeper()
        self.rowan, self.hazel = book.lot(), book.lot()
        place = book.write("place", {"name": "Brooder one", "role": "brooder"})
        eggs = [(self.rowan, book.family("Rowan"), 20), (self.hazel, book.family("Hazel"), 20)]
        book.set_eggs(book.incubator(), eggs)
        for lot, n in ((self.rowan, 12), (self.hazel, 10)):
            book.move(lot, "set", "hatched", n, at=OUT)
            book.move(lot, "hatched", "brooding", n, at=OUT + timedelta(hours=9), place=place)

    def among(self, target: str, n: int, days: float, **more: Any) -> None:
        move = {"among": [self.rowan, self.hazel], "from": "brooding", "to": target, "n": n}
        self.book.write("moved", {"moves": [move], "why": "lost", **more}, at=OUT + timedelta(days=days))

    def report(self, lot: str, days: float) -> dict[str, Any]:
        return brood_report(fold(self.book.entries()), lot, OUT + timedelta(days=days))


def test_deaths_of_unknown_family_are_in_the_first_week_of_both_together() -> None:
    pair = Pair()
    pair.among("died", 2, 3.2)
    for lot, n in ((pair.rowan, 12), (pair.hazel, 10)):
        found = pair.report(lot, 9)
        week = found["first_week"]
        assert (week["k"], week["n"], week["open"]) == (0, n, 2)
        assert week["words"] == f"0 of {n}, and up to 2 more, not known whose"
        assert (week["together"]["k"], week["together"]["n"]) == (2, 22)
        assert week["together"]["families"] == "Hazel and Rowan together"
        assert "vet" in week["together"]["advice"]
        assert (found["alive"], found["alive_least"], found["open"]) == (n, n - 2, {"died": 2})


def test_poults_are_held_against_what_hens_and_toms_lose() -> None:
    """Aziz: at most 1.5 % of hens and 2.5 % of toms; neither is what flocks lose at best."""
    found = Nest(species="turkey").report(9)["first_week"]["commercial"]
    assert found["words"] == "Commercial flocks: at most 1.5 % of hens and 2.5 % of toms in a first week."
    assert (found["low_pct"], found["most_pct"]) == (1.5, 2.5)


def test_deaths_of_unknown_family_after_the_first_week_leave_it_as_it_was() -> None:
    """Two on the last hour of the seventh day, three an hour later: up to two more died in the first week."""
    pair = Pair()
    pair.among("died", 2, 7 - 1 / 24)
    pair.among("died", 3, 7 + 1 / 24)
    found = pair.report(pair.rowan, 12)
    week = found["first_week"]
    assert (week["open"], week["words"]) == (2, "0 of 12, and up to 2 more, not known whose")
    assert (week["together"]["k"], found["alive_least"]) == (2, 7)


def test_deaths_of_unknown_family_are_in_the_curve_of_both_together() -> None:
    """The same as the curve of 22 chicks of which two died on day 3, and of none by the families alone."""
    pair = Pair()
    pair.among("died", 2, 3.2)
    found = pair.report(pair.rowan, 9)
    (step,) = survival([Fate(3, 2, died=True), Fate(9, 20, died=False)])
    (own,) = found["survival"]["together"]["points"]
    assert (own["day"], own["at_risk"], own["died"], own["rate"]) == (3, 22, 2, pytest.approx(20 / 22))
    assert (own["low"], own["high"]) == (step.low, step.high)
    first, rowan, hazel = found["survival_by"]["groups"]
    assert (first["family"], first["family_name"], first["n"]) == (None, "Hazel and Rowan together", 22)
    assert first["points"] == found["survival"]["together"]["points"]
    assert (rowan["family_name"], rowan["points"], hazel["family_name"], hazel["points"]) == ("Rowan", [], "Hazel", [])
    assert "nobody knows the family" in found["survival_by"]["words"]
    assert found["survival"]["points"] == []


def test_deaths_of_unknown_family_alarm_for_both() -> None:
    pair = Pair()
    pair.among("died", 2, 9.2, cause="predator_fox")
    assert pair.report(pair.rowan, 12)["alarms"] == []
    pair.among("died", 3, 10.2)
    for lot in (pair.rowan, pair.hazel):
        (alarm,) = pair.report(lot, 12)["alarms"]
        assert (alarm["day"], alarm["died"]) == (10, 3)
        assert alarm["expected"] == pytest.approx(20 * 0.002 / 7), "20 of both on that morning, 0.2 % a week"
        assert alarm["words"].startswith("Hazel and Rowan together: 3 died on one day; fewer than 0.1 were")


def test_a_hatch_whose_losses_are_all_known_is_told_by_its_lots_alone() -> None:
    pair = Pair()
    pair.book.move(pair.rowan, "brooding", "died", 3, at=OUT + timedelta(days=10.2))
    found = pair.report(pair.hazel, 12)
    assert (found["alarms"], found["first_week"]["together"], found["survival"]["together"]) == ([], None, None)
    assert (found["first_week"]["open"], found["alive_least"]) == (0, found["alive"])
    (alarm,) = pair.report(pair.rowan, 12)["alarms"]
    assert alarm["families"] is None
    assert alarm["words"].startswith("3 died on one day")


def test_what_was_to_be_expected_is_never_said_to_be_nothing() -> None:
    """17 chicks of that age: 17 x 0.2 % / 7 = 0.005 deaths in a day, which to a tenth is 0.0."""
    assert expected_words(17 * 0.002 / 7) == "fewer than 0.1"
    assert [expected_words(expected) for expected in (0.0999, 0.1, 0.34, 2.0)] == [
        "fewer than 0.1", "about 0.1", "about 0.3", "about 2.0",
    ]  # fmt: skip


def test_counts_that_cannot_be_give_no_figures_but_a_problem() -> None:
    """Three hatched, five went to the brooder: nobody can say how many live, what they eat or how many died."""
    nest = Nest(chicks=3)
    nest.move("hatched", "brooding", 2, days=0.6)
    nest.move("brooding", "died", days=3)
    found = nest.report(9)
    assert found["stages"]["hatched"] < 0
    assert (found["alive"], found["alive_least"], found["alarms"], found["survival"]["points"]) == (None, None, [], [])
    assert found["survival_by"]["groups"] == []
    week = found["first_week"]
    assert (week["rate"], week["commercial"]["where"], week["advice"]) == (None, None, None)
    assert "cannot be" in week["words"]
    for name in ("today_g", "four_weeks_kg", "per_bird_g"):
        assert (found["feed"][name] is None) == (name != "per_bird_g")
    assert found["water_ml"] is None
    assert found["space"]["floor_m2"] is None
    assert found["space"]["per_bird"]["floor_m2"] is not None, "what one needs is known all the same"
    (problem,) = [one for one in found["problems"] if one["code"] == "below_zero"]
    assert problem["remedy"]


def test_what_one_batch_lacks_its_neighbour_does_not_make_good() -> None:
    """Twelve of Hazel's ten died: 12 + 10 - 12 - 2 = 8 would live, but nobody can say how many died of both."""
    pair = Pair()
    pair.among("died", 2, 3.2)
    pair.book.move(pair.hazel, "brooding", "died", 12, at=OUT + timedelta(days=3))
    found = pair.report(pair.rowan, 9)
    assert (found["alive"], found["alive_least"], found["young"]) == (12, 10, 12)
    assert (found["first_week"]["together"]["rate"], found["survival"]["together"]["points"]) == (None, [])
    assert found["first_week"]["together"]["words"] == "Not told: these counts cannot be."
    assert found["alarms"] == []
    (problem,) = found["problems"]
    assert (problem["code"], "2 more went out" in problem["message"]) == ("below_zero", True)
    assert pair.report(pair.hazel, 9)["alive"] is None


def test_more_gone_of_unknown_family_than_there_were_leave_no_figure_of_either() -> None:
    pair = Pair()
    pair.among("died", 30, 3.2)
    for lot, n in ((pair.rowan, 12), (pair.hazel, 10)):
        found = pair.report(lot, 9)
        assert (found["alive"], found["young"], found["water_ml"], found["alarms"]) == (None, None, None, [])
        week = found["first_week"]
        assert (week["open"], week["rate"], week["words"]) == (n, None, "Not told: these counts cannot be.")
        assert (found["survival_by"]["groups"], found["survival_by"]["words"]) == ([], None)
        assert "below_zero_setting" in {one["code"] for one in found["problems"]}


def test_counts_that_cannot_be_are_in_no_place_and_no_task() -> None:
    """Forty went to the brooder of whom twelve hatched; ten of another batch, which adds up, are there too."""
    pair = Pair()
    pair.book.move(pair.rowan, "hatched", "brooding", 28, at=OUT + timedelta(days=3))
    odd, sound = pair.report(pair.rowan, 9), pair.report(pair.hazel, 9)
    assert {one["n"] for one in odd["places"]} == {None}
    assert [(one["n"], [other["n"] for other in one["with"]]) for one in sound["places"]] == [(10, [None])]
    assert odd["tasks"] != []
    assert {task["n"] for task in odd["tasks"]} == {None}
    assert "Fresh water for the chicks in Brooder one, morning and evening." in {
        task["words"] for task in sound["tasks"]
    }
    assert {task["n"] for task in Pair().report(pair.hazel, 9)["tasks"]} == {22}, "those that add up are counted"
