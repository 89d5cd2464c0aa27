"""Requests as no phone sends them: for every route and method, with sound parts bent in one or two places."""

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

ODD_VALUES: tuple[Any, ...] = (
    None,
    True,
    False,
    0,
    -1,
    1,
    37.5,
    1e15,
    1e-9,
    -0.0,
    2**53,
    2**63,
    10**30,
    "",
    " ",
    "x",
    "0" * 300,
    "é𝄞",
    "\x00",
    "\ud800",
    "../../etc/passwd",
    "'; DROP TABLE log; --",
    "<script>",
    "__proto__",
    "9999-12-31T23:59:59Z",
    "0001-01-01",
    "2026-02-30",
    "NaN",
    [],
    {},
    [[]],
    [None],
    {"": ""},
    {"a": {"b": [1, {"c": None}]}},
    list(range(300)),
)
HEAVY = ("/api/v1/reports/plan", ".xlsx", ".pdf")  # a tenth of a second each: asked less often
METHODS = ("GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS", "PATCH", "TRACE", "BREW")
ODD_HEADERS: tuple[tuple[str, str], ...] = (
    ("host", ""),
    ("host", "evil.example"),
    ("host", "[::1"),
    ("origin", "null"),
    ("origin", "https://evil.example"),
    ("sec-fetch-site", "cross-site"),
    ("sec-fetch-site", "none"),
    ("content-type", "text/plain"),
    ("content-type", "application/json; charset=utf-16"),
    ("content-type", ""),
    ("cookie", "broodline_8471="),
    ("cookie", "broodline_8471=%00%ff; ;=;"),
    ("cookie", "a" * 9000),
    ("authorization", "Bearer "),
    ("authorization", "Basic YTpi"),
    ("authorization", "Bearer \xff\xfe"),
    ("if-none-match", '"x"'),
    ("range", "bytes=5-"),
    ("range", "bytes=-0"),
    ("accept-encoding", "gzip, \x00"),
    ("x-forwarded-for", "1.2.3.4"),
    ("content-length", "-5"),
    ("content-length", "99999999999999999999"),
    ("transfer-encoding", "chunked"),
    ("expect", "100-continue"),
)
ODD_TEXTS = (
    b"",
    b"{",
    b"null",
    b"[]",
    b'"x"',
    b"\xff\xfe",
    b"\xef\xbb\xbf{}",
    b'{"a":1,"a":2}',
    b"[" * 5000,
    b'{"v":NaN}',
    b'{"v":1e999}',
    b'{"v":1}}',
    b"\x00" * 64,
    b'"\\ud800"',
)


@dataclass
class Known:
    """What the requests build on: ids that exist, entries that are sound, addresses that are right."""

    ids: list[str]
    entries: list[dict[str, Any]]
    subscription: dict[str, Any]
    cookies: dict[str, str]  # role -> cookie header
    sensor_token: str
    calendar_path: str
    routes: list[tuple[str, str]]  # method, path as the route table writes it
    own: str


@dataclass(frozen=True)
class OddRequest:
    """One request, ready to be put to the app."""

    method: str
    path: str
    query: str
    headers: tuple[tuple[str, str], ...]
    body: bytes = field(repr=False)


def odd_requests(chance: random.Random, known: Known, n: int) -> Iterator[OddRequest]:
    """n of them, the same for the same chance."""
    for _ in range(n):
        route_method, path = chance.choice(known.routes)
        while path.endswith(HEAVY) and chance.random() < 0.85:
            route_method, path = chance.choice(known.routes)
        method = route_method if chance.random() < 0.9 else chance.choice(METHODS)
        headers = {"host": known.own.removeprefix("http://"), "origin": known.own, "content-type": "application/json"}
        role = chance.choice((*known.cookies, *known.cookies, None))
        if role is not None:
            headers["cookie"] = known.cookies[role]
        if path == "/api/v1/air":
            headers.pop("cookie", None)
            headers["authorization"] = f"Bearer {known.sensor_token}"
        if chance.random() < 0.15:
            name, value = chance.choice(ODD_HEADERS)
            headers[name] = value
        yield OddRequest(
            method,
            _path(chance, known, path),
            _query(chance, known),
            tuple(headers.items()),
            _body(chance, known, path),
        )


def bent(chance: random.Random, value: Any, known: Known) -> Any:
    """The value with one of its parts put in another's place, left out, doubled or made odd."""
    if isinstance(value, dict) and value and chance.random() < 0.85:
        name = chance.choice(list(value))
        copy = dict(value)
        way = chance.random()
        if way < 0.15:
            del copy[name]
        elif way < 0.25:
            copy[name + "x"] = copy.pop(name)
        else:
            copy[name] = bent(chance, copy[name], known)
        return copy
    if isinstance(value, list) and value and chance.random() < 0.85:
        at = chance.randrange(len(value))
        return [*value[:at], bent(chance, value[at], known), *value[at + chance.choice((0, 1)) :]]
    if chance.random() < 0.3:
        return chance.choice(known.ids)
    return chance.choice(ODD_VALUES)


def as_bytes(chance: random.Random, value: Any) -> bytes:
    """The value as JSON, now and then with a byte that is wrong."""
    text = json.dumps(value, ensure_ascii=chance.random() < 0.5).encode("utf-8", "surrogatepass")
    if text and chance.random() < 0.1:
        at = chance.randrange(len(text))
        text = text[:at] + bytes([chance.randrange(256)]) + text[at + chance.randrange(2) :]
    return text


def _path(chance: random.Random, known: Known, path: str) -> str:
    for name in ("{id}", "{lot}", "{uid}", "{token}", "{sha256}", "{year:int}"):
        if name in path:
            filled = str(
                chance.choice((*known.ids, "2026", "0", "9999999999", "%2e%2e", "é", "a" * 500, "x.ics", "0" * 64))
            )
            path = path.replace(name, filled)
    if chance.random() < 0.05:
        path = chance.choice(
            (known.calendar_path, "/", "//", "/assets/../x", "/%00", "/api", "/sw.js", path + "/", path * 3)
        )
    return path


def _query(chance: random.Random, known: Known) -> str:
    if chance.random() < 0.6:
        return ""
    names = (
        "cursor",
        "limit",
        "pens",
        "hens",
        "cocks",
        "pullets",
        "cockerels",
        "chance",
        "family",
        "year",
        "lost",
        "on",
        "",
    )
    pairs = [
        (chance.choice(names), chance.choice((*map(str, ODD_VALUES[:26]), *known.ids, "3")))
        for _ in range(chance.randrange(1, 4))
    ]
    return "&".join(f"{name}={value}" for name, value in pairs).encode("utf-8", "replace").decode("latin-1")


def _body(chance: random.Random, known: Known, path: str) -> bytes:
    if chance.random() < 0.08:
        return chance.choice(ODD_TEXTS)
    if chance.random() < 0.004:
        return b" " * (256 * 1024 + chance.randrange(-1, 2))
    value = _sound(chance, known, path)
    for _ in range(chance.choice((0, 1, 1, 2))):
        value = bent(chance, value, known)
    return as_bytes(chance, value)


def _sound(chance: random.Random, known: Known, path: str) -> Any:
    if path.endswith("/push"):
        batch = [dict(chance.choice(known.entries)) for _ in range(chance.randrange(4))]
        for entry in batch:
            if chance.random() < 0.7:
                entry["id"] = f"0195{chance.randrange(2**16):04x}-0000-7000-8000-{chance.randrange(2**48):012x}"
        return {"v": 1, "entries": batch}
    if path.endswith("/pair"):
        return {"code": "WR0NGC0D", "name": "phone", "holding": chance.choice(known.ids)}
    if path.endswith("/invitations"):
        return {"role": chance.choice(("keeper", "helper", "reader"))}
    if path.endswith("/subscription"):
        return {"subscription": known.subscription, "wishes": {"what": ["lockdown"], "at": "07:00", "quiet": None}}
    if path.endswith("/air"):
        return {"dry_c": round(chance.uniform(20, 45), 1), "humidity_pct": 50, "at": "2026-03-08T11:00:00Z"}
    if "/imports/" in path:
        table = "date,family,gathered,kept\n2026-03-01,Rowan,5,4\n2026-03-32,Hazel,x,\n"
        text = table if path.endswith("/sheet") else json.dumps(chance.choice(known.entries))
        return {"name": chance.choice(("eggs.csv", "book.jsonl", "eggs.xlsx")), "text": text, "kind": "gathered"}
    if "/devices/" in path:
        return {"name": "Barn phone"}
    return {}
