"""Chicks of unknown family: a brood of the lots they may be of."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.agenda import due
from broodline.reports.brood import brood_report
from tests.book_writer import BookWriter
from tests.server.reports.test_brood import OUT


class Mixed:
    """Two families hatched together at OUT; of their chicks most are of unknown family."""

    def __init__(self, *, known: int = 1, unknown: int = 19) -> None:
        self.book = BookWriter()
        self.book.keeper()
        self.lots = [self.book.lot(), self.book.lot()]
        families = [self.book.family(name) for name in ("Rowan", "Hazel")]
        self.box = self.book.incubator()
        self.place = self.book.write("place", {"name": "Brooder one", "role": "brooder"})
        self.setting = self.book.set_eggs(
            self.box, [(lot, family, 12) for lot, family in zip(self.lots, families, strict=True)]
        )
        if known:
            self.book.move(self.lots[0], "set", "hatched", known, at=OUT)
        self.move("set", "hatched", unknown, days=0, why="hatch")

    def move(self, source: str, target: str, n: int, *, days: float, **more: Any) -> None:
        moves = [{"among": self.lots, "from": source, "to": target, "n": n}]
        self.book.write("moved", {"moves": moves, **more}, at=OUT + timedelta(days=days))


def test_chicks_of_unknown_family_are_cared_for() -> None:
    """Of 20 that hatched nobody knows which are Rowan's and which Hazel's: both batches tell of one brood."""
    mixed = Mixed(known=0, unknown=20)
    mixed.move("hatched", "brooding", 20, days=1, why="pulled", place=mixed.place)
    now = OUT + timedelta(days=2)
    standing = fold(mixed.book.entries())
    water = next(one for one in due(standing, now)["tasks"] if one["task"] == "water")
    assert (water["n"], water["lot"], water["place"]) == (20, None, mixed.place)
    assert "heat" in {one["task"] for one in due(standing, now)["tasks"]}
    for lot in mixed.lots:
        found = brood_report(standing, lot, now)
        assert (found["age_days"], found["alive"], found["open"]["brooding"]) == (2, 0, 20)
        assert found["shared"] == {"families": "Hazel and Rowan together", "n": 20}
        assert [(one["n"], one["lots"], one["with"]) for one in found["places"]] == [(20, mixed.lots, [])]
        assert found["heat"]["low_c"] == pytest.approx(32.22, abs=0.01), "the first week of a brood of known family"
        assert found["feed"]["today_g"][0] == pytest.approx(20 * found["feed"]["per_bird_g"][0])
        assert water in [{**one, "overdue": False} for one in found["tasks"]]
    assert "pull" not in {one["task"] for one in due(standing, now)["tasks"]}
