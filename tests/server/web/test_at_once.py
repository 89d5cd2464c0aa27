"""Requests that come at once, as a program sends them that wants to get past a limit: the limit holds all the same."""

import asyncio
import json
from collections import Counter

import httpx2 as httpx

from broodline.sync.pairing import WRONG_TRIES
from broodline.sync.sensors import MOST_A_MINUTE
from broodline.web import import_routes
from broodline.web.imports import read_sheet
from tests.server.cli.commands import document
from tests.server.exchange.test_sheets_in import FAMILIES
from tests.server.jobs.push_service import push_service
from tests.server.web.conftest import OWN, serving

AT_ONCE = 30


def all_at_once(server, requests, **headers):
    """The statuses of all requests, sent before any was answered. requests: (path, body)."""

    told = {"origin": OWN, "content-type": "application/json", **headers}

    async def in_pieces(body):
        """As over a slow line: each has passed its first check before the last piece of any is there."""
        for letter in json.dumps(body).encode():
            await asyncio.sleep(0)
            yield bytes([letter])

    async def ask():
        transport = httpx.ASGITransport(server.app, client=("127.0.0.1", 50_000))
        async with httpx.AsyncClient(transport=transport, base_url=OWN, headers=told) as program:
            return await asyncio.gather(*(program.post(path, content=in_pieces(body)) for path, body in requests))

    return Counter(answer.status_code for answer in asyncio.run(ask()))


def test_wrong_codes_at_once_are_no_more_tries_than_one_after_another(server):
    told = all_at_once(server, [("/api/v1/pair", {"code": f"WR0NG{n:03}", "name": "x"}) for n in range(AT_ONCE)])
    assert told == {401: WRONG_TRIES, 429: AT_ONCE - WRONG_TRIES}


def test_a_right_code_behind_wrong_ones_sent_at_once_opens_nothing(server):
    wrong = [("/api/v1/pair", {"code": f"WR0NG{n:03}", "name": "x"}) for n in range(WRONG_TRIES)]
    told = all_at_once(server, [*wrong, ("/api/v1/pair", {"code": server.code(), "name": "x"})])
    assert told == {401: WRONG_TRIES, 429: 1}
    assert server.desk.writer.shelf.devices.all() == []


def test_trials_of_reminders_at_once_send_no_more_than_five(tmp_path, clock, chance):
    with push_service() as service, serving(tmp_path / "book", clock, chance, service.way) as server:
        phone = server.paired()
        phone.post("/api/v1/reminders/subscription", json={"subscription": service.subscription()})
        [(name, token)] = phone.cookies.items()
        told = all_at_once(server, [("/api/v1/reminders/try", {})] * AT_ONCE, cookie=f"{name}={token}")
        assert told == {200: WRONG_TRIES, 429: AT_ONCE - WRONG_TRIES}
        assert len(service.received) == WRONG_TRIES


def test_a_push_is_answered_while_a_long_copy_is_taken_in(server):
    [(name, token)] = server.paired().cookies.items()
    told = {"origin": OWN, "cookie": f"{name}={token}"}
    lines = "\n".join(json.dumps(document(n)) for n in range(1, 3001))

    async def ask():
        transport = httpx.ASGITransport(server.app, client=("127.0.0.1", 50_000))
        async with httpx.AsyncClient(transport=transport, base_url=OWN, headers=told, timeout=60) as program:
            copy = asyncio.create_task(program.post("/api/v1/imports/book", json={"name": "x.jsonl", "text": lines}))
            while server.desk.writer.turn.borrowed_tokens == 0:  # until the first lines are written
                await asyncio.sleep(0.001)
            pushed = await program.post("/api/v1/push", json={"v": 1, "entries": [document(5000)]})
            first = not copy.done()
            return pushed.json()["results"][0]["position"], first, (await copy).json()

    position, first, answer = asyncio.run(ask())
    assert first
    assert position < 3001, "it was stored between the lines of the copy"
    assert (answer["added"], answer["bad"]) == (3000, [])


def test_a_table_is_read_without_the_pen(server, monkeypatch):
    """Reading one folds the book: pushes must not wait for that."""
    held = []

    def look(*words, **more):
        held.append(server.desk.writer.turn.borrowed_tokens)
        return read_sheet(*words, **more)

    monkeypatch.setattr(import_routes, "read_sheet", look)
    answer = server.paired().post("/api/v1/imports/sheet", json={"name": "families.csv", "text": FAMILIES})
    assert (answer.json()["added"], held) == (3, [0])


def test_wrong_tokens_and_readings_at_once_are_counted_too(server, clock):
    readings = [("/api/v1/air", {"dry_c": 37.5})] * AT_ONCE
    many = MOST_A_MINUTE + AT_ONCE
    assert all_at_once(server, readings, authorization="Bearer wrong") == {401: WRONG_TRIES, 429: AT_ONCE - WRONG_TRIES}
    clock.go_on(minutes=2)
    server.desk.writer.shelf.sensors.add("5e45", "a-place", "Loft probe", "right")
    assert all_at_once(server, readings[:1] * many, authorization="Bearer right") == {
        200: MOST_A_MINUTE,
        429: AT_ONCE,
    }
