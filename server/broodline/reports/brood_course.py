"""One brood on its way: what the tasks of its age are worked out from, and how a task becomes due."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import cast

from broodline.book.bodies_rooms import BrooderCheck
from broodline.book.hatch_day import whole_days
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Lot, Move, Standing
from broodline.book.whereabouts import Brood
from broodline.reports.agenda_task import Task
from broodline.trade.calendar import local_date
from broodline.trade.sources import cell, read_table

_TABLE = read_table("brood_tasks")
DAYS = {name: cell(written).value for name, written in _TABLE["ages"].items()}


@dataclass(frozen=True, slots=True)
class Course:
    """What the tasks of one brood are worked out from. lot: of those of unknown family, one of which they may be.

    can_be: its counts can be, so that somebody can say how many.
    """

    standing: Standing
    brood: Brood
    lot: Lot
    born_ms: int
    now_ms: int
    can_be: bool = True

    def at(self, day: int) -> datetime:
        return instant(self.born_ms + day * DAY_MS)

    def on(self, day: int) -> str:
        return local_date(self.at(day), self.standing.keeper.zone)

    @property
    def lots(self) -> tuple[str, ...]:
        """The lots they may be of."""
        return self.brood.lots

    @property
    def moves(self) -> tuple[Move, ...]:
        """What is known of them."""
        setting = self.standing.settings.get(self.lot.setting or "")
        return setting.among if setting is not None and self.brood.among else self.lot.moves

    @property
    def age(self) -> int:
        return whole_days(self.born_ms, self.now_ms)

    def task(self, name: str, day: int, *, n: int | None = None, early: int = 0, figure: str = "") -> Task:
        """Due when the chicks are so many days old."""
        many = (self.brood.n if n is None else n) if self.can_be else None
        dates = (self.on(day - early), self.on(day))
        lot, lots = None if self.brood.among else self.lot.id, self.lots
        here = self.brood.place or ""
        return Task(name, None, here, self.at(day), day, many, *dates, lot=lot, figure=figure, lots=lots)

    def daily(self, name: str, since: str | None = None) -> Task:
        """Due today, at the hour they hatched; since: from when on it counts as done, where that is not today."""
        today = local_date(instant(self.now_ms), self.standing.keeper.zone)
        task = self.task(name, self.age)
        at = task.at if task.due == today else self.at(self.age + 1)
        return replace(task, at=at, since=since or today, due=today)

    def weekly(self, name: str) -> Task | None:
        """Once a week of age, between the table's days; None outside them."""
        first, last = DAYS[name]
        week: int = DAYS["week"]
        day = self.age // week * week
        return self.daily(name, since=self.on(day)) if first <= day <= last else None

    @property
    def species(self) -> str:
        """See `species_of`."""
        return species_of(self.standing, self.lot)

    @property
    def role(self) -> str:
        """What the place is: "" where nobody named it."""
        place = self.standing.places.get(self.brood.place or "")
        return "" if place is None else place.role

    def checked(self, since: str, says: Callable[[BrooderCheck], bool]) -> bool:
        """Whether a round at the brood's place, on that date or later, says so."""
        for head in self.standing.heads.get("brooder_check", ()):
            check = cast(BrooderCheck, head.body)
            here = self.standing.root_of.get(check.place, check.place) == self.brood.place
            if here and says(check) and local_date(instant(head.at_ms), self.standing.keeper.zone) >= since:
                return True
        return False


def species_of(standing: Standing, lot: Lot) -> str:
    """The species of a lot: its setting's, else its family's; "" where nobody knows."""
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    family = standing.families.get(lot.family or "")
    return setting.species if setting is not None else family.species if family is not None else ""
