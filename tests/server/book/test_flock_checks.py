"""What cannot be about birds is kept, and told with what to do."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.flock_checks import check_flock, is_sensible
from broodline.book.fold import fold
from tests.server.reports.test_brood import OUT, Nest


def codes(nest: Nest) -> list[tuple[str, str | None]]:
    return [(one.code, one.entry) for one in check_flock(fold(nest.book.entries()))]


def weigh(nest: Nest, on: str, *masses: float) -> str:
    birds = [{"mass_g": mass} for mass in masses]
    return nest.book.write("weighed", {"lot": nest.lot, "birds": birds, "on": on})


def bird(nest: Nest, text: str | None, **more: Any) -> str:
    tag = {"kind": "ring", "colour": "blue"} | ({"text": text} if text else {})
    return nest.book.write("bird", {"sex": "unknown", "tags": [tag], **more})


def test_a_day_old_of_four_kilograms() -> None:
    nest = Nest()
    weigh(nest, "2026-03-22", 41.0, 38.5)
    assert codes(nest) == []
    odd = weigh(nest, "2026-03-22", 40.0, 4000.0, 1e14)
    assert codes(nest) == [("weight_odd", odd)]
    (told,) = check_flock(fold(nest.book.entries()))
    assert "0 days" in told.message
    assert told.remedy
    assert weigh(nest, "2026-09-22", 4000.0) not in {entry for _, entry in codes(nest)}


@pytest.mark.parametrize(
    ("mass_g", "age_days", "sensible"),
    [(35, 0, True), (2, 0, False), (4000, 0, False), (4000, None, True), (3500, 42, True), (30_000, 900, False)],
)
def test_weights_by_age(mass_g: float, age_days: int | None, sensible: bool) -> None:
    """Embden goslings reach 3.5 kg at 6 weeks (Mercia); no day-old weighs more than a gosling."""
    assert is_sensible(mass_g, age_days) is sensible


def test_days_before_the_hatch() -> None:
    nest = Nest()
    early = weigh(nest, "2026-03-19", 40.0)
    marked = nest.book.write("marked", {"lot": nest.lot, "webs": ["LO"], "on": "2026-03-01"})
    nest.book.write("marked", {"lot": nest.lot, "webs": ["LO"], "on": "2026-03-22"})
    died = nest.book.move(nest.lot, "brooding", "died", 1, at=OUT - timedelta(days=3))
    assert codes(nest) == [("before_hatch", early), ("before_hatch", marked), ("before_hatch", died)]


def test_one_band_on_two_living_birds() -> None:
    nest = Nest()
    first = bird(nest, "7")
    assert codes(nest) == []
    second = bird(nest, "7")
    assert codes(nest) == [("band_twice", second)]
    left = nest.book.write("left", {"bird": first, "on": "2026-05-01", "how": "sold"})
    assert codes(nest) == []
    nest.book.take_back(left)
    assert codes(nest) == [("band_twice", second)]
    nest.book.write("same", {"bird": first, "as": second})
    assert codes(nest) == [], "one bird by two names"


def test_colours_alone_and_replaced_bands_are_no_fault() -> None:
    nest = Nest()
    bird(nest, None)
    bird(nest, None)
    one, other = (nest.book.write("bird", {"sex": "unknown"}) for _ in range(2))
    tag = {"kind": "wing", "text": "A1"}
    old = nest.book.write("marked", {"bird": one, "tag": tag})
    again = nest.book.write("marked", {"bird": other, "tag": tag})
    assert codes(nest) == [("band_twice", again)]
    nest.book.write("marked", {"bird": one, "tag": {"kind": "wing", "text": "B2"}, "replaces": old})
    assert codes(nest) == []


def test_more_chicks_moved_than_there_are_is_told_with_the_brood() -> None:
    nest = Nest(chicks=3)
    nest.move("brooding", "growing", 5, days=20)
    assert "below_zero" in [one["code"] for one in nest.report(21)["problems"]]
    weigh(nest, "2026-03-22", 4000.0)
    assert "weight_odd" in [one["code"] for one in nest.report(21)["problems"]]
