"""What the store can give by when: eggs there now, and the hens' pace of the last week carried on.

Eggs too old to set are not given. A family of which nothing was ever gathered is taken to give any number.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from broodline.trade.sources import cell, read_table

MOST_DAYS: int = cell(read_table("storage")["most_days"]).value
_WEEK = 7
_FORETOLD_WEEKS = 5


@dataclass(slots=True)
class Supply:
    """Eggs of one family. pace: kept a day. taken: laid on -> how many a plan has set already."""

    today: date
    parcels: Sequence[tuple[date, int]]
    pace: float
    taken: dict[date, int] = field(default_factory=dict)

    def give(self, on: date, wanted: int) -> int:
        """As many as can be set that day, at most so many, the oldest first; they are gone then."""
        given = 0
        for laid, n in self._laid_by(on):
            part = min(n - self.taken.get(laid, 0), wanted - given)
            if part > 0:
                self.taken[laid] = self.taken.get(laid, 0) + part
                given += part
        return given

    def left(self, on: date) -> int:
        """Eggs there that day that can be set, less those set already."""
        return sum(n - self.taken.get(laid, 0) for laid, n in self._laid_by(on))

    def fit(self, on: date) -> int:
        """Eggs there that day that can be set, if none is set before it."""
        return sum(n for _, n in self._laid_by(on))

    def whole(self, n: int) -> date | None:
        """The day by which so many eggs have been gathered in all; None where the hens do not lay."""
        there = sum(parcel for _, parcel in self.parcels)
        if there >= n:
            return self.today
        return None if self.pace <= 0 else self.today + timedelta(days=_ceiling((n - there) / self.pace))

    def _laid_by(self, on: date) -> list[tuple[date, int]]:
        """By day of laying, those too old on the day left out. Tomorrow's eggs come at the pace, in whole eggs."""
        days = (on - self.today).days
        coming = [
            (self.today + timedelta(days=day), int(self.pace * day + 1e-9) - int(self.pace * (day - 1) + 1e-9))
            for day in range(max(1, days - MOST_DAYS), days + 1)
        ]
        oldest = on - timedelta(days=MOST_DAYS)
        return [(laid, n) for laid, n in (*self.parcels, *coming) if laid >= oldest and n > 0]


def supplies(store: Mapping[str, Any]) -> dict[str, Supply]:
    """Family -> its eggs, from the egg store's answer."""
    today = date.fromisoformat(store["on"])
    return {
        one["family"]: Supply(
            today,
            tuple((date.fromisoformat(parcel["on"]), parcel["n"]) for parcel in one["parcels"]),
            one["kept_7d"] / _WEEK,
        )
        for one in store["families"]
    }


def store_json(supply: Supply | None, eggs: int) -> dict[str, Any] | None:
    """{pace_week, enough_on, by: [{on, n}]}; None for a family of which nothing was ever gathered."""
    if supply is None:
        return None
    enough = supply.whole(eggs)
    weeks = [supply.today + timedelta(days=_WEEK * week) for week in range(_FORETOLD_WEEKS)]
    return {
        "pace_week": supply.pace * _WEEK,
        "enough_on": enough and enough.isoformat(),
        "by": [{"on": on.isoformat(), "n": supply.fit(on)} for on in weeks],
    }


def _ceiling(x: float) -> int:
    return -int(-x // 1)
