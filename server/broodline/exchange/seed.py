"""The seed scenario, dated: from a template that counts days from the day of loading to entries of a book.

The template (scenario.jsonl, written by seed_scenario/generate.py, which says how its lines read) names entries and
lots by words and keeps the times of the clock on the wall. Dating it turns words into ids and wall times into UTC in
the holding's zone, so a setting made at six in the morning was made at six, whatever the clocks did since.
"""

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from broodline.book.moments import moment_ms
from broodline.book.wire import Entry, read_entry

TEMPLATE = "scenario.jsonl"

_VERSION = 1
_COUNTER_BITS, _NAME_BITS = 24, 50


class ScenarioFault(ValueError):
    """The packaged template is not as its generator writes it: a fault of the program, not of a keeper."""


def seed_entries(template: bytes, today: date) -> list[Entry]:
    """The scenario's entries, in the order they were written, as if `today` were the day it is told on.

    today: the date in the holding's zone. Ids are UUIDv7 made from time, place in the template and name: the same
    every time, growing with time. Raises ScenarioFault for a template that is broken.
    """
    lines = _read(template)
    dating = _dating(lines, today)
    return [read_entry(dating.document(line)) for line in lines]


def story_day(template: bytes, now: datetime) -> date:
    """The day to tell the scenario on, so that nothing in it lies in the future.

    now: aware. The date in the holding's zone once the last hour of the story has passed there, else the day before.
    """
    lines = _read(template)
    here = now.astimezone(_zone(lines))
    last = max((tuple(line["written"]) for line in lines), default=(0, "00:00:00"))
    days_back = last[0] if here.time() >= time.fromisoformat(last[1]) else last[0] + 1
    return here.date() - timedelta(days=days_back)


@dataclass(frozen=True, slots=True)
class _Dating:
    """What words mean on one day of loading. ids: the id of every named entry and lot."""

    today: date
    zone: ZoneInfo
    ids: Mapping[str, str]

    def document(self, line: Mapping[str, Any]) -> dict[str, Any]:
        return {
            "id": self.ids[line["name"]],
            "v": _VERSION,
            "kind": line["kind"],
            "device": line["device"],
            "at": _moment(self.today, self.zone, line.get("at", line["written"])),
            "zone": self.zone.key,
            "skew_ms": 0,
            "amends": self._dated(line.get("amends")),
            "void": line.get("void", False),
            "body": self._dated(line["body"]),
        }

    def _dated(self, part: Any) -> Any:
        if isinstance(part, str) and part.startswith("@"):
            if part[1:] not in self.ids:
                raise ScenarioFault(f"nothing is named {part}")
            return self.ids[part[1:]]
        if isinstance(part, list):
            return [self._dated(below) for below in part]
        if not isinstance(part, dict):
            return part
        if part.keys() == {"on_day"}:
            return (self.today + timedelta(days=part["on_day"])).isoformat()
        if part.keys() == {"on_day", "at_time"}:
            return _moment(self.today, self.zone, (part["on_day"], part["at_time"]))
        if part.keys() == {"season_with_day"}:
            return _season_start(self.today, part["season_with_day"])
        return {key: self._dated(below) for key, below in part.items()}


def _dating(lines: list[dict[str, Any]], today: date) -> _Dating:
    zone = _zone(lines)
    ids: dict[str, str] = {}
    before = 0
    for line in lines:
        written_ms = moment_ms(_moment(today, zone, line["written"]))
        if written_ms < before:
            raise ScenarioFault(f"{line['name']} stands after a later line")
        before = written_ms
        for name in _names_given(line):
            if name in ids:
                raise ScenarioFault(f"two things are named {name}")
            ids[name] = _id(written_ms, len(ids), name)
    return _Dating(today, zone, ids)


def _names_given(line: Mapping[str, Any]) -> Iterator[str]:
    """The entry's own name, and those of the lots it founds."""
    yield line["name"]
    if line["kind"] == "set" and "amends" not in line:
        yield from (lot["lot"][1:] for lot in line["body"]["lots"])
    elif line["kind"] == "came" and "lot" in line["body"] and "amends" not in line:
        yield line["body"]["lot"][1:]


def _id(ms: int, counter: int, name: str) -> str:
    """A UUIDv7 that grows with time and then with the counter; the rest comes from the name."""
    rest = int.from_bytes(hashlib.sha256(name.encode()).digest()) >> (256 - _NAME_BITS)
    low = (counter << _NAME_BITS) | rest
    high_12, low_62 = low >> 62, low & ((1 << 62) - 1)
    digits = f"{(ms << 80) | (7 << 76) | (high_12 << 64) | (2 << 62) | low_62:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))


def _moment(today: date, zone: ZoneInfo, when: Any) -> str:
    day, wall = when
    local = datetime.combine(today + timedelta(days=day), time.fromisoformat(wall), zone)
    return local.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _season_start(today: date, day: int) -> int:
    """January, or, where that would part the story in two seasons, the month of its first setting."""
    first = today + timedelta(days=day)
    return 1 if first.year == today.year else first.month


def _zone(lines: list[dict[str, Any]]) -> ZoneInfo:
    return ZoneInfo(next(line["body"]["zone"] for line in lines if line["kind"] == "keeper"))


def _read(template: bytes) -> list[dict[str, Any]]:
    return [json.loads(line) for line in template.splitlines()]
