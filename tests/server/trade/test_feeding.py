"""Feed, protein and water by the published rows; where sources differ the range holds them all."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.trade.feeding import (
    eaten_by,
    feed_cells,
    feed_change,
    feed_g_a_day,
    feed_g_between,
    grit_mm,
    hot_weather,
    memory_words,
    note_for,
    protein_at,
    source_words,
    totals,
    turkey_protein_pct,
    water_cells,
    water_ml_a_day,
    with_spread,
)
from broodline.trade.sources import cell, read_table

TABLE = read_table("feeding")
VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "feeding.json").read_text(encoding="utf-8"))
CASES = VECTORS["cases"]


def close(ends: tuple[float, float] | None) -> Any:
    return None if ends is None else pytest.approx(ends)


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    species, day, out = case["in"]["species"], case["in"]["age_days"], case["out"]
    protein, change, note = protein_at(species, day), feed_change(species), note_for(species)
    assert (None if protein is None else [protein.stage, *protein.percent]) == out["protein"]
    assert (None if change is None else list(change[0])) == out["change"]
    for growth in ("slow", "fast"):
        assert close(feed_g_a_day(species, day, growth)) == out["feed_g_a_day"][growth]
        assert close(feed_g_between(species, day, day + 28, growth)) == out["four_weeks_g"][growth]
    assert close(water_ml_a_day(species, day)) == out["water_ml_a_day"]
    assert len(water_cells(species, day)) == out["water_figures"]
    four, water = feed_cells(species, day, day + 28), water_cells(species, day)
    assert [kind for kind, _ in four] == out["four_weeks_kinds"]
    reckoned = with_spread(feed_g_between(species, day, day + 28), [figure for _, figure in four])
    assert close(reckoned) == out["four_weeks_reckoned_g"]
    assert close(with_spread(water_ml_a_day(species, day), [one for _, one in water])) == out["water_reckoned_ml"]
    grit = None if day < 0 else grit_mm(species, day)
    assert (None if grit is None else list(grit[0])) == out["grit_mm"]
    assert (None if note is None else note.value) == out["note"]


def weekly(kind: str) -> list[float]:
    return list(
        next(
            figures.value
            for growth in ("slow", "fast")
            for name, figures in feed_cells("chicken", 28, 29, growth)
            if name == kind
        )
    )


def test_broilers_of_1984_close() -> None:
    """NRC 1984, its own running totals: F 110 350 705 1205 1850 2650 3560 4530 5540, M 6650 at week 9."""
    assert totals(weekly("meat pullets")) == [110, 350, 705, 1205, 1850, 2650, 3560, 4530, 5540]
    assert totals(weekly("meat cockerels"))[-1] == 6650
    per_day = [day for day in range(63) for row in TABLE["feed"]["chicken"] if row["kind"] == "meat pullets"]
    row = next(row for row in TABLE["feed"]["chicken"] if row["kind"] == "meat pullets")
    assert sum(eaten_by(row, day) or 0 for day in per_day) == pytest.approx(5540)
    assert eaten_by(row, 63) is None


def test_turkeys_of_1977() -> None:
    """Jensen in UMaine 2187: at 16 weeks 41.4 lb of feed to 16.50 lb is 2.509, 31.2 to 12.10 is 2.579."""
    rows = {row["kind"]: row for row in TABLE["feed"]["turkey"]}
    for kind, ratio in (("large turkeys", 2.509), ("small turkeys", 2.579)):
        eaten = sum(eaten_by(rows[kind], day) or 0 for day in range(16 * 7)) / 453.59237
        weight = cell(TABLE["turkey_weight"][kind]).value[rows[kind]["weeks"].index(16)]
        assert eaten / weight == pytest.approx(ratio, abs=5e-4)
        assert eaten_by(rows[kind], rows[kind]["weeks"][-1] * 7) is None  # the source goes no further


def test_broilers_drink_by_their_age() -> None:
    """Pesti 1985: 5.28 mL a day of age: 110.9 at 21 days, 221.8 at 42; at 1.77 to 1 that is 62.6 g of feed."""
    per_day = next(row for row in TABLE["water"]["chicken"] if row["kind"] == "meat chicks")
    rate = cell(per_day["per_day_of_age"]).value
    assert [round(rate * day, 1) for day in (21, 42)] == [110.9, 221.8]
    assert rate * 21 / cell(TABLE["water_to_feed"]).value == pytest.approx(62.6, abs=0.05)


def test_pullets_in_hot_weather() -> None:
    """Poultry Hub: 160 mL at 12 weeks and 21 °C; 1.3 to 1.5 times as much above 32 °C, 208 to 240."""
    row = next(row for row in TABLE["water"]["chicken"] if row["kind"] == "pullets at 21 °C")
    at_12_weeks = cell(row["daily"]).value[row["days"].index(84)]
    assert at_12_weeks == 160
    assert hot_weather(at_12_weeks) == pytest.approx((208, 240))


def test_a_bird_of_four_weeks_by_five_sources() -> None:
    """Poultry Hub 100, Damerow 75.7 (2 gal for 100), Pesti 147.8, six a day 168, NRC Leghorn 71: 71 to 168 mL."""
    found = water_ml_a_day("chicken", 28)
    assert found
    assert found == pytest.approx((500 / 7, 168))
    assert len(water_cells("chicken", 28)) == 6
    gallons = next(row for row in TABLE["water"]["chicken"] if "per_week_of_age" in row)
    assert cell(gallons["per_week_of_age"]).value * 4 == 2
    assert pytest.approx(75.7, abs=0.05) == 2 * 3785.411784 / 100


@pytest.mark.parametrize(
    ("weeks", "sex", "percent"), [(one["weeks"], one["sex"], one["pct"]) for one in VECTORS["turkey_protein"]]
)
def test_potters_line(weeks: float, sex: str, percent: float) -> None:
    """Potter and Shelton 1980: 30.3 on day 1, 0.61 (males) or 0.78 (females) less each week: 25.42 and 20.94 %."""
    assert turkey_protein_pct(weeks, sex) == (None if percent is None else pytest.approx(percent, abs=5e-3))


def test_potters_line_speaks_of_no_grown_turkey() -> None:
    """Without an end it would fall below nothing at 39 weeks for hens and 50 for toms."""
    assert [turkey_protein_pct(week, "female") is None for week in (-1, 0, 24, 24.5, 40)] == [
        True, False, False, True, True,
    ]  # fmt: skip


def test_water_of_the_first_days_and_of_unread_species() -> None:
    first = water_ml_a_day("chicken", 0)
    assert first
    assert first == pytest.approx((200 / 7, 200 / 7))
    assert water_ml_a_day("chicken", 400) is None
    assert water_ml_a_day("goose", 10) is None
    turkey = water_ml_a_day("turkey", 10)
    assert turkey == pytest.approx((8 * 37.85411784 / 7, 18 * 37.85411784 / 7))
    assert water_ml_a_day("turkey", 52) is None


def test_feed_is_the_range_of_layers_or_of_meat_birds() -> None:
    """NRC 1994 (from memory): week 4 260 and 280 g; NRC 1984 meat pullets 500, cockerels 535."""
    slow, fast = feed_g_a_day("chicken", 28), feed_g_a_day("chicken", 27, "fast")
    assert slow == pytest.approx((260 / 7, 280 / 7))
    assert fast == pytest.approx((500 / 7, 535 / 7))
    assert feed_g_a_day("chicken", 141) is None
    assert feed_g_a_day("coturnix", 7) is None


def test_feed_for_four_weeks_is_each_source_added_up_day_by_day() -> None:
    days = [feed_g_a_day("chicken", day) for day in range(28, 56)]
    total = feed_g_between("chicken", 28, 56)
    assert total
    assert total == pytest.approx([sum(day[end] for day in days if day) for end in (0, 1)])
    assert feed_g_between("chicken", 130, 158) is None, "the rows end at 140 days"
    assert feed_g_between("duck", 0, 28) is None


@pytest.mark.parametrize(
    ("species", "day", "stage", "percent"),
    [
        ("chicken", 10, "starter", (18, 22)),
        ("chicken", 50, "grower", (15, 18)),
        ("turkey", 3, "starter", (28, 28)),
        ("duck", 25, "grower", (15, 16)),
        ("guinea", 3, "starter", (24, 26)),
    ],
)
def test_protein(species: str, day: int, stage: str, percent: tuple[float, float]) -> None:
    found = protein_at(species, day)
    assert found
    assert (found.stage, found.percent) == (stage, percent)


def test_only_sources_that_speak_of_those_days_are_named() -> None:
    """Jensen's small turkeys end at 16 weeks, the large at 24: four weeks from day 84 are of both, later ones not."""
    both = ["large turkeys", "small turkeys"]
    assert [kind for kind, _ in feed_cells("turkey", 84, 112)] == both
    assert [kind for kind, _ in feed_cells("turkey", 111, 112)] == both
    assert [kind for kind, _ in feed_cells("turkey", 100, 128)] == ["large turkeys"]
    assert [kind for kind, _ in feed_cells("turkey", 112, 113)] == ["large turkeys"]
    assert feed_cells("turkey", 168, 169) == []


def test_one_source_is_never_an_exact_number() -> None:
    """Chicks of the first week: 200 mL a week in both columns of one table; a tenth either way. Turkeys of 16 weeks:
    22.2 lb in four weeks by one column. From a week on several sources stand and nothing is added."""
    days = read_table("feeding")["spread"]["value"] / 100
    chicks = [figure for _, figure in water_cells("chicken", 3)]
    assert with_spread(water_ml_a_day("chicken", 3), chicks) == pytest.approx(
        (200 / 7 * (1 - days), 200 / 7 * (1 + days))
    )
    assert "One source" in source_words(chicks)
    assert "10 %" in source_words(chicks)
    turkeys = with_spread(feed_g_between("turkey", 112, 140), [one for _, one in feed_cells("turkey", 112, 140)])
    assert turkeys == pytest.approx((0.9 * 22.2 * 453.59237, 1.1 * 22.2 * 453.59237))
    several = [figure for _, figure in water_cells("chicken", 28)]
    assert with_spread((1, 2), several) == (1, 2)
    assert source_words(several) == "The sources differ."
    assert with_spread(None, []) is None


@pytest.mark.parametrize("species", ["chicken", "turkey"])
def test_no_range_of_feed_or_water_is_one_number(species: str) -> None:
    for day in range(200):
        ranges = [with_spread(water_ml_a_day(species, day), [one for _, one in water_cells(species, day)])]
        for growth in ("slow", "fast"):
            for last in (day + 1, day + 28):
                cells = [one for _, one in feed_cells(species, day, last, growth)]
                ranges.append(with_spread(feed_g_between(species, day, last, growth), cells))
                assert (ranges[-1] is None) == (cells == [])
        assert all(ends is None or ends[0] < ends[1] for ends in ranges), day


def test_what_was_not_read_is_not_said() -> None:
    assert protein_at("peafowl", 3) is None
    assert protein_at("chicken", 400) is None
    assert feed_change("goose") is None
    assert note_for("chicken") is None


def test_changes_grit_and_notes() -> None:
    change = feed_change("chicken")
    assert change
    assert (change[0], change[1].status) == ((42, 56), "practice")
    sizes = [grit_mm("chicken", day) for day in (0, 28, 400)]
    assert [None if size is None else size[0] for size in sizes] == [(1, 2), (2, 4), (4, 6)]
    niacin = note_for("duck")
    assert niacin
    assert "niacin" in niacin.value


def test_sources_of_slow_and_fast_growers_are_kept_apart_and_memory_is_said() -> None:
    """Feed of layers was written from memory of NRC 1994, that of meat birds read on a copy of NRC 1984."""
    slow, fast = (feed_cells("chicken", 28, 29, growth) for growth in ("slow", "fast"))
    assert {figure.source for _, figure in slow} == {"NRC94"}
    assert {figure.source for _, figure in fast} == {"NRC84"}
    assert not {kind for kind, _ in slow} & {kind for kind, _ in fast}
    assert "All of this rests on figures from memory" in (memory_words(figure for _, figure in slow) or "")
    assert memory_words(figure for _, figure in fast) is None
    assert "Part of this" in (memory_words(figure for _, figure in water_cells("chicken", 28)) or "")
    assert memory_words([]) is None
