"""Weights in a book: compared within hatch and sex only, with a curve where they carry one."""

import json
from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from statistics import mean, stdev
from typing import Any

import pytest
from scipy.stats import norm

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.growth import growth_report, weights_of
from tests.book_writer import START, BookWriter
from tests.server.trade.test_growth import DAY_21, DIET_4

NOW = START + timedelta(days=200)
VECTORS = Path(__file__).parents[2] / "vectors" / "weights.json"


@pytest.fixture
def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    return writer


def lot_of(book: BookWriter, family: str = "Rowan") -> str:
    lot = book.lot()
    came = {"lot": lot, "n": 20, "family": book.family(family), "on": "2026-03-01", "how": "given"}
    book.write("came", {**came, "hatched_on": "2026-03-01"})
    return lot


def day(age: float) -> str:
    return (START + timedelta(days=age)).date().isoformat()


def weigh(book: BookWriter, lot: str, age: int, masses: Sequence[float], sex: str = "unknown", **more: Any) -> None:
    book.write("weighed", {"lot": lot, "birds": [{"mass_g": one} for one in masses], "sex": sex, "on": day(age)} | more)


def report(book: BookWriter) -> dict[str, Any]:
    return growth_report(fold(book.entries()), NOW)


def test_chickweight_diet_4_in_a_book(book: BookWriter) -> None:
    """R's ChickWeight, diet 4: the means of twelve days, and the nine chicks of day 21."""
    lot = lot_of(book)
    for age, mass in DIET_4[:-1]:
        weigh(book, lot, age, [mass], "male")
    weigh(book, lot, 21, DAY_21[4], "female")
    groups = report(book)["groups"]
    females = [one for one in groups if one["sex"] == "female"]
    assert [(one["age_days"], one["n"]) for one in females] == [(21, 9)]
    assert females[0]["mean_g"] == pytest.approx(238.5556, abs=5e-5)
    assert females[0]["cv_pct"] == pytest.approx(18.1709, abs=5e-5)
    assert females[0]["within_10_pct"] == pytest.approx(100 * 2 / 9)
    chance = norm.cdf(10, scale=females[0]["cv_pct"]) - norm.cdf(-10, scale=females[0]["cv_pct"])
    assert females[0]["within_10_expected_pct"] == pytest.approx(100 * chance), "scipy's normal distribution"
    assert (females[0]["fit"], females[0]["refused"]) == (None, "Weighed at 1 age; a curve needs at least 5.")
    males = [one for one in groups if one["sex"] == "male"]
    assert len(males) == 11
    assert males[0]["fit"]["model"] in ("gompertz", "logistic")
    assert males[0]["fit"]["inflection_day"] < 21
    assert "refused" not in males[0]


def test_a_curve_that_did_not_turn_is_refused_in_words(book: BookWriter) -> None:
    """Chick 1 of ChickWeight at three weeks."""
    lot = lot_of(book)
    for age, mass in zip((0, 4, 8, 12, 16, 20), (42, 59, 76, 106, 149, 199), strict=True):
        weigh(book, lot, age, [mass])
    (words,) = {one["refused"] for one in report(book)["groups"]}
    assert words.startswith("The birds were last weighed at 20 days, before their fastest growth")


def test_birds_are_ranked_within_their_hatch_and_sex_only(book: BookWriter) -> None:
    rowan, hazel = lot_of(book), lot_of(book, "Hazel")
    birds = {
        name: book.write("bird", {"name": name, "sex": sex, "lots": [{"lot": lot}]})
        for name, sex, lot in (
            ("Ash", "male", rowan),
            ("Bay", "male", rowan),
            ("Cob", "female", rowan),
            ("Dun", "male", hazel),
        )
    }
    masses = {"Ash": 1500.0, "Bay": 1700.0, "Cob": 1300.0, "Dun": 1900.0}
    entries = [{"bird": birds[name], "mass_g": mass} for name, mass in masses.items()]
    book.write("weighed", {"birds": entries, "on": day(84)})
    found = report(book)
    ranks = {one["label"]: (one["rank"], one["group"]["n"]) for one in found["birds"]}
    assert ranks == {"Bay": (1, 2), "Ash": (2, 2), "Cob": (1, 1), "Dun": (1, 1)}
    males = next(one for one in found["groups"] if one["sex"] == "male" and one["family_name"] == "Rowan")
    assert (males["mean_g"], males["sd_g"]) == pytest.approx((mean([1500, 1700]), stdev([1500, 1700])))
    assert males["age_days"] == 84


def test_a_day_old_of_four_kilograms_is_left_out_of_the_mean(book: BookWriter) -> None:
    lot = lot_of(book)
    weigh(book, lot, 0, [40, 42, 4000])
    (group,) = report(book)["groups"]
    assert (group["n"], group["mean_g"]) == (2, 41)


def test_only_the_last_weighing_of_a_bird_ranks_it_and_it_is_named_by_its_band(book: BookWriter) -> None:
    lot = lot_of(book)
    tag = {"kind": "ring", "colour": "blue", "text": "7"}
    bird = book.write("bird", {"sex": "unknown", "lots": [{"lot": lot}], "tags": [tag]})
    nameless = book.write("bird", {"sex": "unknown"})
    for age, mass in ((84, 1500.0), (56, 900.0)):
        book.write("weighed", {"birds": [{"bird": bird, "mass_g": mass}], "on": day(age)})
    book.write("weighed", {"birds": [{"bird": nameless, "mass_g": 2000.0}], "on": day(84)})
    found = {one["label"]: one["mass_g"] for one in report(book)["birds"]}
    assert found == {"blue 7": 1500, f"bird {nameless[-4:]}": 2000}


def test_a_bird_is_slow_below_nine_tenths_of_its_own_group_and_while_it_is_here(book: BookWriter) -> None:
    """Hens of 800, 900 and 1000 g: mean 900, so below 810 is slow; the cocks and another batch weigh in nothing."""
    lot, other = lot_of(book), lot_of(book, "Hazel")
    grams = {"a": 800.0, "b": 900.0, "c": 1000.0}
    hens = {name: book.write("bird", {"sex": "female", "name": name, "lots": [{"lot": lot}]}) for name in grams}
    for name, mass in grams.items():
        book.write("weighed", {"birds": [{"bird": hens[name], "mass_g": mass}], "on": day(70)})
    weigh(book, lot, 70, [2000, 2200], "male")
    weigh(book, other, 70, [2500], "female")
    found = {one["label"]: one for one in report(book)["birds"]}
    assert {name: one["slow"] for name, one in found.items()} == {"a": True, "b": False, "c": False}
    assert {name: one["rank"] for name, one in found.items()} == {"a": 3, "b": 2, "c": 1}
    assert found["a"]["of_mean_pct"] == pytest.approx(100 * 800 / 900)
    book.write("left", {"bird": hens["a"], "on": day(71), "how": "sold"})
    gone = next(one for one in report(book)["birds"] if one["label"] == "a")
    assert (gone["slow"], gone["where"], gone["rank"]) == (False, "gone", 3)


def test_nothing_weighed(book: BookWriter) -> None:
    assert report(book)["groups"] == report(book)["birds"] == []


@pytest.mark.parametrize("case", json.loads(VECTORS.read_text())["cases"], ids=lambda case: case["name"])
def test_which_weights_count(case: dict[str, Any]) -> None:
    found = weights_of(fold(map(read_entry, case["in"]["entries"])))
    assert [[one.on, one.bird, one.mass_g] for one in found] == case["out"]


def test_a_bird_weighed_twice_on_a_day_is_one_bird_with_its_last_weight(book: BookWriter) -> None:
    """700, 800 and 900 g, the last first taken for 600: three birds with a mean of 800, the third the heaviest."""
    lot = lot_of(book)
    birds = [book.write("bird", {"sex": "male", "lots": [{"lot": lot, "share": 1}]}) for _ in range(3)]
    for bird, mass in zip([*birds, birds[2]], (700, 800, 600, 900), strict=True):
        book.write("weighed", {"birds": [{"bird": bird, "mass_g": mass}], "on": day(70)})
    found = report(book)
    (group,) = found["groups"]
    assert (group["n"], group["mean_g"], group["sd_g"]) == (3, 800, 100)
    assert [(one["bird"], one["rank"], one["group"]["n"], one["of_mean_pct"]) for one in found["birds"]] == [
        (birds[2], 1, 3, 112.5),
        (birds[1], 2, 3, 100),
        (birds[0], 3, 3, 87.5),
    ]
