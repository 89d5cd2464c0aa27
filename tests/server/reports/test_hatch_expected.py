"""The likely hatch of a setting through a book: which earlier hatches count, and how it is said."""

from datetime import timedelta
from typing import Any

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


class Holding:
    """One incubator after another, chickens hatching so many hours after setting."""

    def __init__(self) -> None:
        self.book = BookWriter()
        self.book.keeper()
        self.family, self.place = self.book.family("Rowan"), self.book.incubator()
        self.days = 0

    def hatch(self, median_h: float | None, place: str | None = None, species: str = "chicken") -> str:
        """Set 40 eggs; with a median, 10, 20 and 10 of them hatch about it, 8 hours from first look to last."""
        lot, set_at = self.book.lot(), START + timedelta(days=self.days)
        setting = self.book.set_eggs(place or self.place, [(lot, self.family, 40)], set_at=set_at, species=species)
        self.days += 30
        for late_h, n in ((-4, 10), (0, 20), (4, 10)) if median_h is not None else ():
            at = set_at + timedelta(hours=(median_h or 0) + late_h + 2)
            self.book.move(lot, "set", "hatched", n, at=at)
        return setting

    def forecast(self, setting: str) -> Any:
        return setting_report(fold(self.book.entries()), setting, START + timedelta(days=self.days))["forecast"]


def test_without_an_earlier_hatch_the_species_speaks() -> None:
    holding = Holding()
    found = holding.forecast(holding.hatch(None))
    assert (found["from_h"], found["to_h"], found["hatches"], found["shift_h"]) == (480, 528, 0, 0)
    assert (found["from"], found["to"]) == ("2026-03-21T08:00:00.000Z", "2026-03-23T08:00:00.000Z")
    assert found["words"] == (
        "Nine of ten chicks are likely between 21 Mar 2026, 08:00 and 23 Mar 2026, 08:00. By the species alone: no "
        "earlier hatch of this incubator is known."
    )


def test_earlier_hatches_of_the_same_incubator_and_species_move_and_narrow_it() -> None:
    holding = Holding()
    other = holding.book.incubator("Other")
    first = holding.hatch(490)
    holding.hatch(550, place=other)
    holding.hatch(690, species="duck")
    holding.hatch(492)
    last = holding.hatch(None)
    holding.hatch(480)
    found = holding.forecast(last)
    assert found["hatches"] == 2
    assert -8 < found["shift_h"] < -5, "13 hours early on average, shrunk by a half"
    assert found["to_h"] - found["from_h"] < 48
    assert found["species"] == {"from_h": 480, "to_h": 528}
    assert (
        "rests on 2 earlier hatches in this incubator: 7 hours earlier than the species' usual time" in found["words"]
    )
    assert "hours earlier" in found["words"]
    assert holding.forecast(first)["hatches"] == 0


def test_one_late_hatch_is_said_as_one() -> None:
    holding = Holding()
    holding.hatch(520)
    words = holding.forecast(holding.hatch(None))["words"]
    assert "rests on 1 earlier hatch in this incubator: 5 hours later than" in words
    assert "5 hours later" in words


def test_only_the_latest_eight_count() -> None:
    holding = Holding()
    for _ in range(9):
        holding.hatch(500)
    assert holding.forecast(holding.hatch(None))["hatches"] == 8


def test_species_nobody_knows_has_no_forecast() -> None:
    holding = Holding()
    assert holding.forecast(holding.hatch(None, species="phoenix")) is None


def test_an_early_hatch_names_what_may_be_behind_it_and_no_degrees() -> None:
    """Warm machine: Mississippi State; drier air: Swann and Brake 1990."""
    holding = Holding()
    setting = holding.hatch(480)
    hatch = setting_report(fold(holding.book.entries()), setting, START + timedelta(days=40))["hatch"]
    (meaning,) = hatch["meanings"]
    assert meaning["code"] == "early"
    assert meaning["words"].startswith("The hatch was 24 hours early.")
    assert "cannot be told" in meaning["words"]
    assert any(cause.startswith("temperature too high (Important incubation factors") for cause in meaning["likely"])
    on_time = holding.hatch(500)
    assert setting_report(fold(holding.book.entries()), on_time, START)["hatch"]["meanings"] == []
