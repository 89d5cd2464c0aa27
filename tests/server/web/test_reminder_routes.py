"""Reminders over HTTP: asked for, tried out, stopped; and the addresses nobody may be made to write to."""

import pytest
from starlette.testclient import TestClient

from broodline.web.app import create_app
from tests.book_writer import BookWriter
from tests.server.jobs.push_service import ENDPOINT, push_service
from tests.server.web.conftest import OWN, serving
from tests.server.web.test_refusals import assert_refused
from tests.server.web.test_sync_routes import push

SUBSCRIPTION = "/api/v1/reminders/subscription"
OFF = {"on": False, "working": None, "wishes": None, "last": None}
WISHES = {"what": ["lockdown"], "at": "06:30", "evening": "19:00", "quiet": {"from": "22:00", "until": "06:00"}}


@pytest.fixture
def service():
    with push_service() as running:
        yield running


@pytest.fixture
def running(tmp_path, clock, chance, service):
    with serving(tmp_path / "book", clock, chance, service.way) as server:
        yield server


def ask(browser, service, **more):
    return browser.post(SUBSCRIPTION, json={"subscription": service.subscription(), "wishes": WISHES, **more})


@pytest.mark.parametrize("role", ["keeper", "helper", "reader"])
def test_a_phone_asks_tries_and_stops(running, service, clock, role):
    phone = running.paired(role)
    assert phone.get(SUBSCRIPTION).json() == OFF
    assert phone.get("/api/v1/reminders/key").json() == {"key": running.desk.push.key.public}
    told = ask(phone, service).json()
    assert told == {"on": True, "working": None, "wishes": WISHES, "last": None}
    tried = phone.post("/api/v1/reminders/try", json={}).json()
    assert (tried["sent"], tried["working"], tried["last"]["at"]) == (True, True, "2026-03-08T12:00:00.000Z")
    [(_, headers, message)] = service.received
    assert message["notification"]["navigate"] == f"{OWN}/phone"
    assert (message["web_push"], headers["ttl"], headers["urgency"]) == (8030, "60", "high")
    assert phone.get(SUBSCRIPTION).json()["working"] is True
    assert phone.delete(SUBSCRIPTION).json() == OFF == phone.get(SUBSCRIPTION).json()
    assert_refused(phone.post("/api/v1/reminders/try", json={}), 404, "not_found")


def test_said_again_at_each_start_it_stays_as_it_was(running, service, clock):
    phone = running.paired()
    ask(phone, service)
    since = running.desk.writer.shelf.reminders.to_remind()[0].since_ms
    phone.post("/api/v1/reminders/try", json={})
    clock.go_on(days=3)
    again = phone.post(SUBSCRIPTION, json={"subscription": service.subscription()}).json()
    assert (again["working"], again["wishes"]) == (True, WISHES)
    [held] = running.desk.writer.shelf.reminders.to_remind()
    assert (held.since_ms, held.endpoint) == (since, ENDPOINT)


def test_paired_again_it_is_reminded_as_before_and_of_nothing_twice(running, service, clock):
    """The browser's address stays when its pairing is ended and made anew; its new device goes on under it."""
    phone, shelf = running.paired(), running.desk.writer.shelf
    ask(phone, service)
    [first] = shelf.reminders.to_remind()
    shelf.reminders.note(first.device, "lockdown/1", "sent", done=True)
    shelf.devices.revoke(first.device)
    clock.go_on(days=1)
    phone.post("/api/v1/pair", json={"code": running.code(), "name": "phone"})
    assert phone.get(SUBSCRIPTION).json() == OFF
    told = phone.post(SUBSCRIPTION, json={"subscription": service.subscription()}).json()
    assert (told["on"], told["wishes"]) == (True, WISHES)
    [held] = shelf.reminders.to_remind()
    assert (held.device != first.device, held.since_ms) == (True, first.since_ms)
    clock.go_on(seconds=1)
    shelf.reminders.note(held.device, "lockdown/2", "waits", done=False, wait_ms=60_000)
    assert shelf.reminders.settled(held.device) == {"lockdown/1", "lockdown/2"}
    assert shelf.reminders.of(first.device) is None


def test_what_a_device_wished_itself_is_not_overwritten_by_an_earlier_one(running, service):
    ask(running.paired(), service)
    phone = running.paired()
    other = {**service.subscription(ENDPOINT + "-2")}
    phone.post(SUBSCRIPTION, json={"subscription": other, "wishes": {"what": ["candle"]}})
    told = phone.post(SUBSCRIPTION, json={"subscription": service.subscription()}).json()
    assert told["wishes"]["what"] == ["candle"]
    assert len(running.desk.writer.shelf.reminders.to_remind()) == 1


def test_a_push_service_the_server_was_told_of_is_taken(tmp_path, clock, chance, service):
    named = {"push_services": frozenset({"push.example"}), "contact": "mailto:ann@farm.example"}
    with serving(tmp_path / "book", clock, chance, service.way, **named) as running:
        phone = running.paired()
        refused = ask(phone, service, subscription=service.subscription("https://other.example/1"))
        assert_refused(refused, 400, "envelope")
        assert "--push-service" in refused.json()["error"]["remedy"]
        assert ask(phone, service, subscription=service.subscription("https://push.example/1")).status_code == 200
        assert phone.post("/api/v1/reminders/try", json={}).json()["words"]
        assert service.subjects == ["mailto:ann@farm.example"]


@pytest.mark.parametrize(("status", "on"), [(410, False), (404, False), (403, True), (500, True), (307, True)])
def test_a_trial_says_what_happened(running, service, status, on):
    phone = running.paired()
    ask(phone, service)
    service.answers = [status]
    tried = phone.post("/api/v1/reminders/try", json={}).json()
    assert (tried["sent"], tried["working"], tried["on"]) == (False, False, on)
    assert tried["words"] == tried["last"]["words"]
    assert tried["wishes"] == WISHES
    assert str(status) in tried["words"] or "no longer knows" in tried["words"]


def test_trials_are_counted_by_device(running, service):
    phone, other = running.paired(), running.paired()
    ask(phone, service)
    for _ in range(5):
        assert phone.post("/api/v1/reminders/try", json={}).status_code == 200
    assert_refused(phone.post("/api/v1/reminders/try", json={}), 429, "too_many_tries")
    assert_refused(other.post("/api/v1/reminders/try", json={}), 404, "not_found")


@pytest.mark.parametrize(
    "endpoint",
    ["http://fcm.googleapis.com/x", "https://169.254.169.254/latest", "https://192.168.1.1/admin", "x", "", None, 3],
)
def test_an_address_that_is_no_push_service_is_not_kept(running, service, endpoint):
    phone = running.paired()
    answer = ask(phone, service, subscription=service.subscription(endpoint))
    assert_refused(answer, 400, "envelope")
    assert answer.json()["error"]["field"] == "endpoint"
    assert running.desk.writer.shelf.reminders.to_remind() == []


@pytest.mark.parametrize(
    "odd",
    [
        {"subscription": None}, {"subscription": []}, {"subscription": {"endpoint": ENDPOINT}},
        {"subscription": {"endpoint": ENDPOINT, "keys": {"p256dh": "!", "auth": "AAAA"}}},
        {"subscription": {"endpoint": ENDPOINT, "keys": {"p256dh": 3, "auth": None}}},
        {"subscription": {"endpoint": ENDPOINT, "keys": {"p256dh": "B" * 87, "auth": "A" * 22}}},
        {"wishes": []}, {"wishes": {"at": "25:00"}},
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(running, service, odd):
    assert_refused(ask(running.paired(), service, **odd), 400, "envelope")


def test_a_secret_that_is_too_short_and_a_body_that_is_no_object(running, service):
    phone, asked = running.paired(), service.subscription()
    asked["keys"]["auth"] = "AAAA"
    assert ask(phone, service, subscription=asked).json()["error"]["field"] == "auth"
    assert_refused(phone.post(SUBSCRIPTION, json=[]), 400, "envelope")


def test_a_running_server_sends_by_itself(running, service, clock):
    """Through the whole life of the app: started, a lockdown reminder sent, stopped."""
    phone = running.paired()
    writer = BookWriter()
    writer.keeper()
    writer.set_eggs(writer.incubator(), [(writer.lot(), writer.family("Rowan"), 12)])  # lockdown on 19 March
    push(phone, *writer.documents)
    ask(phone, service)
    clock.now = clock.now.replace(day=18, hour=19, minute=30)
    with TestClient(create_app(running.desk), base_url=OWN) as started:
        while not service.received:
            assert started.get("/healthz").status_code == 200
    [(_, _, message)] = service.received
    assert message["notification"]["title"] == "Lockdown: Thursday 19 March"
