"""Heat, room and lamps by the published schedules; what was not read is not said."""

import json
from itertools import islice
from pathlib import Path
from typing import Any

import pytest

from broodline.trade import brooding
from broodline.trade.brooding import chicks_under_lamp, heat_at, heat_steps, looks_like, space_at
from broodline.trade.sources import read_table
from broodline.trade.species import SPECIES
from broodline.trade.units import to_celsius, to_fahrenheit

SQUARE_FOOT = 0.09290304
VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "brooding.json").read_text(encoding="utf-8"))
CASES, ROOMS = VECTORS["cases"], VECTORS["space"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    heat = heat_at(**case["in"])
    told = heat and {
        "low_f": heat.published_f and heat.published_f[0],
        "high_f": heat.published_f and heat.published_f[1],
        "next_day": heat.next_day,
        "off_days": heat.off_days and list(heat.off_days),
    }
    assert told == case["out"]


@pytest.mark.parametrize("case", ROOMS, ids=[case["name"] for case in ROOMS])
def test_vectors_of_room(case: dict[str, Any]) -> None:
    room = space_at(**case["in"])
    if room is None:
        assert case["out"] is None
        return
    for part in ("floor_m2", "feeder_cm", "drinker_cm"):
        ends = getattr(room, part)
        assert (None if ends is None else pytest.approx(ends)) == case["out"][part]
    assert room.next_day == case["out"]["next_day"]


def test_the_five_sources_that_agree_week_by_week() -> None:
    """95, 90, 85, 80, 75, 70 °F in weeks 1 to 6 (Penn State, Minnesota, Maryland, Florida, extension sheet); week 3
    is 29.4 °C. Maryland begins with 90 to 95: the band is that wide until both ends reach 70."""
    weeks = [heat_at("chicken", day) for day in range(3, 42, 7)]
    bands = list(zip(range(90, 65, -5), range(95, 70, -5), strict=True))
    assert [week and week.published_f for week in weeks] == [*bands, (70, 70)]
    assert weeks[2]
    assert weeks[2].high_c
    assert weeks[2].high_c == pytest.approx(29.4, abs=0.05)
    assert heat_at("chicken", 42) is None
    assert heat_at("chicken", -1) is None


def test_degrees_of_a_textbook() -> None:
    """30 to 32 °C is 86 to 89.6 °F."""
    assert [to_fahrenheit(celsius) for celsius in (30, 32)] == pytest.approx([86, 89.6])


@pytest.mark.parametrize(
    ("day", "band"), [(1, (90, 95)), (7, (90, 95)), (10, (85, 90)), (30, (70, 75)), (36, (70, 70))]
)
def test_bobwhite_by_mississippi_state(day: int, band: tuple[float, float]) -> None:
    heat = heat_at("bobwhite", day)
    assert heat
    assert heat.published_f == band
    assert heat.low_c
    assert heat.high_c
    assert (heat.low_c, heat.high_c) == pytest.approx(tuple(map(to_celsius, band)))


def test_bobwhites_go_by_the_chicks_after_the_last_band_and_heat_ends() -> None:
    """70 °F from day 36 is the last that Mississippi State prints; feathered, off heat, by 6 to 8 weeks (memory)."""
    assert list(dict(heat_steps("bobwhite")))[-4:] == [36, 42, 49, 56]
    for day in range(42, 56):
        heat = heat_at("bobwhite", day)
        assert heat
        assert (heat.published_f, heat.low_c, heat.off_days, heat.cell.status) == (None, None, (42, 56), "memory")
    assert heat_at("bobwhite", 56) is None


def test_steps_follow_each_other_to_the_end() -> None:
    """Each step is the heat of its day, and the day before has the one before."""
    for species in read_table("brooding")["heat"]:
        days, heat = [0], heat_at(species, 0)
        for day, heat in heat_steps(species):
            assert day > days[-1], species
            assert heat == heat_at(species, day)
            assert heat_at(species, day - 1) == heat_at(species, days[-1])
            days.append(day)
        assert heat is None, f"{species}: heat without an end"
        assert all(heat_at(species, day) is None for day in (days[-1], 100, 400)), species
    assert [day for day, _ in heat_steps("chicken")] == [7, 14, 21, 28, 35, 42]
    assert next(iter(heat_steps("guinea")))[0] == 14
    assert list(heat_steps("emu")) == []


def test_a_row_that_says_neither_how_low_nor_how_long_ends_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    row = {name: written for name, written in read_table("brooding")["heat"]["chicken"].items() if name != "floor"}
    assert "weeks" not in row
    monkeypatch.setitem(brooding._TABLE["heat"], "made up", row)
    assert list(islice(heat_steps("made up"), 500)) == [], "no step to come is known"
    assert heat_at("made up", 0) is not None


def test_quail_go_by_the_chicks_from_day_7_until_heat_ends() -> None:
    """95 to 100 °F at first, off heat by about 3 to 4 weeks (memory); nothing was read between: heat goes on."""
    steps = dict(heat_steps("coturnix"))
    assert list(steps) == [7, 14, 21, 28]
    for day in range(7, 28):
        heat = heat_at("coturnix", day)
        assert heat, "a quail chick of that age without heat dies"
        assert (heat.published_f, heat.low_c, heat.high_c, heat.off_days) == (None, None, None, (21, 28))
        assert (heat.cell.value, heat.cell.status) == ([21, 28], "memory")
    assert steps[28] is None


def test_no_species_is_told_to_need_no_more_heat_before_its_published_end() -> None:
    """By the table's own words: the last week or day that was read; without one, until the band has come down to 70 °F
    and stayed there a week. Where nothing tells between the last figure and the end, heat goes on."""
    heats = read_table("brooding")["heat"]
    assert {species for species, row in heats.items() if "weeks" in row or "off" in row} == {
        "bobwhite", "coturnix", "turkey", "duck", "goose",
    }  # fmt: skip
    for species, row in heats.items():
        if "weeks" in row or "off" in row:
            last = row["off"]["value"][-1] if "off" in row else row["weeks"]["value"] * 7
        else:
            start, held = row["start"]["value"], row.get("hold_weeks", {"value": 1})["value"]
            warmest = start[-1] if isinstance(start, list) else start
            last = 7 * (held + (warmest - row["floor"]["value"]) / row["step"]["value"])
        assert all(heat_at(species, day) for day in range(int(last))), species
        assert not any(heat is None and day < last for day, heat in heat_steps(species)), species
        assert "bands_until" not in row or "off" in row, f"{species}: what is said between the start and no end?"


def test_ducklings_are_brooded_cooler_and_the_band_is_wide() -> None:
    """85 to 90 or 90 to 92 °F, 5 to 10 °F less a week, about 70 in the end, none after week 6."""
    assert [heat.published_f for day in (0, 7, 21) if (heat := heat_at("duck", day))] == [(85, 92), (75, 87), (70, 77)]
    last = heat_at("duck", 35)
    assert last
    assert (last.published_f, last.off_days) == ((70, 70), (42, 42))
    assert heat_at("duck", 42) is None
    assert [heat.published_f for day in (35, 41) if (heat := heat_at("turkey", day))] == [(65, 70)] * 2
    assert heat_at("turkey", 42) is None


def test_every_species_has_rows_of_its_own_or_none() -> None:
    for part in ("heat", "space"):
        assert read_table("brooding")[part].keys() <= SPECIES.keys()
    assert heat_at("muscovy", 3) is None
    assert space_at("muscovy", 3) is None
    quail = heat_at("coturnix", 3)
    assert quail
    assert (quail.off_days, quail.cell.status) == ((21, 28), "memory")


@pytest.mark.parametrize(
    ("room_f", "lamps", "chicks"), [(one["room_f"], one["lamps"], one["chicks"]) for one in VECTORS["lamp"]]
)
def test_plamondons_lamp(room_f: float, lamps: int, chicks: int) -> None:
    """75 chicks at 50 °F, one fewer for each degree below; -20 °F leaves 5, four lamps 20."""
    assert chicks_under_lamp(room_f, lamps) == chicks


@pytest.mark.parametrize(("day", "square_feet"), [(0, 6), (7, 12), (14, 18)])
def test_room_for_24_chicks_in_their_first_weeks(day: int, square_feet: float) -> None:
    """FACT: 0.25, 0.5, 0.75 ft² in weeks 1 to 3."""
    (own,) = [
        row["floor"]["value"]
        for row in read_table("brooding")["space"]["chicken"]
        if row["floor"]["source"] == "FACT" and row["from_day"] <= day < row["to_day"]
    ]
    room = space_at("chicken", day)
    assert 24 * own == square_feet
    assert room
    assert room.floor_m2
    assert room.floor_m2[0] <= own * SQUARE_FOOT <= room.floor_m2[1]


def test_room_for_24_chicks_to_six_weeks_by_the_student_text() -> None:
    """0.5 ft², 1 inch of feeder, half an inch of drinker each: 12 ft², 24 in, 12 in."""
    room = space_at("chicken", 30)
    assert room
    assert room.floor_m2
    assert room.floor_m2 == pytest.approx((0.5 * SQUARE_FOOT, 0.5 * SQUARE_FOOT))
    assert [24 * end[0] / 2.54 for end in (room.feeder_cm, room.drinker_cm) if end] == pytest.approx([24, 12])
    assert 24 * room.floor_m2[0] / SQUARE_FOOT == pytest.approx(12)
    assert room.next_day == 42


def test_sources_that_differ_make_a_range_with_all_of_them() -> None:
    """In the first week 180 cm² (NSW) to half a square foot; grown, nothing more changes."""
    room = space_at("chicken", 2)
    assert room
    assert room.floor_m2 == pytest.approx((0.018, 0.5 * SQUARE_FOOT))
    assert {figure.source for figure in room.cells} == {"CALC-AG", "FACT", "NSW"}
    assert room.next_day == 14, "from day 7 FACT asks for what the student text asks for already"
    grown = space_at("chicken", 500)
    assert grown
    assert (grown.next_day, grown.cells[0].source) == (None, "PEO")
    assert space_at("duck", 400) is None


def test_what_the_chicks_look_like_says_something() -> None:
    for look, word in (("spread", "warm"), ("huddled", "cold"), ("away", "too warm"), ("one_side", "draught")):
        said = looks_like(look)
        assert said
        assert word in said.value
    assert looks_like("asleep") is None
