"""The journal: what a line tells, what never stands in it, and the id by which a keeper's trouble is found."""

import json
import re

import pytest
from starlette.testclient import TestClient

from broodline.web.app import create_app
from tests.book_writer import BookWriter
from tests.server.web.conftest import OWN


@pytest.fixture
def lines():
    return []


@pytest.fixture
def browser(server, lines):
    app = create_app(server.desk, write=lines.append)
    return TestClient(
        app, base_url=OWN, client=("127.0.0.1", 50_000), headers={"origin": OWN}, raise_server_exceptions=False
    )


def test_a_change_and_a_refusal_have_a_line_and_reading_has_none(server, browser, lines):
    code = server.code()
    browser.post("/api/v1/pair", json={"code": code, "name": "Shed phone"})
    device = browser.get("/api/v1/me").json()["device"]
    browser.post("/api/v1/push", json={"v": 1, "entries": []})
    browser.delete("/api/v1/devices/nobody")
    browser.get("/api/v1/devices", headers={"cookie": "broodline_8471=wrong"})
    told = [json.loads(line) for line in lines]
    assert [(one["method"], one["route"], one["status"], one["device"]) for one in told] == [
        ("POST", "/api/v1/pair", 200, None),
        ("POST", "/api/v1/push", 200, device),
        ("DELETE", "/api/v1/devices/{id}", 404, device),
        ("GET", "/api/v1/devices", 401, None),
    ]
    assert all(set(one) == {"at", "id", "method", "route", "status", "ms", "from", "device"} for one in told)
    assert told[0]["at"] == "2026-03-08T12:00:00.000Z"
    assert len({one["id"] for one in told}) == 4


def test_every_reply_names_its_request_and_no_id_comes_from_outside(browser, lines):
    answers = [
        browser.get(path, headers={"x-request-id": "mine"}) for path in ("/", "/healthz", "/api/v1/pull", "/no.js")
    ]
    ids = [answer.headers["x-request-id"] for answer in answers]
    assert len(set(ids)) == 4
    assert all(re.fullmatch(r"[0-9a-f]{8}-\d+", one) for one in ids)
    assert [json.loads(line)["id"] for line in lines] == ids[2:]


def test_no_secret_and_no_word_of_a_keeper_stands_in_it(server, browser, lines):
    """Codes, cookies, feeds, sensors' tokens, subscriptions, names, notes: all sent, well and wrongly."""
    code = server.code()
    browser.post("/api/v1/pair", json={"code": code, "name": "Grandmother's phone"})
    token = browser.cookies["broodline_8471"]
    feed = browser.post("/api/v1/calendar", json={}).json()["path"]
    secret = feed.split("/")[2].removesuffix(".ics")
    for path in (
        feed,
        feed + "x",
        f"/calendar/{secret}",
        f"/api/v1/pull?cursor={secret}",
        f"/{secret}",
        f"/api/{secret}",
    ):
        browser.get(path)
        browser.delete(path)
    writer = BookWriter()
    writer.write("note", {"text": "the vet's bill"})
    browser.post("/api/v1/push", json={"v": 1, "entries": writer.documents})
    browser.post("/api/v1/push", json={"v": 1, "entries": [{"note": "the vet's bill"}]})
    browser.post("/api/v1/air", json={"dry_c": 37}, headers={"authorization": "Bearer probe-secret"})
    browser.request("SECRET-METHOD", "/api/v1/push")
    browser.post("/api/v1/reminders/subscription", json={"subscription": {"endpoint": "https://evil.example/endpoint"}})
    assert len(lines) > 12
    said = "\n".join(lines)
    for kept in (code, token, secret, "Grandmother", "vet", "probe-secret", "evil.example", "SECRET-METHOD"):
        assert kept not in said


def test_a_fault_of_our_own_says_of_what_kind_and_not_with_which_words(server, browser, lines, monkeypatch):
    browser.post("/api/v1/pair", json={"code": server.code(), "name": "phone"})

    def fail(*_):
        raise RuntimeError("the vet's bill")

    monkeypatch.setattr(type(server.desk.reader.shelf.log), "read", fail)
    answer = browser.get("/api/v1/pull")
    told = json.loads(lines[-1])
    assert (answer.status_code, told["status"], told["fault"]) == (500, 500, "RuntimeError")
    assert answer.headers["x-request-id"] == told["id"]
    assert "vet" not in lines[-1]
