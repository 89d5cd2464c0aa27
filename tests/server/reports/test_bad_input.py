"""What cannot be, through the report of a setting: a Problem with words and the entry, and the rest still computes."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter

NOW = START + timedelta(days=23)


class Sound:
    """A whole setting in order: 20 Rowan eggs, weighed and aired, 15 hatched, and 10 of Birch, 8 hatched."""

    def __init__(self, **lot: Any) -> None:
        book = self.book = BookWriter()
        book.keeper()
        self.place = book.incubator()
        self.rowan, self.birch = book.lot(), book.lot()
        family, other = book.family("Rowan"), book.family("Birch")
        self.setting = book.write(
            "set",
            {
                "place": self.place,
                "species": "chicken",
                "set_at": START.isoformat().replace("+00:00", "Z"),
                "lots": [
                    {"lot": self.rowan, "family": family, "n": 20, "laid_from": "2026-02-22", "laid_to": "2026-02-28"}
                    | lot,
                    {"lot": self.birch, "family": other, "n": 10, "laid_from": "2026-02-22", "laid_to": "2026-02-28"},
                ],
            },
            at=START,
        )
        for day, gross_g in ((0.0, 1450.0), (7.0, 1402.0), (14.0, 1354.0)):
            self.weigh(day, gross_g)
        for day in (1.0, 1.4):
            self.read(day, dry_c=37.5, humidity_pct=52)
        for lot_id, clear, hatched in ((self.rowan, 3, 15), (self.birch, 1, 8)):
            book.move(lot_id, "set", "clear", clear, at=START + timedelta(days=7))
            book.move(lot_id, "set", "hatched", hatched, at=START + timedelta(days=21))
            n = 20 if lot_id == self.rowan else 10
            book.move(lot_id, "set", "unhatched", n - clear - hatched, at=START + timedelta(days=22))

    def weigh(self, day: float, gross_g: float, tare_g: float = 250.0) -> str:
        body = {"setting": self.setting, "n": 20, "gross_g": gross_g, "tare_g": tare_g}
        return self.book.write("eggs_weighed", body, at=START + timedelta(days=day))

    def read(self, day: float, **air: float) -> str:
        return self.book.write("air", {"place": self.place, **air}, at=START + timedelta(days=day))

    def report(self) -> dict[str, Any]:
        return setting_report(fold(self.book.entries()), self.setting, NOW)


def wet_above_dry(sound: Sound) -> str:
    return sound.read(2, dry_c=37.5, wet_c=38.0)


def bone_dry(sound: Sound) -> str:
    return sound.read(2, dry_c=37.5, wet_c=5.0)


def humidity_over_100(sound: Sound) -> str:
    return sound.read(2, dry_c=37.5, humidity_pct=101)


def fahrenheit_for_celsius(sound: Sound) -> str:
    return sound.read(1.2, dry_c=99.5, humidity_pct=52)


def no_weight(sound: Sound) -> str:
    return sound.weigh(10, 0)


def tray_heavier_than_eggs(sound: Sound) -> str:
    return sound.weigh(10, 250, tare_g=1450)


def eggs_that_grow(sound: Sound) -> str:
    return sound.weigh(15, 1460)


def weighed_before_setting(sound: Sound) -> str:
    return sound.weigh(-3, 1450)


def looked_before_setting(sound: Sound) -> str:
    return sound.book.look(sound.setting, sound.rowan, live=20, at=START - timedelta(days=2))


def moved_before_setting(sound: Sound) -> str:
    return sound.book.move(sound.rowan, "unhatched", "dead_late", 2, at=START - timedelta(days=2))


def locked_before_setting(sound: Sound) -> str:
    return sound.book.write("locked", {"setting": sound.setting}, at=START - timedelta(days=2))


def power_back_before_it_went(sound: Sound) -> str:
    return sound.book.write("outage", {"from": "2026-03-05T14:00:00Z", "until": "2026-03-05T12:00:00Z"})


@pytest.mark.parametrize(
    ("written", "days", "late"),
    [(START, 7, False), (START, 8, True), (START + timedelta(days=900), 900, True), (NOW, 30, False)],
)
def test_eggs_set_more_than_a_week_after_that_was_written_down(written: Any, days: int, late: bool) -> None:
    """A year mistyped; the phone dates the entry by the day of setting, so that what is to come by now is told too."""
    book = BookWriter()
    book.keeper()
    setting = book.set_eggs(book.incubator(), [(book.lot(), book.family("Rowan"), 12)])
    body = {**book.documents[-1]["body"], "set_at": (START + timedelta(days=days)).isoformat()}
    book.write("set", body, amends=setting, at=written)
    problems = setting_report(fold(book.entries()), setting, NOW)["problems"]
    assert [(one["code"], one["entry"]) for one in problems] == ([("set_late", setting)] if late else [])
    assert all("month and the year" in one["remedy"] for one in problems)


@pytest.mark.parametrize(
    ("odd", "code", "said"),
    [
        (wet_above_dry, "wet_bulb", "mixed up"),
        (bone_dry, "wet_bulb", "wick"),
        (humidity_over_100, "humidity", "101 %"),
        (fahrenheit_for_celsius, "temperature", "99.5 °C"),
        (no_weight, "tare_over_gross", "0 g is no weight"),
        (tray_heavier_than_eggs, "tare_over_gross", "empty tray"),
        (eggs_that_grow, "weight_gained", "do not gain weight"),
        (weighed_before_setting, "weighed_before_setting", "before they were set"),
        (looked_before_setting, "before_setting", "before the eggs of Rowan were set"),
        (moved_before_setting, "before_setting", "before the eggs of Rowan were set"),
        (locked_before_setting, "before_setting", "before the eggs of Birch / Rowan were set"),
        (power_back_before_it_went, "outage_backwards", "before it began"),
    ],
)
def test_the_rest_of_the_report_still_computes(odd: Any, code: str, said: str) -> None:
    sound = Sound()
    before = sound.report()
    assert before["problems"] == []
    entry = odd(sound)
    after = sound.report()
    (problem,) = after["problems"]
    assert (problem["code"], problem["entry"]) == (code, entry)
    assert said in problem["message"]
    assert problem["remedy"]
    assert after["total"]["hatch_of_set"] == before["total"]["hatch_of_set"]
    assert after["total"]["fertility"] == before["total"]["fertility"]
    assert after["hatch"] == before["hatch"]
    assert after["weight_loss"]["points"] == before["weight_loss"]["points"]
    assert after["weight_loss"]["projected_pct"] == pytest.approx(before["weight_loss"]["projected_pct"])
    assert after["air"]["hours_out"] == before["air"]["hours_out"] == 0
    assert after["air"]["outages"] == []


def test_more_hatched_than_were_set() -> None:
    """k and n stand, the rate does not; the other family's does, and the season leaves the first one out."""
    sound = Sound()
    entry = sound.book.move(sound.rowan, "set", "hatched", 6, at=START + timedelta(days=21, hours=2))
    found = sound.report()
    assert [(one["code"], one["entry"]) for one in found["problems"]] == [("below_zero", entry)]
    assert "6 more went out of 'in the setter' than were there" in found["problems"][0]["message"]
    rowan, birch = found["lots"]
    rate = rowan["hatch_of_set"]
    assert (rate["k"], rate["n"], rate["rate"], rate["low"], rate["high"]) == (21, 20, None, None, None)
    assert birch["hatch_of_set"]["rate"] == 0.8
    assert found["weight_loss"]["projected_pct"] is not None
    season = season_report(fold(sound.book.entries()), 2026, NOW)
    by_name = {one["name"]: one["hatch_of_set"] for one in season["families"]}
    assert (by_name["Birch"]["k"], by_name["Birch"]["n"]) == (8, 10)
    assert by_name["Rowan"]["rate"] is None


@pytest.mark.parametrize(
    ("lot", "code", "said"),
    [
        ({"laid_to": "2026-03-04"}, "laid_after_setting", "laid on 4 Mar 2026 and set on 1 Mar 2026"),
        ({"laid_from": "2026-02-28", "laid_to": "2026-02-20"}, "laid_backwards", "last on 20 Feb 2026"),
    ],
)
def test_days_of_laying_that_cannot_be(lot: dict[str, str], code: str, said: str) -> None:
    sound = Sound(**lot)
    found = sound.report()
    assert [(one["code"], one["entry"]) for one in found["problems"]] == [(code, sound.setting)]
    assert said in found["problems"][0]["message"]
    assert found["lots"][0]["hatch_of_set"]["k"] == 15


def test_a_rate_of_nothing_is_null() -> None:
    """A setting whose eggs were all broken: nothing was examined, so nothing was fertile or not."""
    book = BookWriter()
    book.keeper()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 6)])
    book.move(lot, "set", "cracked", 6, at=START + timedelta(days=3))
    total = setting_report(fold(book.entries()), setting, NOW)["total"]
    assert (total["fertility"]["k"], total["fertility"]["n"], total["fertility"]["rate"]) == (0, 0, None)
    assert (total["hatch_of_fertile"]["n"], total["hatch_of_fertile"]["rate"]) == (0, None)
    assert (total["hatch_of_set"]["n"], total["hatch_of_set"]["rate"]) == (6, 0)
    assert total["alive_7d"]["rate"] is None
