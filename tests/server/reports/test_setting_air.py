"""The air of a setting: hours out of the band, worst reading, corrections, readings that no air gives."""

import json
from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from broodline.trade.units import to_celsius
from tests.book_writer import START, BookWriter


@pytest.fixture
def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    return writer


def begin(book: BookWriter, **more: Any) -> tuple[str, str, str]:
    lot, place = book.lot(), more.pop("place", None) or book.incubator()
    return book.set_eggs(place, [(lot, book.family("Rowan"), 12)], **more), lot, place


def read(book: BookWriter, place: str, hours: float, dry_f: float, **more: Any) -> str:
    body = {"place": place, "dry_c": to_celsius(dry_f), **more}
    return book.write("air", body, at=START + timedelta(hours=hours))


def report(book: BookWriter, setting: str) -> dict[str, Any]:
    return setting_report(fold(book.entries()), setting, START + timedelta(days=30))


def test_no_reading_is_null(book: BookWriter) -> None:
    setting, _, place = begin(book)
    read(book, book.incubator("Other"), 5, 99.5)
    read(book, place, -5, 99.5)
    assert report(book, setting)["air"] is None


def test_hours_out_by_straight_lines(book: BookWriter) -> None:
    """99.5, after 4 h 104.5, after 4 h 99.5 °F: over 102 °F for half of each."""
    setting, _, place = begin(book)
    for hours, dry_f in ((1, 99.5), (5, 104.5), (9, 99.5), (100, 99.5)):
        read(book, place, hours, dry_f)
    found = report(book, setting)["air"]
    assert found["hours_out"] == pytest.approx(4)
    assert found["readings"] == 4
    assert found["worst"]["tier"] == "red"
    assert found["worst"]["off_c"] == pytest.approx(5 / 1.8)
    assert found["worst"]["at"] == "2026-03-01T13:00:00.000Z"
    assert found["gauge_checked"] is False


def test_a_short_chill_is_amber_and_a_long_one_red(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for hours, dry_f in ((1, 99.5), (1.5, 95), (2, 99.5)):
        read(book, place, hours, dry_f)
    found = report(book, setting)["air"]
    assert (found["worst"]["tier"], found["hours_out"]) == ("amber", pytest.approx(2 / 4.5))
    for hours, dry_f in ((10, 95), (14, 95)):
        read(book, place, hours, dry_f)
    assert report(book, setting)["air"]["worst"]["tier"] == "red"
    assert report(book, setting)["air"]["hours_out"] > 4


def test_still_air_is_held_against_its_own_target(book: BookWriter) -> None:
    box = book.write("place", {"name": "Box", "role": "incubator", "air": "still"})
    setting, _, place = begin(book, place=box)
    read(book, place, 1, 102)
    read(book, place, 8, 103.5)
    found = report(book, setting)["air"]
    assert (found["hours_out"], found["worst"]["tier"]) == (0, None)


def test_hatcher_from_lockdown_on_and_nothing_after_the_last_egg(book: BookWriter) -> None:
    setting, lot, place = begin(book)
    hatcher = book.incubator("Hatcher")
    read(book, place, 100, 99.5)
    read(book, hatcher, 100, 80)
    book.write("locked", {"setting": setting, "place": hatcher}, at=START + timedelta(days=18))
    book.move(lot, "set", "locked", 12, at=START + timedelta(days=18))
    read(book, place, 450, 80)
    read(book, hatcher, 450, 98.5)
    book.move(lot, "locked", "hatched", 12, at=START + timedelta(days=21))
    read(book, hatcher, 520, 70)
    found = report(book, setting)["air"]
    assert found["readings"] == 2
    assert found["worst"]["off_c"] == pytest.approx(0, abs=1e-9)


def test_readings_are_put_right_by_the_last_gauge_check(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for hours, reads in ((2, 37.0), (4, 36.5)):
        check = {"place": place, "gauge": "dry", "reads": reads, "true_value": 37.5}
        book.write("gauge_checked", check, at=START + timedelta(hours=hours))
    book.write("gauge_checked", {"place": place, "gauge": "humidity", "reads": 50, "true_value": 56}, at=START)
    read(book, place, 1, 99.5, humidity_pct=50)
    read(book, place, 3, 99.5)
    read(book, place, 5, 99.5, humidity_pct=50)
    found = report(book, setting)["air"]
    assert found["gauge_checked"] is True
    assert found["worst"]["off_c"] == pytest.approx(1.0)
    assert found["last_humidity_pct"] == pytest.approx(56)


def test_humidity_from_both_bulbs(book: BookWriter) -> None:
    """Mississippi State Univ. P1150: dry 100 °F, wet 87.3 °F is 60 %."""
    setting, _, place = begin(book)
    read(book, place, 1, 100, wet_c=to_celsius(87.3))
    assert report(book, setting)["air"]["last_humidity_pct"] == pytest.approx(60, abs=1)


def test_readings_that_no_air_gives_are_told(book: BookWriter) -> None:
    setting, _, place = begin(book)
    read(book, place, 1, 99.5, wet_c=40)
    read(book, place, 2, 99.5, humidity_pct=140)
    found = report(book, setting)
    assert sorted(problem["code"] for problem in found["problems"]) == ["humidity", "wet_bulb"]
    assert (found["air"]["readings"], found["air"]["last_humidity_pct"]) == (2, None)


def test_unknown_species_and_place_have_no_target(book: BookWriter) -> None:
    setting, _, place = begin(book, species="phoenix", place="nowhere")
    read(book, place, 1, 99.5)
    found = report(book, setting)["air"]
    assert (found["hours_out"], found["worst"], found["readings"]) == (None, None, 1)


def test_phases_and_spells_with_value_and_duration(book: BookWriter) -> None:
    """Setter 99.5 °F, hatcher 98.5 °F; each against its own target (Texas A&M B-6092, read on a copy)."""
    setting, lot, place = begin(book)
    for hours, dry_f in ((1, 99.5), (5, 104.5), (9, 99.5)):
        read(book, place, hours, dry_f)
    hatcher = book.incubator("Hatcher")
    book.write("locked", {"setting": setting, "place": hatcher}, at=START + timedelta(hours=432))
    book.move(lot, "set", "locked", 12, at=START + timedelta(hours=432))
    for hours, dry_f in ((433, 98.5), (434, 93.5), (436, 93.5), (437, 98.5)):
        read(book, hatcher, hours, dry_f)
    found = report(book, setting)["air"]
    setter, later = found["phases"]
    assert (setter["phase"], setter["place"], setter["hours_in"], setter["hours_out"]) == (
        "setter", place, pytest.approx(4), pytest.approx(4)
    )  # fmt: skip
    assert setter["target_c"] == pytest.approx(to_celsius(99.5))
    assert setter["band_c"] == pytest.approx([to_celsius(97), to_celsius(102)])
    assert (later["phase"], later["place"], later["readings"]) == ("hatcher", hatcher, 4)
    hot, cold = found["excursions"]
    assert (hot["way"], hot["from"], hot["until"], hot["tier"], hot["still"]) == (
        "hot", "2026-03-01T11:00:00.000Z", "2026-03-01T15:00:00.000Z", "red", False
    )  # fmt: skip
    assert (hot["hours"], hot["dry_c"], hot["off_c"]) == pytest.approx((4, to_celsius(104.5), 5 / 1.8))
    assert (cold["phase"], cold["way"], cold["tier"]) == ("hatcher", "cold", "red")
    assert cold["hours"] == pytest.approx(3)
    assert found["hours_out"] == pytest.approx(7)
    assert "our judgement" in found["judgement"]
    assert found["published"][0]["words"] == "97 to 102 °F acceptable"


def test_what_to_do_about_heat_shows_both_sources_that_differ(book: BookWriter) -> None:
    """105 °F: 15 minutes (Virginia Tech) or 30 minutes (Mississippi State P1150)."""
    setting, _, place = begin(book)
    read(book, place, 1, 99.5)
    read(book, place, 2, 104.5)
    rows = report(book, setting)["air"]["guidance"]
    assert {row["about"] for row in rows} == {"hot"}
    told = " ".join(row["words"] for row in rows)
    assert "15 minutes" in told
    assert "30 minutes" in told
    assert all(row["source"] for row in rows)


@pytest.mark.parametrize(
    ("air", "said", "unsaid"), [("forced", "open at once", "leave it closed"), ("still", "leave it closed", "open at")]
)
def test_a_power_cut_that_was_entered_and_the_machine_it_hit(
    book: BookWriter, air: str, said: str, unsaid: str
) -> None:
    place = book.write("place", {"name": "Box", "role": "incubator", "air": air})
    setting, *_ = begin(book, place=place)
    body = {"places": [place], "from": "2026-03-05T14:00:00Z", "until": "2026-03-05T16:00:00Z"}
    book.write("outage", body)
    book.write("outage", {**body, "places": ["elsewhere"]})
    book.write("outage", {"from": "2026-02-05T14:00:00Z", "until": "2026-02-05T16:00:00Z"})
    found = report(book, setting)["air"]
    assert (found["readings"], found["hours_out"], found["worst"]) == (0, None, None)
    assert len(found["outages"]) == 1
    cut = found["outages"][0]
    assert (cut["told"], cut["hours"], cut["place"]) == (True, 2, place)
    assert cut["candle_again"] == ["2026-03-09", "2026-03-11"]
    told = " ".join(row["words"] for row in found["guidance"])
    assert said in told
    assert unsaid not in told
    assert told.count("room at 75 °F") == 1, "P1150 asks it of both machines"


def test_a_power_cut_that_lasts_everywhere(book: BookWriter) -> None:
    setting, *_ = begin(book)
    book.write("outage", {"from": "2026-03-05T14:00:00Z"})
    found = report(book, setting)["air"]
    assert (found["outages"][0]["until"], found["outages"][0]["hours"]) == (None, None)
    told = " ".join(row["words"] for row in found["guidance"])
    assert "open at once" in told
    assert "leave it closed" in told, "nobody said which machine it is"


def test_a_fall_after_a_silence_is_taken_for_a_power_cut_unless_one_was_entered(book: BookWriter) -> None:
    setting, _, place = begin(book)
    for hours, dry_f in ((1, 99.5), (2, 99.5), (3, 99.5), (4, 99.5), (8, 88.0), (9, 99.0)):
        read(book, place, hours, dry_f)
    cut = report(book, setting)["air"]["outages"]
    assert [(one["told"], one["from"], one["hours"]) for one in cut] == [(False, "2026-03-01T12:00:00.000Z", 4)]
    assert cut[0]["fell_c"] == pytest.approx(11.5 / 1.8)
    book.write("outage", {"from": "2026-03-01T13:00:00Z", "until": "2026-03-01T15:30:00Z"})
    assert [one["told"] for one in report(book, setting)["air"]["outages"]] == [True]


def test_gauges_checked_this_season_and_not(book: BookWriter) -> None:
    setting, _, place = begin(book)
    read(book, place, 1, 99.5, humidity_pct=50)
    book.write(
        "gauge_checked",
        {"place": place, "gauge": "dry", "reads": 37.7, "true_value": 37.5},
        at=START - timedelta(days=90),
    )
    found = report(book, setting)["air"]
    assert [gauge["words"] for gauge in found["gauges"]] == [
        "The thermometer of Loft box was not checked this season.",
        "The hygrometer of Loft box was not checked this season.",
    ]
    assert found["gauge_checked"] is False, "last season's check still corrects, but it is old"
    assert found["worst"]["dry_c"] == pytest.approx(to_celsius(99.5) - 0.2)
    book.write("gauge_checked", {"place": place, "gauge": "humidity", "reads": 55, "true_value": 52}, at=START)
    gauges = report(book, setting)["air"]["gauges"]
    assert gauges[1]["checked_on"] == "2026-03-01"
    assert gauges[1]["words"].endswith("put right by -3.0 %.")


def test_a_keeper_of_fahrenheit_reads_no_celsius(book: BookWriter) -> None:
    """A check that moves the gauge by -0.5 °C moves it by -0.9 °F; 99.5 written as °C is 211.1 °F."""
    book.documents[0]["body"]["temperature"] = "F"
    setting, _, place = begin(book)
    book.write("gauge_checked", {"place": place, "gauge": "dry", "reads": 38, "true_value": 37.5}, at=START)
    read(book, place, 1, 99.5)
    read(book, place, 2, 211.1)
    found = report(book, setting)
    assert found["air"]["gauges"][0]["words"].endswith("readings after that are put right by -0.9 °F.")
    [problem] = found["problems"]
    assert problem["message"].startswith("No machine with eggs in it is at 211.1 °F,")
    assert "°C" not in json.dumps([found["air"]["gauges"], found["problems"]], ensure_ascii=False)


def test_a_height_that_cannot_be_is_the_holdings_fault_and_told_once(book: BookWriter) -> None:
    """37.778 over 30.722 °C is 60.6 % at the sea (ASHRAE 2017, chapter 1, worked in tests/vectors/climate.json)."""
    book.documents[0]["body"]["altitude_m"] = 90_000
    setting, _, place = begin(book)
    for hours in (1, 2):
        read(book, place, hours, 100.0, wet_c=30.722)
    found = report(book, setting)
    assert [(one["code"], one["entry"]) for one in found["problems"]] == [("height", None)]
    assert "90,000 m" in found["problems"][0]["message"]
    assert found["air"]["last_humidity_pct"] == pytest.approx(60.6, abs=0.2)


def test_until_an_entered_power_cut_the_air_was_as_it_was_read_last(book: BookWriter) -> None:
    """In order at 1 h, cold at 9 h; the power went at 8 h: not eight hours of falling, but one."""
    setting, _, place = begin(book)
    for hours, dry_f in ((1, 99.5), (9, 94.5), (10, 99.5)):
        read(book, place, hours, dry_f)
    assert report(book, setting)["air"]["hours_out"] == pytest.approx(4.5)
    book.write("outage", {"from": "2026-03-01T16:00:00Z", "until": "2026-03-01T17:00:00Z"})
    book.write("outage", {"from": "2026-03-01T08:10:00Z", "until": "2026-03-01T08:20:00Z"})
    found = report(book, setting)["air"]
    assert found["hours_out"] == pytest.approx(1)
    assert found["excursions"][0]["from"] == "2026-03-01T16:30:00.000Z"
    assert found["phases"][0]["readings_out"] == 1
