"""Water loss of a setting through a book."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


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
    assert found["source"] == "e-course pages 129786, 129968 (read in the source itself)"


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
