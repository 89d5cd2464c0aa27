"""A thermometer's alarm: when it is told, when not, what it says, and how a keeper silences it.

Bands are those of trade/tables/alarms.json: amber beyond 2.5 °F (1.39 °C), red above from 3.5 °F (1.94 °C) at once, red
below it after an hour; chickens in forced air at 99.5 °F (37.5 °C). Amber is told after two hours (reminders.json).
"""

from datetime import datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.reports.air_alarm import air_alarms, band_of
from broodline.reports.notice import notices
from broodline.reports.wishes import Wishes
from tests.book_writer import BookWriter
from tests.server.reports.test_notice import LONG_AGO, SET_AT, at

NIGHT = at(3, 15, 2)
AIR = Wishes(what=frozenset({"air"}))


def book(temperature: str = "C") -> tuple[BookWriter, str]:
    writer = BookWriter()
    writer.keeper(temperature=temperature) if temperature == "C" else writer.write(
        "keeper", {"holding": "Gorse Bank", "zone": "Europe/Dublin", "temperature": temperature, "mass": "oz"}
    )
    place = writer.write("place", {"name": "Loft box", "role": "incubator", "air": "forced"})
    writer.set_eggs(place, [(writer.lot(), writer.family("Rowan"), 12)], set_at=SET_AT)
    return writer, place


def say(writer: BookWriter, place: str, readings: list[tuple[int, float]], by: str = "sensor") -> None:
    """readings: (minutes after two at night, degrees Celsius)."""
    for minute, dry_c in readings:
        writer.write(
            "air", {"place": place, "dry_c": dry_c, "by": by}, at=NIGHT + timedelta(minutes=minute), device="sensor:a"
        )


def told(writer: BookWriter, now: datetime, wishes: Wishes = AIR) -> list[tuple[str, bool]]:
    return [(one.body, one.urgent) for one in notices(fold(writer.entries()), now, wishes, LONG_AGO, set())]


def tier_at(writer: BookWriter, minute: int) -> str | None:
    found = list(air_alarms(fold(writer.entries()), NIGHT + timedelta(minutes=minute)))
    return found[0].tier if found else None


@pytest.mark.parametrize(
    ("dry_c", "minutes", "tier"),
    [
        (37.5, 300, None),
        (38.8, 300, None),  # 1.3 °C above: within the band
        (39.0, 110, None),  # amber, not yet two hours
        (39.0, 130, "amber"),
        (39.6, 10, "red"),  # 2.1 °C above: at once
        (35.3, 40, None),  # 2.2 °C below, less than an hour
        (35.3, 80, "red"),
        (36.0, 110, None),  # 1.5 °C below: amber, not yet two hours
        (36.0, 130, "amber"),
    ],
)
def test_it_is_told_after_the_time_of_its_tier(dry_c: float, minutes: int, tier: str | None) -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), *((minute, dry_c) for minute in range(0, minutes + 1, 10))])
    assert tier_at(writer, minutes) == tier


def test_it_says_where_how_much_and_for_how_long_once_and_again_when_it_turns_red() -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), *((minute, 39.0) for minute in range(0, 131, 10))])
    now = NIGHT + timedelta(minutes=131)
    [amber] = notices(fold(writer.entries()), now, AIR, LONG_AGO, set())
    assert amber.title == "The air in Loft box"
    assert amber.body.startswith("Loft box is 1.5 °C too warm, for 2 hours now.")
    assert (amber.path, amber.urgent, amber.lasts_s) == (f"/rooms/{place}/air", False, 3600)
    say(writer, place, [(140, 39.1)])
    assert notices(fold(writer.entries()), now + timedelta(minutes=10), AIR, LONG_AGO, {amber.key}) == []
    say(writer, place, [(150, 39.7)])
    [red] = notices(fold(writer.entries()), now + timedelta(minutes=20), AIR, LONG_AGO, {amber.key})
    assert red.urgent
    assert red.topic == amber.topic
    say(writer, place, [(160, 37.6)])  # back in the band
    assert notices(fold(writer.entries()), now + timedelta(minutes=30), AIR, LONG_AGO, {amber.key}) == []


def test_red_comes_in_quiet_hours_and_amber_waits_for_their_end() -> None:
    quiet = Wishes(what=frozenset({"air"}), quiet=(21 * 60, 7 * 60))
    writer, place = book()
    say(writer, place, [(-10, 37.5), *((minute, 39.0) for minute in range(0, 131, 10))])
    assert told(writer, NIGHT + timedelta(minutes=131), quiet) == []
    say(writer, place, [(minute, 39.0) for minute in range(140, 301, 10)])
    assert [urgent for _, urgent in told(writer, at(3, 15, 7), quiet)] == [False]
    say(writer, place, [(310, 40.5)])
    assert [urgent for _, urgent in told(writer, NIGHT + timedelta(minutes=311), quiet)] == [True]  # 7:11
    writer, place = book()
    say(writer, place, [(-10, 37.5), (0, 40.5)])
    assert [urgent for _, urgent in told(writer, NIGHT + timedelta(minutes=1), quiet)] == [True]  # 2:01


@pytest.mark.parametrize(
    "who",
    ["a hand", "a silent thermometer", "nobody asked", "no eggs there", "a species without a band"],
)
def test_nothing_is_told(who: str) -> None:
    writer, place = book()
    elsewhere = writer.write("place", {"name": "Shed box", "role": "incubator"})
    warm = 39.0 if who == "a silent thermometer" else 41.0  # of amber nothing is known then; red stands, see below
    readings = [(-10, 37.5), *((minute, warm) for minute in range(-80, 61, 10))]
    say(writer, elsewhere if who == "no eggs there" else place, readings, by="hand" if who == "a hand" else "sensor")
    if who == "a species without a band":
        writer, place = book()
        writer.documents[-1]["body"]["species"] = "kiwi"
        say(writer, place, readings)
    now = NIGHT + timedelta(minutes=130 if who == "a silent thermometer" else 61)
    assert told(writer, now, Wishes(what=frozenset({"candle"})) if who == "nobody asked" else AIR) == []


def test_a_keeper_silences_it_for_a_while() -> None:
    until = (NIGHT + timedelta(hours=4)).isoformat().replace("+00:00", "Z")
    told_at = {}
    for silenced in (False, True):
        for minute in (60, 239, 241):
            writer, place = book()
            say(writer, place, [(-10, 37.5), *((one, 41.0) for one in range(0, minute + 1, 10))])
            if silenced:
                writer.write("care", {"place": place, "task": "air", "on": until})
            told_at[silenced, minute] = tier_at(writer, minute)
    assert told_at == {
        **dict.fromkeys([(False, 60), (False, 239), (False, 241), (True, 241)], "red"),
        **dict.fromkeys([(True, 60), (True, 239)], None),
    }


def test_fahrenheit_is_the_keepers() -> None:
    writer, place = book("F")
    say(writer, place, [(-10, 37.5), (0, 40.5)])
    [(words, _)] = told(writer, NIGHT + timedelta(minutes=1))
    assert words.startswith("Loft box is 5.4 °F too warm, for ")


@pytest.mark.parametrize(
    ("dry_c", "band"),
    [
        (35.5, "red cold"),  # 2.0 °C below: red once it lasted an hour
        (35.6, "amber cold"),
        (36.0, "amber cold"),
        (36.2, "within"),
        (38.8, "within"),
        (39.0, "amber hot"),
        (39.4, "amber hot"),
        (39.5, "red hot"),
    ],
)
def test_where_a_reading_lies(dry_c: float, band: str) -> None:
    writer, place = book()
    standing, ms = fold(writer.entries()), round(NIGHT.timestamp() * 1000)
    assert band_of(standing, place, dry_c, ms) == band
    assert band_of(standing, "nowhere", dry_c, ms) is None
    assert band_of(standing, place, dry_c, round(SET_AT.timestamp() * 1000) - 1) is None


def test_where_a_reading_lies_for_eggs_that_want_different_warmth() -> None:
    """Pigeons want 38.06 °C and chickens 37.5 (setpoints.json)."""
    writer, place = book()
    writer.set_eggs(place, [(writer.lot(), writer.family("Elder"), 6)], set_at=SET_AT)
    writer.documents[-1]["body"]["species"] = "pigeon"
    ms = round(NIGHT.timestamp() * 1000)
    found = band_of(fold(writer.entries()), place, 39.0, ms)
    assert found == "amber hot, within"


def test_a_red_alarm_stands_when_its_thermometer_falls_silent() -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), *((minute, 41.0) for minute in range(0, 61, 10))])
    [(words, urgent)] = told(writer, NIGHT + timedelta(minutes=60))
    assert words == (  # by a straight line it left its band, 1.39 °C off, four of ten minutes on the way to 3.5
        "Loft box is 3.5 °C too warm, for 66 minutes now. Look at it yourself: a thermometer can be wrong too."
    )
    assert urgent
    [(words, urgent)] = told(writer, NIGHT + timedelta(minutes=60 + 5 * 60))
    assert words == (
        "Loft box was 3.5 °C too warm when last read; its thermometer has said nothing for 5 hours. "
        "Look at it yourself."
    )
    assert urgent


def test_amber_ends_with_the_thermometers_word_of_which_nothing_is_known_any_more() -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), *((minute, 39.0) for minute in range(0, 131, 10))])
    assert (tier_at(writer, 131), tier_at(writer, 130 + 61)) == ("amber", None)


@pytest.mark.parametrize("by", ["sensor", "hand"])
def test_a_reading_in_the_band_ends_red(by: str) -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), (0, 41.0), (10, 41.0)])
    assert tier_at(writer, 300) == "red"
    say(writer, place, [(300, 37.6)], by=by)
    assert tier_at(writer, 301) is None


def test_a_reading_by_hand_out_of_the_band_does_not_end_red() -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), (0, 41.0), (10, 41.0)])
    say(writer, place, [(20, 41.0)], by="hand")
    assert tier_at(writer, 21) == "red"


def test_a_keepers_word_ends_red_of_a_silent_thermometer() -> None:
    writer, place = book()
    say(writer, place, [(-10, 37.5), (0, 41.0), (10, 41.0)])
    writer.write("care", {"place": place, "task": "air", "on": "2026-03-15"}, at=NIGHT + timedelta(minutes=5))
    assert tier_at(writer, 300) == "red", "a word older than the last reading"
    writer.write("care", {"place": place, "task": "air", "on": "2026-03-15"}, at=NIGHT + timedelta(minutes=200))
    assert tier_at(writer, 300) is None
