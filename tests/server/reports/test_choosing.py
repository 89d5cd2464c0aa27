"""Young birds to keep: weights within hatch and sex, scores that add up, sons of each cock, what is foretold."""

from datetime import UTC, datetime
from typing import Any

import pytest

from broodline.reports.choosing import Keeping, choosing_report, keeping_of
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 7, 10, tzinfo=UTC)  # hatched on 1 May by the set of 10 April: 70 days old
HATCHED, WEIGHED = "2026-05-01", "2026-06-26"


class Yard(PenBook):
    """Rowan's pen of one cock and two hens, its hatch of 1 May, and chicks of it by name."""

    def __init__(self) -> None:
        super().__init__()
        (self.cock,) = self.birds("male", 1, name="Bram")
        self.hens = self.birds("female", 2)
        self.pen([self.cock], self.hens, "2026-01-01")
        self.hatch = self.eggs("2026-04-01", "2026-04-07")
        self.move(self.hatch, "set", "hatched", 12, at=datetime(2026, 5, 1, 9, tzinfo=UTC))

    def chick(self, name: str, sex: str, mass_g: float | None = None, **more: Any) -> str:
        body = {"name": name, "family": self.rowan, "hatched_on": HATCHED, "lots": [{"lot": self.hatch}], **more}
        bird = self.bird(sex, **body)
        if mass_g is not None:
            birds = [{"bird": bird, "mass_g": mass_g}]
            self.write("weighed", {"lot": self.hatch, "birds": birds, "sex": sex, "on": WEIGHED})
        return bird

    def choose(self, **wishes: Any) -> dict[str, Any]:
        return choosing_report(self.standing(), Keeping(**wishes), NOW)


def named(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {bird["label"]: bird for bird in report["birds"]}


def test_weights_beside_hatch_and_sex_and_what_is_passed_on() -> None:
    """Cockerels of 700, 800, 900 g: +100 g, of which 0.56 is passed on at 8 weeks. Pullets are another group."""
    yard = Yard()
    for name, sex, mass in (("a", "male", 700), ("b", "male", 800), ("c", "male", 900), ("p", "female", 500)):
        yard.chick(name, sex, mass)
    found = named(yard.choose())
    assert (found["c"]["weight"]["above_g"], found["c"]["weight"]["z"]) == (100, 1)
    assert found["c"]["weight"]["passed_on_g"] == pytest.approx(56)
    assert found["a"]["weight"]["passed_on_g"] == pytest.approx(-56)
    assert (found["p"]["weight"]["n"], found["p"]["weight"]["above_g"]) == (1, None), "one bird has no contemporaries"


def test_three_are_contemporaries_and_two_are_not() -> None:
    yard = Yard()
    yard.chick("a", "male", 700)
    yard.chick("b", "male", 800)
    found = named(yard.choose())["b"]["weight"]
    assert (found["n"], found["above_g"], found["z"]) == (2, None, None)
    yard.chick("c", "male", 900)
    assert named(yard.choose())["b"]["weight"]["above_g"] == 0


def test_a_bird_weighed_twice_on_a_day_is_one_of_its_contemporaries_with_its_last_weight() -> None:
    """700, 800 and 900 g, the last first taken for 600: a mean of 800, not of 750."""
    yard = Yard()
    for name, mass in (("a", 700), ("b", 800)):
        yard.chick(name, "male", mass)
    twice = yard.chick("c", "male", 600)
    birds = [{"bird": twice, "mass_g": 900}]
    yard.write("weighed", {"lot": yard.hatch, "birds": birds, "sex": "male", "on": WEIGHED})
    found = named(yard.choose())
    assert [(found[name]["weight"]["n"], found[name]["weight"]["above_g"]) for name in "abc"] == [
        (3, -100),
        (3, 0),
        (3, 100),
    ]


def test_the_heaviest_is_kept_and_as_many_as_stand_in_the_pens() -> None:
    yard = Yard()
    for name, mass in (("light", 700), ("heavy", 900), ("middle", 800)):
        yard.chick(name, "male", mass)
    for name in ("x", "y", "z"):
        yard.chick(name, "female", 600)
    report = yard.choose()
    assert report["keep"] == {"cocks": 1, "hens": 2}
    assert {bird["label"] for bird in report["birds"] if bird["keep"]} >= {"heavy"}
    assert sum(bird["keep"] for bird in report["birds"]) == 3
    assert named(report)["heavy"]["why"] == "carries on Bram"
    assert report["words"][0] == "Keep 1 cockerel and 2 pullets of 6 young birds; the others may be sold or given."


def test_young_birds_of_another_breed_are_counted_and_may_be_asked_for() -> None:
    yard = Yard()
    yard.chick("a", "male")
    yard.chick("b", "female")
    grey = yard.chick("g", "female", breed="Brook Grey")
    report = yard.choose()
    assert report["words"][-1] == "1 young bird of another breed (Brook Grey) is left out here."
    assert len(report["birds"]) == 2
    assert report["breeds"] == [report["breed"], "Brook Grey"]
    other = yard.choose(breed="Brook Grey")
    assert [bird["bird"] for bird in other["birds"]] == [grey]
    assert other["words"][-1].startswith("2 young birds of another breed (")


def test_a_son_of_each_cock_though_the_other_cocks_sons_are_heavier() -> None:
    yard = Yard()
    other = yard.family("Hazel")
    second = yard.bird("male", family=other, name="Hob")
    hen = yard.bird("female", family=other)
    yard.write("penned", {"family": other, "since": "2026-01-01", "sires": [{"bird": second}], "dams": [{"bird": hen}]})
    for name, mass in (("a", 900), ("b", 890), ("c", 880)):
        yard.chick(name, "male", mass)
    yard.chick("small", "male", 600, family=other, sires=[{"bird": second}], dams=[{"bird": hen}])
    report = yard.choose(cocks=2, by="weight")
    assert {bird["label"] for bird in report["birds"] if bird["keep"] and bird["sex"] == "male"} == {"a", "small"}
    chances = {row["label"]: row["chance"] for row in report["parents"]}
    assert (chances["Bram"], chances["Hob"]) == pytest.approx((1, 1))
    lone = yard.choose(cocks=1, by="weight")
    assert [bird["label"] for bird in lone["birds"] if bird["keep"] and bird["sex"] == "male"] == ["a"]


def test_a_cock_without_a_son_is_named() -> None:
    yard = Yard()
    yard.chick("p", "female", 500)
    report = yard.choose()
    again = "set eggs of that pen again before he moves to other hens"
    assert f"No son to keep of Bram: {again}, or the line ends with these birds." in report["words"]
    assert report["words"][0].endswith(
        "There are only 0 cockerels of the 1 wished for. There are only 1 pullets of the 2 wished for."
    )


def test_scores_their_totals_and_faults() -> None:
    yard = Yard()
    good, better, faulty = (yard.chick(name, "male") for name in ("good", "better", "faulty"))
    yard.write("scored", {"bird": good, "on": "2026-07-01", "scores": {"type": 20, "comb": 8, "Total": 30}})
    yard.write("scored", {"bird": better, "on": "2026-07-01", "scores": {"type": 22, "comb": 9}})
    yard.write("scored", {"bird": better, "on": "2026-06-01", "scores": {"type": 1}})
    yard.write("scored", {"bird": faulty, "on": "2026-07-01", "scores": {"type": 60, "crooked toe": -5}})
    report = yard.choose()
    assert report["by"] == "score"
    assert [bird["label"] for bird in report["birds"] if bird["keep"]] == ["better"]
    found = named(report)
    assert (found["better"]["score"]["total"], found["faulty"]["score"]["total"]) == (31, 55)
    assert found["faulty"]["faults"] == ["crooked toe"]
    (problem,) = [one for one in report["problems"] if one["code"] == "score_total"]
    assert problem["message"] == "The parts of a score sum to 28, but the total written is 30."
    assert [bird["label"] for bird in yard.choose(cocks=3)["birds"] if bird["keep"]] == ["better", "good", "faulty"]


def test_points_over_the_card() -> None:
    """ICAR's egg-type card: 25 for type, 10 for the comb."""
    yard = Yard()
    card = {"type": 25, "comb": 12, "ear-lobe": 10, "eyes": 5, "legs": 10, "breast": 5, "size": 5, "colour": 20}
    yard.write("scored", {"bird": yard.chick("a", "male"), "on": "2026-07-01", "scores": {**card, "condition": 10}})
    (problem,) = [one for one in yard.choose()["problems"] if one["code"] == "score_over"]
    assert problem["message"] == "12 points for comb; the card gives at most 10."


def test_what_the_choice_brings_by_hand() -> None:
    """Cockerels 700 to 900 g, one kept: +100 g. Pullets 500, 600, 700 g, two kept: +50 g. 0.56 x (100 + 50) / 2."""
    yard = Yard()
    for name, sex, mass in (
        ("a", "male", 700), ("b", "male", 800), ("c", "male", 900),
        ("p", "female", 500), ("q", "female", 600), ("r", "female", 700),
    ):  # fmt: skip
        yard.chick(name, sex, mass)
    report = yard.choose(by="weight")
    assert report["response"]["ahead_g"] == pytest.approx({"male": 100, "female": 50})
    assert report["response"]["gain_g"] == pytest.approx(42)
    assert "Kenyan" in report["response"]["source"]
    assert any("+42 g is to be expected" in words for words in report["words"])


def test_nothing_is_foretold_where_nothing_was_read() -> None:
    yard = Yard()
    for name, sex, mass in (("a", "male", 700), ("b", "male", 800), ("c", "male", 900), ("p", "female", 500)):
        yard.chick(name, sex, mass)
    report = yard.choose()
    assert report["response"] is None
    assert report["words"][-1].startswith("No gain in weight is foretold")


def test_who_is_up_for_choosing() -> None:
    yard = Yard()
    yard.bird("male", name="old", family=yard.rowan, hatched_on="2024-05-01")
    gone, kept = yard.chick("gone", "male"), yard.chick("unsexed", "unknown")
    yard.write("left", {"bird": gone, "on": "2026-06-01", "how": "sold"})
    report = yard.choose()
    assert [(bird["bird"], bird["keep"]) for bird in report["birds"]] == [(kept, False)]
    assert any("1 of them are not sexed" in words for words in report["words"])
    empty = choosing_report(PenBook().standing(), Keeping(), NOW)
    assert (empty["birds"], empty["keep"]) == ([], {"cocks": 0, "hens": 0})
    assert "No young bird" in empty["words"][0]


def test_wishes_in_words() -> None:
    assert keeping_of({}) == Keeping()
    assert keeping_of({"cocks": "2", "hens": "0", "by": "score", "breed": "Fen Buff"}) == Keeping(
        2, 0, "score", "Fen Buff"
    )
    for odd in ({"cocks": "two"}, {"hens": "1001"}, {"by": "colour"}, {"cocks": "-1"}):
        assert keeping_of(odd) is None
