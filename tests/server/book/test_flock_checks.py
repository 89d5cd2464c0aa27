"""What cannot be about birds is kept, and told with what to do."""

import json
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from broodline.book.birds import birds_of
from broodline.book.flock_checks import all_problems, check_flock, is_sensible
from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.book.wire import canonical_bytes, read_entry
from tests.server.book.brooded_books import brooded_book
from tests.server.book.odd_books import odd_book
from tests.server.book.phone import phone_book
from tests.server.reports.test_brood import OUT, Nest

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "flock_checks.json").read_text(encoding="utf-8"))["cases"]


def flock_json(standing: Standing) -> dict[str, Any]:
    return {
        "problems": [one.as_json() for one in all_problems(standing)],
        "birds": [[one.id, one.label, one.where] for one in birds_of(standing, None).values()],
    }


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
    odd = weigh(nest, "2026-03-22", 40.0, 4000.0)
    assert codes(nest) == [("weight_odd", odd)]
    (told,) = check_flock(fold(nest.book.entries()))
    assert "4000 g at 0 days" in told.message
    assert told.remedy
    assert weigh(nest, "2026-09-22", 4000.0) not in {entry for _, entry in codes(nest)}


@pytest.mark.parametrize(
    ("mass_g", "age_days", "sensible"),
    [(35, 0, True), (2, 0, False), (4000, 0, False), (4000, None, True), (3500, 42, True), (30_000, 900, False)],
)
def test_weights_by_age(mass_g: float, age_days: int | None, sensible: bool) -> None:
    """Embden goslings reach 3.5 kg at 6 weeks (Mercia); no day-old weighs more than a gosling."""
    assert is_sensible(mass_g, age_days) is sensible


def test_one_slip_of_many_is_one_problem() -> None:
    nest = Nest()
    odd = weigh(nest, "2026-03-22", 40.0, 4000.0, 1e14)
    assert codes(nest) == [("weight_odd", odd)]


def test_days_before_the_hatch() -> None:
    nest = Nest()
    early = weigh(nest, "2026-03-19", 40.0)
    marked = nest.book.write("marked", {"lot": nest.lot, "webs": ["LO"], "on": "2026-03-01"})
    nest.book.write("marked", {"lot": nest.lot, "webs": ["LO"], "on": "2026-03-22"})
    died = nest.book.move(nest.lot, "brooding", "died", 1, at=OUT - timedelta(days=3))
    assert codes(nest) == [("before_hatch", early), ("before_hatch", marked), ("before_hatch", died)]


def test_chicks_nobody_wrote_the_hatch_of_are_not_held_to_it() -> None:
    nest = Nest()
    bought = nest.book.lot()
    came = {"lot": bought, "n": 6, "family": nest.family, "on": "2026-03-25", "how": "bought", "stage": "brooding"}
    nest.book.write("came", came)
    nest.book.move(bought, "brooding", "died", 1, at=OUT - timedelta(days=9))
    assert codes(nest) == []


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


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_by_hand(case: dict[str, Any]) -> None:
    assert flock_json(fold(map(read_entry, case["in"]["entries"]))) == case["out"]


def test_any_book_has_the_same_birds_and_problems_on_the_phone(tmp_path: Path) -> None:
    seen: set[str] = set()
    with phone_book(tmp_path) as phone:
        for seed in range(200):
            book = odd_book(seed) if seed % 2 else brooded_book(seed)
            expected = flock_json(fold(map(read_entry, book)))
            seen |= {one["code"] for one in expected["problems"]} | {where for _, _, where in expected["birds"]}
            answer = phone.answer("flock", entries=book)
            assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert {"weight_odd", "before_hatch", "here", "gone", "lent"} <= seen
