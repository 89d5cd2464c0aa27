"""Ten thousand odd requests over every route, and odd bytes to every parser: each gets an answer of the contract, none
is a fault of our own. The seed is fixed, so that a failure can be run again; it stands in the message."""

import asyncio
import json
import random
import secrets
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from starlette.routing import Route

from broodline.book.fold import fold
from broodline.book.wire import load_json, read_entry
from broodline.errors import BroodlineError
from broodline.exchange.archive import read_lines
from broodline.exchange.sheets_in import read_sheets, undo_entries
from broodline.exchange.told_in import Told
from broodline.exchange.travel import read_arrival
from broodline.jobs.push_line import is_push_address
from broodline.reports.wishes import read_wishes
from broodline.store.shelf import Shelf
from broodline.sync.pairing import read_pair_request
from broodline.sync.push import read_batch
from broodline.sync.sensors import read_reading
from broodline.web.app import create_app, route_table
from broodline.web.import_routes import _content
from tests.book_writer import BookWriter
from tests.faults.odd_files import ODD_FILES
from tests.faults.odd_requests import Known, OddRequest, as_bytes, bent, odd_requests
from tests.server.conftest import HandClock
from tests.server.jobs.push_service import PushService
from tests.server.web.conftest import OWN, PORT, serving
from tests.server.web.test_sync_routes import push

SEED = 20260308
REQUESTS = 10_000
PARSED = 20_000
ALLOWED = frozenset({200, 201, 204, 206, 304, 400, 401, 403, 404, 405, 409, 413, 416, 426, 429})


def season() -> list[dict[str, Any]]:
    """A small book with something for every report to be wrong about."""
    book = BookWriter()
    book.keeper()
    place, brooder = book.incubator(), book.write("place", {"name": "Ring", "role": "brooder"})
    rowan, hazel = book.family("Rowan"), book.family("Hazel", "duck")
    first, second = book.lot(), book.lot()
    setting = book.set_eggs(place, [(first, rowan, 12), (second, hazel, 9)])
    book.look(setting, first, live=9)
    book.move(first, "set", "clear", 3, why="candled", day=7)
    book.move(first, "set", "hatched", 7)
    book.move(first, "hatched", "brooding", 7, place=brooder)
    book.write("marked", {"lot": first, "webs": ["LO"], "n": 7})
    cock = book.write("bird", {"name": "Ben", "sex": "male", "family": rowan})
    hen = book.write("bird", {"name": "Ann", "sex": "female", "family": rowan, "sires": [{"bird": cock, "share": 1}]})
    book.write("penned", {"family": rowan, "since": "2026-01-01", "sires": [{"bird": cock}], "dams": [{"bird": hen}]})
    book.write("air", {"place": place, "dry_c": 37.5, "wet_c": 29.0})
    book.write("eggs_weighed", {"setting": setting, "n": 12, "gross_g": 720, "tare_g": 40})
    book.write("gathered", {"family": rowan, "on": "2026-03-06", "n": 5, "kept": 4})
    book.write("weighed", {"lot": first, "birds": [{"mass_g": 410}, {"mass_g": 395}], "on": "2026-05-01"})
    book.write("care", {"place": place, "task": "air", "on": "2026-03-08T13:00:00Z"})
    return book.documents


async def put(app: Any, request: OddRequest) -> tuple[int, dict[bytes, bytes], bytes]:
    """One request to the app itself, without a socket: status, headers, body."""
    started: dict[str, Any] = {}
    content = bytearray()
    sent = False

    async def receive() -> dict[str, Any]:
        nonlocal sent
        if sent:
            return {"type": "http.disconnect"}
        sent = True
        return {"type": "http.request", "body": request.body, "more_body": False}

    async def send(message: Any) -> None:
        if message["type"] == "http.response.start":
            started.update(message)
        else:
            content.extend(message.get("body", b""))

    path = request.path.encode("utf-8", "replace")
    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": request.method,
        "scheme": "http",
        "path": path.decode("utf-8", "replace"),
        "raw_path": path,
        "query_string": request.query.encode("latin-1", "replace"),
        "root_path": "",
        "headers": [(name.encode(), value.encode("latin-1", "replace")) for name, value in request.headers],
        "client": ("127.0.0.1", 50_000),
        "server": ("127.0.0.1", PORT),
    }
    await app(scope, receive, send)
    return started["status"], dict(started["headers"]), bytes(content)


@pytest.fixture
def known(tmp_path):
    clock = HandClock()
    with serving(tmp_path / "book", clock, secrets.token_bytes) as server:
        documents = season()
        keeper = server.paired("keeper")
        push(keeper, *documents)
        shelf: Shelf = server.desk.writer.shelf
        shelf.sensors.add("5e45", next(one["id"] for one in documents if one["kind"] == "place"), "Probe", "probe")
        routes = [
            (method, route.path)
            for route in route_table(server.desk)
            if isinstance(route, Route)
            for method in (route.methods or set()) - {"HEAD"}
        ]
        cookies = {role: server.paired(role).cookies[f"broodline_{PORT}"] for role in ("helper", "reader")}
        cookies["keeper"] = keeper.cookies[f"broodline_{PORT}"]
        yield (
            server,
            clock,
            Known(
                ids=[*(one["id"] for one in documents), "00000000-0000-7000-8000-000000000000", *fold_lots(documents)],
                entries=documents,
                subscription=PushService().subscription(),
                cookies={role: f"broodline_{PORT}={token}" for role, token in cookies.items()},
                sensor_token="probe",
                calendar_path=keeper.post("/api/v1/calendar", json={}).json()["path"],
                routes=routes,
                own=OWN,
            ),
        )


def fold_lots(documents: list[dict[str, Any]]) -> list[str]:
    return list(fold([read_entry(one) for one in documents]).lots)


def test_ten_thousand_odd_requests_and_not_one_fault_of_our_own(known):
    server, clock, seen = known
    app = create_app(server.desk)
    statuses: Counter[int] = Counter()
    by_route: Counter[str] = Counter()

    async def all_of_them() -> None:
        for number, request in enumerate(odd_requests(random.Random(SEED), seen, REQUESTS)):
            clock.go_on(seconds=13)  # so that tries do not run into their limits all the time
            where = f"seed {SEED}, request {number}: {request}"
            try:
                status, headers, content = await put(app, request)
            except Exception as fault:
                raise AssertionError(f"{where}: {fault!r}") from fault
            assert status in ALLOWED, f"{where}: {status} {content[:300]!r}"
            assert headers[b"content-security-policy"].startswith(b"default-src 'none'"), where
            assert headers[b"x-content-type-options"] == b"nosniff", where
            if status >= 400 and headers.get(b"content-type") == b"application/json":
                assert set(json.loads(content)["error"]) >= {"code", "message", "remedy"}, where
            statuses[status] += 1
            by_route[request.path.split("/")[-1]] += 1

    asyncio.run(all_of_them())
    assert sum(statuses.values()) == REQUESTS
    assert min(statuses[status] for status in (200, 400, 401, 403, 404)) > 100, statuses  # each door was tried


STANDING = fold([])


def read_table(name: str, raw: bytes) -> object:
    """As the route does, with the entries it would write and their undoing."""
    now = HandClock().now
    found = read_sheets(name, raw, Told(), STANDING, now)
    return undo_entries(found, fold(found.entries), now)


PARSERS: dict[str, Callable[[bytes], object]] = {
    "json": load_json,
    "batch": read_batch,
    "pair": read_pair_request,
    "reading": lambda raw: read_reading(raw, HandClock().now),
    "wishes": lambda raw: read_wishes(load_json(raw)),
    "entry": lambda raw: read_entry(load_json(raw)),
    "lines": lambda raw: list(read_lines(raw.split(b"\n"))),
    "address": lambda raw: is_push_address(raw.decode("latin-1")),
    "csv": lambda raw: read_table("eggs.csv", raw),
    "xlsx": lambda raw: read_table("eggs.xlsx", raw),
    "travel": lambda raw: read_arrival(raw, STANDING, HandClock().now, HandClock().now.date(), "bought", None),
    "base64": lambda raw: _content(object_in(raw)),
}
FILES = {"csv": 600, "xlsx": 150, "travel": 600, "base64": 600}  # a workbook takes its time


def object_in(raw: bytes) -> dict[str, Any]:
    words = load_json(raw)
    return words if isinstance(words, dict) else {}


@pytest.mark.parametrize("parser", PARSERS)
def test_odd_bytes_are_read_or_refused_in_words(parser):
    chance = random.Random(SEED)
    documents = season()
    some = Known([one["id"] for one in documents], documents, {}, {}, "", "", [], OWN)
    refused: list[tuple[int, str, str]] = []
    read = 0
    for number in range(FILES.get(parser, PARSED // 8)):
        value: Any = chance.choice(documents)
        for _ in range(chance.randrange(3)):
            value = bent(chance, value, some)
        raw = as_bytes(chance, {"v": 1, "entries": [value]} if parser == "batch" else value)
        if parser in ODD_FILES:
            raw = ODD_FILES[parser](chance, some)
        try:
            PARSERS[parser](raw)
            read += 1
        except BroodlineError as fault:
            refused.append((number, fault.message, fault.remedy))
        except Exception as fault:
            raise AssertionError(f"seed {SEED}, {number}: {raw[:300]!r}") from fault
    assert [one for one in refused if not (one[1] and one[2])] == []
    assert len(refused) > (20 if parser in FILES else 100) or parser in ("lines", "address")
    assert read > 20 or parser not in FILES  # some of what is odd can be read all the same
