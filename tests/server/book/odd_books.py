"""Books as strange as books may be, from a seeded chance: every kind, bodies that fit and that do not, corrections
of corrections, rings, clashes, names that trip a language, times at the edge of the calendar."""

from random import Random
from typing import Any

from pwa.body_schema import bodies_schema

from broodline.book.kinds import KINDS
from broodline.book.stages import ALLOWED, STAGES

SCHEMA = bodies_schema()
TRAPS = ["__proto__", "constructor", "toString", "10", "9", "\U0001f600", "\ufb33", "$&{n}", "\x00", "e\u0301"]
FITTING = {
    "name": ["Rowan", "\ufb33 late in the alphabet", "\U0001f600 later", "{n} and {place}"],
    "species": ["chicken", "chicken", "duck", "coturnix", "constructor"],
    "zone": ["Europe/Dublin", "America/New_York", "Pacific/Auckland", "Nowhere/Atall", "+05:00"],
    "task": ["candle", "lockdown", "hatch", "pull", "open", "__proto__"],
}
LOTS = [f"01950000-0000-7000-9000-{n:012x}" for n in range(6)]
NAMES = ["Rowan", "Hazel", "Sorrel", "chicken", "unknown"] * 3
JUNK = [None, True, False, "", "3", 1.5, 0, -1, [], [None], {}, {"bird": 3}, "\U0001f600"]
DAYS = ["2026-03-01", "2024-02-29", "2026-02-29", "1900-02-29", "0001-01-01", "0000-01-01", "2026-3-1", "2026-13-01"]
MOMENTS = [
    "2026-03-01T08:00Z",
    "2026-03-20T08:00:00.1239+05:30",
    "2026-03-20T23:59:59.999999999-23:59",
    "0001-01-01T00:00:00+23:59",
    "9999-12-31T23:59:59Z",
    "1900-02-29T00:00:00Z",
    "2026-03-01T24:00:00Z",
    "2026-03-01T08:00:60Z",
    "2026-03-01T08:00:00+24:00",
    "2026-03-01 08:00:00Z",
    "2026-03-01T08:00:00Z\n",
    "٢٠٢٦-03-01T08:00:00Z",
]
AT = ["2026-03-01T08:00:00Z", "2026-03-08T09:30:00.5Z", "2026-03-19T20:00:00.12Z", "2026-02-01T00:00:00Z"]
EDGES = ["0001-01-01T00:00:00Z", "9999-12-31T23:59:59.999999999Z"]
SKEWS = [0, 120_000, -120_001, 86_400_000, 2**53 - 1, 1 - 2**53]
NUMBERS = [0, 1, 0.5, 0.0001, 18, 37.5, 10**15, 2**53 - 1, -3]
OFTEN = ["set"] * 2 + ["moved"] * 14 + ["looked"] * 5 + ["counted"] * 4 + ["locked"] * 2 + ["same"] * 2 + ["came"] * 2
MOVES = [*sorted(ALLOWED), ("brooding", "brooding"), ("set", "set")]
REFERS = {"setting": "set", "settles": "counted", "store": "place", "as": "bird", "dam": "bird", "about": "bird"}


class OddBook:
    """Entries written one after another; `odd` is the chance that any one thing in them is out of order."""

    def __init__(self, chance: Random, odd: float) -> None:
        self.chance = chance
        self.odd = odd
        self.entries: list[dict[str, Any]] = []

    def write(self, kind: str) -> None:
        """One more entry; its envelope is sound."""
        chance = self.chance
        target = chance.choice(self.entries) if self.entries and chance.random() < 0.15 else None
        if target is not None and not self.is_odd():
            kind = target["kind"] if target["kind"] in KINDS else kind
        number = chance.randrange(len(self.entries) + 1) if self.is_odd() else len(self.entries)
        entry = {
            "id": entry_id(number),
            "v": 2 if self.is_odd() else 1,
            "kind": chance.choice(["moon_phase", "__proto__", "place"]) if self.is_odd() else kind,
            "device": chance.choice(["phone-1", "phone-2"]),
            "at": chance.choice(EDGES) if self.is_odd() else chance.choice(AT),
            "zone": "Europe/Dublin",
            "skew_ms": chance.choice(SKEWS) if chance.random() < 0.15 else None,
            "amends": self.any_id() if chance.random() < 0.05 else target and target["id"],
            "void": target is not None and chance.random() < 0.3,
            "body": self.body(kind),
        }
        if self.is_odd():
            entry[chance.choice(TRAPS)] = chance.choice(JUNK)
        self.entries.append(entry)

    def body(self, kind: str) -> dict[str, Any]:
        """A body of that kind, by the rules of its model; odd values among them fit or do not."""
        body = self.fields(SCHEMA["kinds"][kind]["$ref"])
        if self.is_odd():
            body[self.chance.choice([*body, "from_", "newer", *TRAPS])] = self.chance.choice(JUNK)
        return body

    def fields(self, ref: str) -> dict[str, Any]:
        rule = SCHEMA["$defs"][ref.removeprefix("#/$defs/")]
        needed = rule.get("required", [])
        choice = rule.get("needsOneOf", [])
        given = {self.chance.choice(choice)} if choice and not self.is_odd() else set()
        body = {
            name: self.chance.choice(JUNK) if self.chance.random() < self.odd / 4 else self.value(part, name)
            for name, part in rule["properties"].items()
            if name in given or (not self.is_odd() if name in needed else self.chance.random() < 0.3)
        }
        if {"from", "to"} <= body.keys() and not self.is_odd():
            body["from"], body["to"] = self.chance.choice(MOVES)
        return body

    def value(self, rule: dict[str, Any], name: str) -> Any:
        if "$ref" in rule:
            return self.fields(rule["$ref"])
        if "anyOf" in rule:
            return None if self.is_odd() else self.value(rule["anyOf"][0], name)
        if "enum" in rule:
            return self.chance.choice(rule["enum"])
        match rule["type"]:
            case "string":
                return self.text(rule, name)
            case "integer":
                return self.chance.choice([0, 1_000_000, 1_000_001, 2**53 - 1]) if self.is_odd() else self.few()
            case "number":
                return self.chance.choice(NUMBERS)
            case "boolean":
                return self.chance.random() < 0.5
            case "array":
                parts = "lot" if name == "among" else name
                few = rule.get("minItems", 1), rule.get("maxItems", 3)
                return [self.value(rule["items"], parts) for _ in range(self.chance.randint(min(few), min(few[1], 3)))]
        part = rule["additionalProperties"]
        return {self.chance.choice(TRAPS): self.value(part, name) for _ in range(self.chance.randint(0, 2))}

    def text(self, rule: dict[str, Any], name: str) -> str:
        chance = self.chance
        match rule.get("format"):
            case "day":
                return chance.choice(DAYS if self.is_odd() else DAYS[:2])
            case "moment" | "day-or-moment":
                return chance.choice([*MOMENTS, *DAYS] if self.is_odd() else [*MOMENTS[:2], *AT])
        if "pattern" in rule:
            return chance.choice(["0af5" * 16, "0af5" * 16 + "\n", "0AF5" * 16])
        if self.is_odd():
            return chance.choice(TRAPS)
        if name == "lot":
            return chance.choice(LOTS)
        if name in ("from", "to", "stage"):
            return chance.choice([*STAGES, "\ufb33", "\U0001f600"])
        if name in ("place", "family", "bird", *REFERS):
            return self.id_of(REFERS.get(name, name))
        return chance.choice(FITTING.get(name, [*NAMES, *TRAPS]))

    def few(self) -> int:
        return self.chance.randint(1, 12)

    def id_of(self, kind: str) -> str:
        """An entry of that kind, where there is one: mostly the one or two first."""
        known = [entry["id"] for entry in self.entries if entry["kind"] == kind]
        return self.any_id() if not known or self.is_odd() else self.chance.choice(known[: self.few()])

    def any_id(self) -> str:
        return entry_id(self.chance.randrange(len(self.entries) + 3))

    def is_odd(self) -> bool:
        return self.chance.random() < self.odd


def entry_id(number: int) -> str:
    return f"01950000-0000-7000-8000-{number:012x}"


def odd_book(seed: int) -> list[dict[str, Any]]:
    """The book of that seed: up to some eighty entries in any order, from almost orderly to wild."""
    chance = Random(seed)
    book = OddBook(chance, odd=chance.choice([0.002, 0.01, 0.04, 0.15]))
    for kind in ["keeper", "family", "family", "place", "place", "bird", "bird", "bird", "set", "set"]:
        book.write(kind)
    for _ in range(chance.randrange(70)):
        book.write(chance.choice(OFTEN if chance.random() < 0.7 else list(KINDS)))
    chance.shuffle(book.entries)
    return book.entries
