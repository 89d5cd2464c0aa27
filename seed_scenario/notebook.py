"""The scenario as lines: entries with names in place of ids, and days counted from the day it is loaded.

A line: {"name", "written": [day, time], "at"?: [day, time], "device", "kind", "amends"?, "void"?, "body"}.
`written` is when it was typed (it orders the ids), `at` when it happened, where that differs.
In bodies "@name" stands for an id, {"on_day": -46} for a date and {"on_day": -46, "at_time": "06:00:00"} for a moment,
{"season_with_day": -46} for the month a season starts in that holds that day as well as the day of loading.
"""

import json
from dataclasses import dataclass, field
from typing import Any

MARA, ORLA = "maras-phone", "orlas-phone"
# Both hours that summer time makes doubtful: nothing is written between them.
DOUBTFUL = ("00:55:00", "02:05:00")


def on(day: int) -> dict[str, Any]:
    """A date."""
    return {"on_day": day}


def moment(day: int, time: str) -> dict[str, Any]:
    """A moment, by the clock on the wall."""
    return {"on_day": day, "at_time": time}


@dataclass(slots=True)
class Clock:
    """A clock on the wall that runs while somebody counts."""

    day: int
    seconds: int

    @classmethod
    def at(cls, day: int, time: str) -> "Clock":
        hours, minutes = (int(part) for part in time.split(":"))
        return cls(day, hours * 3600 + minutes * 60)

    def tick(self, seconds: int = 7) -> "Clock":
        """Lets time pass; gives the clock back."""
        self.seconds += seconds
        return self

    def read(self) -> tuple[int, str]:
        minutes, seconds = divmod(self.seconds, 60)
        hours, minutes = divmod(minutes, 60)
        if hours > 23:
            raise ValueError("this count runs past midnight")
        return self.day, f"{hours:02}:{minutes:02}:{seconds:02}"


@dataclass
class Notebook:
    """Collects the lines of the story."""

    lines: list[dict[str, Any]] = field(default_factory=list)
    named: dict[str, int] = field(default_factory=dict)

    def write(
        self,
        kind: str,
        body: dict[str, Any],
        clock: Clock,
        *,
        by: str = MARA,
        name: str | None = None,
        at: tuple[int, str] | None = None,
        amends: str | None = None,
        void: bool = False,
    ) -> str:
        """One entry; gives its name."""
        day, time = clock.read()
        if DOUBTFUL[0] < time < DOUBTFUL[1]:
            raise ValueError(f"{kind} on day {day}: {time} may not exist where the clocks change")
        if name is None:
            self.named[kind] = self.named.get(kind, 0) + 1
            name = f"{kind}-{self.named[kind]}"
        line: dict[str, Any] = {"name": name, "written": [day, time], "device": by, "kind": kind}
        if at is not None:
            line["at"] = list(at)
        if amends is not None:
            line["amends"] = "@" + amends
        if void:
            line["void"] = True
        self.lines.append({**line, "body": body})
        return name

    def take_back(self, name: str, clock: Clock, *, by: str = MARA) -> str:
        """A void that carries the body it takes back and the time it happened, as the phone writes it."""
        line = next(line for line in self.lines if line["name"] == name)
        day, time = line.get("at", line["written"])
        return self.write(line["kind"], line["body"], clock, by=by, at=(day, time), amends=name, void=True)

    def in_order(self) -> list[dict[str, Any]]:
        """The lines by when they were written."""
        names = [line["name"] for line in self.lines]
        if len(set(names)) < len(names):
            raise ValueError("two lines of one name")
        return sorted(self.lines, key=lambda line: line["written"])

    def as_bytes(self) -> bytes:
        """One line of JSON for each entry."""
        return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in self.in_order()).encode()
