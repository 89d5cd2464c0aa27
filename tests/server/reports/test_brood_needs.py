"""Feed, water and room in the report of a brood, by the published rows of its age."""

import pytest

from tests.server.reports.test_brood import Nest


def test_feed_water_and_room_are_for_all_birds_and_ranges() -> None:
    found = Nest().report(28.5)
    feed, water = found["feed"], found["water"]
    assert feed["today_g"] == pytest.approx([0.9 * 12 * 260 / 7, 1.1 * 12 * 280 / 7]), "one source, a tenth"
    assert feed["four_weeks_kg"][0] < feed["four_weeks_kg"][1] < feed["meat"]["four_weeks_kg"][0]
    assert found["water_ml"] == water["range_ml"] == pytest.approx([12 * 500 / 7, 12 * 168])
    assert any("not yet checked" in source for source in feed["sources"])
    assert not set(feed["sources"]) & set(feed["meat"]["sources"]), "what meat birds eat was read elsewhere"
    assert ("All" in feed["memory"], feed["meat"]["memory"], "Part" in water["memory"]) == (True, None, True)
    assert [one["kind"] for one in feed["by_source"]] == ["white-egg layers", "brown-egg layers"]
    assert len(water["sources"]) >= 5, "every source that speaks of it"
    assert "One source" in feed["words"]
    assert water["words"] == "The sources differ."
    assert found["space"]["feeder_cm"] == pytest.approx([12 * 2.54] * 2)
    assert found["space"]["next_on"] == "2026-05-03", "at 42 days"


def test_grit_is_of_chickens_since_it_was_read_of_no_other() -> None:
    assert Nest().report(10.5)["feed"]["grit_mm"] == [1, 2]
    assert [Nest(species=other).report(10.5)["feed"]["grit_mm"] for other in ("duck", "coturnix")] == [None, None]


def test_turkeys_of_sixteen_weeks_eat_by_the_one_source_that_speaks_of_them() -> None:
    """Jensen 1977: large turkeys 22.2 lb from week 16 to 20; the small ones' column ends, at 15 weeks for four more."""
    found = Nest(species="turkey").report(112.5)["feed"]
    assert found["four_weeks_kg"] == pytest.approx([12 * 22.2 * 0.45359237 * wide for wide in (0.9, 1.1)])
    assert [one["kind"] for one in found["by_source"]] == ["large turkeys"]
    before = Nest(species="turkey").report(105.5)["feed"]
    assert [one["kind"] for one in before["by_source"]] == ["large turkeys", "small turkeys"]
    assert [one["kind"] for one in before["four_weeks"]["by_source"]] == ["large turkeys"]


def test_water_of_the_first_days_is_of_one_source_and_no_exact_number() -> None:
    water = Nest().report(3.5)["water"]
    assert water["range_ml"] == pytest.approx([12 * 200 / 7 * wide for wide in (0.9, 1.1)])
    assert "One source" in water["words"]
