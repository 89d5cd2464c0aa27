"""How the days of a table were read, with some of them in full: a day and a month changed about are seen before they
are written."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from broodline.exchange.days_in import Order, is_open
from broodline.exchange.row_values import Unread, text_of
from broodline.exchange.rows_in import Row

MOST_SHOWN = 6
_NAMES = ("family", "name", "ring")


@dataclass(frozen=True, slots=True)
class DayTold:
    """number: the row's. whose: its family or bird. written: as the cell has it, None where it holds a day."""

    number: int
    whose: str
    field: str
    written: str | None
    on: date


@dataclass(frozen=True, slots=True)
class TableDays:
    """dates: the order of days in digits, None where they contradict each other. dates_open: the orders that the table
    leaves open; more than one is a question. days: some of them."""

    dates: Order | None
    dates_open: Sequence[Order]
    days: Sequence[DayTold]

    def as_json(self) -> dict[str, Any]:
        """{dates, dates_open, days}."""
        days = [
            {"number": one.number, "whose": one.whose, "field": one.field, "written": one.written,
             "on": one.on.isoformat()}
            for one in self.days
        ]  # fmt: skip
        return {"dates": self.dates, "dates_open": list(self.dates_open), "days": days}


def table_days(rows: Sequence[Row], latest: date) -> TableDays:
    """Days that can be read in two ways are shown first. latest: no day lies after it."""
    if not rows:
        return TableDays(None, (), ())
    fields = [name for name in rows[0].matched.columns if name.endswith("_on")]
    cells = [(not is_open(row.value(name)), row, name) for row in rows for name in fields]
    found: list[DayTold] = []
    for _, row, name in sorted(cells, key=lambda cell: cell[0]):
        try:
            on = row.day(name, latest)
        except Unread:
            continue
        if on is not None:
            value = row.value(name)
            whose = next((text for one in _NAMES if (text := row.text(one))), "")
            written = None if isinstance(value, date) else text_of(value)
            found.append(DayTold(row.line.number, whose, name, written, on))
        if len(found) == MOST_SHOWN:
            break
    return TableDays(rows[0].days.order, rows[0].days.open, found)
