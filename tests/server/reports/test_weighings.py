"""Water loss of a setting through a book, and over the vectors shared with the phone."""

import json
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.readings import air_of
from broodline.reports.setting import setting_report
from broodline.reports.weighings import weighings_of, weight_loss_json
from tests.book_writer import START, BookWriter

VECTORS = Path(__file__).parents[2] / "vectors" / "weighings.json"
CASES = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]
UNCHECKED = " The hygrometer was not checked this season."


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    standing = fold(map(read_entry, case["in"]["entries"]))
    setting = standing.settings[case["in"]["setting"]]
    air = air_of(standing, setting, [standing.lots[lot] for lot in setting.lots])
    weighed = weighings_of(standing, setting)
    loss = weight_loss_json(setting, weighed, air, datetime.fromisoformat(case["in"]["now"])) or {}
    out = case["out"]
    points: list[Any] = [[one.day, one.loss_pct, one.lot, one.since_day] for one in weighed.points]
    assert points == [
        [pytest.approx(day), pytest.approx(lost), lot, pytest.approx(since)] for day, lost, lot, since in out["points"]
    ]
    assert weighed.error_pct == pytest.approx(out["error_pct"])
    assert [[one.entry, one.code] for one in weighed.problems] == out["faults"]
    assert len(weighed.notes) == out["recounted"]
    advice = loss.get("advice")
    assert (advice and advice.removesuffix(UNCHECKED), bool(advice and advice.endswith(UNCHECKED))) == (
        out["advice"],
        out["unchecked"],
    )
    for name, vector in (
        ("projected_pct", "projected_pct"),
        ("projected_band_pct", "band_pct"),
        ("by_day", "by_day"),
        ("corridor_pct", "corridor_pct"),
        ("humidity_pct", "humidity_pct"),
    ):
        assert loss.get(name) == (None if out[vector] is None else pytest.approx(out[vector]))


@pytest.fixture
def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    return writer


def begin(book: BookWriter, **more: Any) -> tuple[str, str, str]:
    lot, place = book.lot(), book.incubator()
    return book.set_eggs(place, [(lot, book.family("Rowan"), 40)], **more), lot, place


def weigh(book: BookWriter, setting: str, day: float, gross_g: float, n: int = 20, **more: Any) -> str:
    body = {"setting": setting, "n": n, "gross_g": gross_g, "tare_g": 250.0, **more}
    return book.write("eggs_weighed", body, at=START + timedelta(days=day))


def report(book: BookWriter, setting: str, day: float = 10) -> dict[str, Any]:
    return setting_report(fold(book.entries()), setting, START + timedelta(days=day))


def gross(loss_pct: float, n: int = 20, egg_g: float = 60) -> float:
    return round(250 + n * egg_g * (1 - loss_pct / 100), 3)


def test_nothing_weighed_is_null(book: BookWriter) -> None:
    setting, *_ = begin(book)
    assert report(book, setting)["weight_loss"] is None


def test_points_and_projection_by_hand(book: BookWriter) -> None:
    setting, *_ = begin(book)
    for day, loss in ((0, 0), (7, 4.2), (10, 6.3)):
        weigh(book, setting, day, gross(loss))
    found = report(book, setting)["weight_loss"]
    assert [(one["day"], one["loss_pct"]) for one in found["points"]] == [
        (0, 0),
        (7, pytest.approx(4.2, abs=1e-3)),
        (10, pytest.approx(6.3, abs=1e-3)),
    ]
    slope = (7 * 4.2 + 10 * 6.3) / (49 + 100)
    assert found["projected_pct"] == pytest.approx(18 * slope, abs=1e-3)
    assert (found["target_pct"], found["corridor_pct"]) == (12, [10.5, 13])
    assert found["advice"] is None
    assert found["source"] == "e-course pages 129786, 129968 (ICAR/IASRI); read in the source itself"


def test_per_egg_when_the_count_on_the_tray_changes(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, 0, gross(0, n=20), n=20)
    weigh(book, setting, 9, gross(6, n=17), n=17)
    found = report(book, setting)["weight_loss"]
    assert found["projected_pct"] == pytest.approx(12, abs=1e-3)


def test_loss_too_large_raises_humidity_by_one_step(book: BookWriter) -> None:
    """The worked correction: 7.5 % by day 10 at 55 % asks for 66 %; one step of 5 points is advised."""
    setting, _, place = begin(book)
    for day, loss in ((0, 0), (5, 3.75), (10, 7.5)):
        weigh(book, setting, day, gross(loss))
    dry = {"place": place, "dry_c": 37.5}
    assert "Raise the humidity, then" in report(book, setting)["weight_loss"]["advice"]
    book.write("air", {**dry, "humidity_pct": 55}, at=START + timedelta(days=9))
    advice = report(book, setting)["weight_loss"]["advice"]
    assert "too much: 13.5 % by lockdown" in advice
    assert "Raise the humidity from 55 to 60 %" in advice
    assert "scales outrank" in advice
    assert report(book, setting, day=16)["weight_loss"]["advice"] is None


def test_loss_too_small_lowers_it(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for day, loss in ((0, 0), (5, 2), (10, 4)):
        weigh(book, setting, day, gross(loss))
    book.write("air", {"place": place, "dry_c": 37.5, "humidity_pct": 60}, at=START + timedelta(days=9))
    assert "Lower the humidity from 60 to 55 %" in report(book, setting)["weight_loss"]["advice"]


def test_a_coarse_scale_and_few_eggs_say_nothing_sure(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, 0, 62.0, n=1, tare_g=2.0)
    weigh(book, setting, 3, 60.0, n=1, tare_g=2.0)
    found = report(book, setting, day=3)["weight_loss"]
    assert found["projected_pct"] == pytest.approx(20)
    low, high = found["projected_band_pct"]
    assert high - low > 5
    weigh(book, setting, 1, 62.0, n=1, tare_g=2.0)
    assert "wide error" in report(book, setting, day=3)["weight_loss"]["advice"]


def test_weighings_that_cannot_be_are_told_and_left_out(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, -5, gross(0))
    weigh(book, setting, 0, gross(0))
    weigh(book, setting, 5, 200)
    weigh(book, setting, 6, gross(-1))
    weigh(book, setting, 9, gross(6))
    found = report(book, setting)
    assert found["weight_loss"]["projected_pct"] == pytest.approx(12, abs=1e-3)
    assert sorted(problem["code"] for problem in found["problems"]) == [
        "tare_over_gross",
        "weighed_before_setting",
        "weight_gained",
    ]


def test_first_weighed_late_is_counted_from_then(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, 6, gross(4))
    weigh(book, setting, 9, gross(4 + 2 * 0.96))
    assert report(book, setting)["weight_loss"]["projected_pct"] == pytest.approx(2 / 3 * 18, abs=0.01)


def test_trays_of_two_lots_each_have_their_own_first_weighing(book: BookWriter) -> None:
    setting, lot, _ = begin(book)
    for day, loss in ((0, 0), (9, 6)):
        weigh(book, setting, day, gross(loss))
        weigh(book, setting, day, gross(loss, egg_g=50), lot=lot)
    found = report(book, setting)["weight_loss"]
    assert [one["lot"] for one in found["points"]] == [None, lot, None, lot]
    assert found["projected_pct"] == pytest.approx(12, abs=1e-3)


def test_one_weighing_and_unknown_species_give_no_projection(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, 0, gross(0))
    found = report(book, setting)["weight_loss"]
    assert (found["projected_pct"], found["projected_band_pct"], found["advice"]) == (None, None, None)
    other, *_ = begin(book, species="phoenix")
    weigh(book, other, 0, gross(0))
    weigh(book, other, 9, gross(6))
    found = report(book, other)["weight_loss"]
    assert (found["target_pct"], found["projected_pct"], found["source"]) == (None, None, None)


def test_advice_ends_with_lockdown(book: BookWriter) -> None:
    setting, *_ = begin(book)
    for day, loss in ((0, 0), (5, 2), (10, 4)):
        weigh(book, setting, day, gross(loss))
    assert report(book, setting)["weight_loss"]["advice"] is not None
    book.write("locked", {"setting": setting})
    assert report(book, setting)["weight_loss"]["advice"] is None


def test_a_changed_count_on_the_tray_is_said(book: BookWriter) -> None:
    setting, *_ = begin(book)
    for day, loss, n in ((0, 0, 20), (7, 4.5, 20), (9, 6, 17)):
        weigh(book, setting, day, gross(loss, n=n), n=n)
    found = report(book, setting)["weight_loss"]
    assert found["notes"] == ["17 eggs on day 9, 20 the time before: reckoned for each egg."]
    assert found["points"][-1]["loss_pct"] == pytest.approx(6, abs=1e-3)


def test_a_gain_since_the_last_weighing_is_refused_in_words_with_its_entry(book: BookWriter) -> None:
    """At 57 g an egg has lost 5 %; at 58 g five days later it would have gained."""
    setting, *_ = begin(book)
    weigh(book, setting, 0, gross(0))
    weigh(book, setting, 7, gross(5))
    gained = weigh(book, setting, 12, gross(100 * 2 / 60))
    found = report(book, setting)
    assert [point["day"] for point in found["weight_loss"]["points"]] == [0, 7]
    problem = next(one for one in found["problems"] if one["code"] == "weight_gained")
    assert problem["entry"] == gained
    assert problem["message"] == (
        "Eggs do not gain weight, yet these weigh 58.0 g each on day 12 and weighed 57.0 g on day 7."
    )


def test_a_gain_of_one_step_of_the_scale_is_no_gain(book: BookWriter) -> None:
    setting, *_ = begin(book)
    weigh(book, setting, 0, 1450)
    weigh(book, setting, 1, 1451)
    found = report(book, setting)
    assert [point["loss_pct"] for point in found["weight_loss"]["points"]] == [0, 0]
    assert found["problems"] == []


def test_weighings_of_nothing_are_told_with_their_entries(book: BookWriter) -> None:
    setting, *_ = begin(book)
    entries = [weigh(book, setting, day, gross_g) for day, gross_g in ((0, 250), (3, 0))]
    found = report(book, setting)
    assert found["weight_loss"] is None
    assert sorted(problem["entry"] for problem in found["problems"]) == sorted(entries)
    assert {problem["code"] for problem in found["problems"]} == {"tare_over_gross"}


def test_the_error_comes_from_the_scales_step_and_the_number_of_eggs(book: BookWriter) -> None:
    """Two errors of up to half a gram, evenly: 0.408 g of 1200 g is 0.034 %."""
    setting, *_ = begin(book)
    weigh(book, setting, 0, 1450)
    weigh(book, setting, 9, 1380)
    assert report(book, setting)["weight_loss"]["error_pct"] == pytest.approx(100 * (1 / 6) ** 0.5 / 1200)
    weigh(book, setting, 12, 1355.4)
    finer = report(book, setting)["weight_loss"]["error_pct"]
    assert finer == pytest.approx(10 * (1 / 6) ** 0.5 / 1200), "one reading with a tenth shows what the scale can"


def test_humidity_is_advised_no_further_than_any_table_goes(book: BookWriter) -> None:
    """50 % is the least any table gives for chicken (Parkhurst and Mountney: 50 to 60 % to day 19)."""
    setting, _, place = begin(book)
    for day, loss in ((0, 0), (5, 2), (10, 4)):
        weigh(book, setting, day, gross(loss))
    book.write("air", {"place": place, "dry_c": 37.5, "humidity_pct": 50}, at=START + timedelta(days=9))
    found = report(book, setting)["weight_loss"]
    assert found["humidity_pct"] is None
    assert "no table goes below 50 %" in found["advice"]


def test_an_unchecked_hygrometer_is_said_beside_the_advice(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for day, loss in ((0, 0), (5, 2), (10, 4)):
        weigh(book, setting, day, gross(loss))
    book.write("air", {"place": place, "dry_c": 37.5, "humidity_pct": 60}, at=START + timedelta(days=9))
    unchecked = report(book, setting)["weight_loss"]
    assert unchecked["advice"].endswith("The hygrometer was not checked this season.")
    assert unchecked["humidity_pct"] == 55
    book.write("gauge_checked", {"place": place, "gauge": "humidity", "reads": 60, "true_value": 60}, at=START)
    assert "not checked" not in report(book, setting)["weight_loss"]["advice"]


def test_humidity_by_two_bulbs_needs_both_checked(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for day, loss in ((0, 0), (5, 2), (10, 4)):
        weigh(book, setting, day, gross(loss))
    book.write("air", {"place": place, "dry_c": 37.5, "wet_c": 30.2}, at=START + timedelta(days=9))
    book.write("gauge_checked", {"place": place, "gauge": "wet", "reads": 30, "true_value": 30}, at=START)
    assert "not checked" in report(book, setting)["weight_loss"]["advice"]
    book.write("gauge_checked", {"place": place, "gauge": "dry", "reads": 37.5, "true_value": 37.5}, at=START)
    assert "not checked" not in report(book, setting)["weight_loss"]["advice"]
