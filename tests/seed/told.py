"""The seed scenario as tests see it: its template, its days, and the words of its lines for ids."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from broodline.book.wire import Entry
from broodline.exchange.seed import seed_entries
from seed_scenario.generate import HERE, TEMPLATE

# An ordinary day, leap day, New Year, and days on either side of a change of clocks in Europe/Dublin
# (29 March and 25 October 2026, EU directive 2000/84/EC: the last Sundays of March and October).
LOAD_DAYS = [
    date(2026, 6, 10),
    date(2028, 2, 29),
    date(2027, 1, 1),
    date(2026, 3, 28),
    date(2026, 3, 29),
    date(2026, 3, 30),
    date(2026, 4, 14),
    date(2026, 10, 24),
    date(2026, 10, 25),
    date(2026, 10, 26),
    date(2026, 11, 20),
]
NO_CHANGE_OF_CLOCKS = date(2026, 8, 20)


class Told:
    """The scenario told on a day: its entries, its lines, and which id a word became."""

    def __init__(self, today: date) -> None:
        self.today = today
        self.template = TEMPLATE.read_bytes()
        self.lines: list[dict[str, Any]] = [json.loads(line) for line in self.template.splitlines()]
        self.entries: list[Entry] = seed_entries(self.template, today)
        self.ids: dict[str, str] = {}
        for line, entry in zip(self.lines, self.entries, strict=True):
            self.ids[line["name"]] = entry.id
            if line["kind"] == "set":
                for lot, dated in zip(line["body"]["lots"], entry.body["lots"], strict=True):
                    self.ids[lot["lot"][1:]] = dated["lot"]


def expected(name: str) -> Any:
    """An expected result, as the generator counted it egg by egg."""
    return json.loads(Path(HERE, "expected", f"{name}.json").read_text())
