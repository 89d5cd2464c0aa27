"""Reminders that are sent: once, to the devices that asked, and what each answer of a push service leads to.

The push service is one on this machine (push_service.py); everything else is the server's own, wired as it runs.
"""

import asyncio
from datetime import UTC, datetime

import pytest
from anyio import create_task_group

from broodline.jobs import push_line, push_sender, reminders
from broodline.jobs.push_line import post
from broodline.jobs.reminders import remind, remind_by_itself
from broodline.jobs.web_push import signature
from broodline.settings import Settings
from broodline.web.app import open_desk
from tests.book_writer import BookWriter
from tests.server.jobs.push_service import ENDPOINT, HANG, push_service

ASKED_AT = datetime(2026, 3, 10, 12, 0, tzinfo=UTC)
SET_AT = datetime(2026, 3, 11, 20, 0, tzinfo=UTC)
LOCKDOWN_EVENING = datetime(2026, 3, 28, 18, 0, tzinfo=UTC)
LOCKDOWN_MORNING = datetime(2026, 3, 29, 6, 0, tzinfo=UTC)  # 07:00 in Dublin, the night after the clocks moved


@pytest.fixture
def service():
    with push_service() as running:
        yield running


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "book"


@pytest.fixture
def desk(folder, clock, chance, service):
    """A server with 12 eggs set, and one phone that asked to be reminded of lockdown."""
    clock.now = ASKED_AT
    opened = open_desk(Settings(folder), clock, chance, service.way)
    shelf = opened.writer.shelf
    writer = BookWriter()
    writer.keeper()
    writer.set_eggs(writer.incubator(), [(writer.lot(), writer.family("Rowan"), 12)], set_at=SET_AT)
    holding = shelf.holdings.current().id
    shelf.log.append(holding, writer.entries(), "phone-1")
    shelf.devices.add(holding, "phone-1", "Shed phone", "keeper", "token")
    subscribe(shelf, service)
    yield opened
    opened.close()


def subscribe(shelf, service, endpoint=ENDPOINT, device="phone-1"):
    wishes = '{"what": ["lockdown"]}'
    shelf.reminders.subscribe(device, endpoint, service.p256dh, service.auth, "https://book.example", wishes)


def run_once(desk, clock):
    return asyncio.run(remind(desk.look, desk.writer.run, desk.push.send, clock()))


def titles(service):
    return [message["notification"]["title"] for _, _, message in service.received]


def state(desk):
    return desk.writer.shelf.reminders.of("phone-1")


def test_a_lockdown_reminder_arrives_once_at_the_hour_across_dst(desk, clock, service):
    for hour in range(18, 24):
        clock.now = LOCKDOWN_EVENING.replace(hour=hour)
        run_once(desk, clock)
    assert titles(service) == ["Lockdown: Sunday 29 March"]
    for minute in range(-60, 180, 20):
        clock.now = LOCKDOWN_MORNING
        clock.go_on(minutes=minute)
        run_once(desk, clock)
        assert len(service.received) == (2 if minute >= 0 else 1)
    assert titles(service) == ["Lockdown: Sunday 29 March", "Lockdown: Sunday 29 March"]
    path, headers, message = service.received[1]
    assert path == "/fcm/send/phone-1"
    assert (headers["content-encoding"], headers["urgency"], headers["ttl"]) == ("aes128gcm", "normal", str(17 * 3600))
    assert headers["authorization"].startswith("vapid t=")
    assert headers["host"] == "fcm.googleapis.com"
    assert headers["topic"] == message["notification"]["tag"] == service.received[0][1]["topic"]
    assert message["notification"]["navigate"].startswith("https://book.example/setting/")
    assert message["notification"]["renotify"] is True, "the second of one tag is heard too"


def test_a_server_that_was_down_at_the_hour_sends_once_after_its_start_and_says_so(
    desk, clock, chance, service, folder
):
    desk.close()
    clock.now = datetime(2026, 3, 30, 5, 0, tzinfo=UTC)
    for _ in range(2):  # and stopped again, and started again
        started = open_desk(Settings(folder), clock, chance, service.way)
        run_once(started, clock)
        started.close()
    assert titles(service) == ["Lockdown: was due on Sunday 29 March"]


@pytest.mark.parametrize("status", [404, 410])
def test_an_address_that_is_gone_is_forgotten_and_the_choice_kept(desk, clock, service, status):
    service.answers = [status]
    clock.now = LOCKDOWN_MORNING
    [(_, outcome)] = run_once(desk, clock)
    assert (outcome.sent, outcome.ended) == (False, True)
    assert (state(desk).endpoint, state(desk).p256dh, state(desk).auth) == ("", b"", b"")
    assert "lockdown" in state(desk).wishes
    assert run_once(desk, clock) == []
    service.answers = [201]
    subscribe(desk.writer.shelf, service, ENDPOINT + "-again")  # the phone comes back: it still gets this one
    assert [outcome.sent for _, outcome in run_once(desk, clock)] == [True]


@pytest.mark.parametrize("status", [401, 403, 429, 500, 503])
def test_a_refusal_that_may_pass_never_forgets_the_address_and_is_tried_again(desk, clock, service, status):
    service.answers = [status, status, 201]
    clock.now = LOCKDOWN_MORNING
    counts = []
    for _ in range(10):
        run_once(desk, clock)
        counts.append(len(service.received))
        clock.go_on(seconds=60)
    assert counts == [1, 2, 2, 3, 3, 3, 3, 3, 3, 3]  # after one minute, then after two; then it was taken
    assert (state(desk).endpoint, state(desk).told_well) == (ENDPOINT, 1)


@pytest.mark.parametrize("status", [307, 301, 413, 400])
def test_an_answer_that_will_not_change_is_not_asked_for_again(desk, clock, service, status):
    service.answers = [status]
    clock.now = LOCKDOWN_MORNING
    for _ in range(3):
        run_once(desk, clock)
        clock.go_on(hours=1)
    assert [path for path, _, _ in service.received] == ["/fcm/send/phone-1"]
    assert (state(desk).endpoint, state(desk).told_well) == (ENDPOINT, 0)
    assert str(status) in state(desk).outcome or "too long" in state(desk).outcome


def test_the_service_refuses_a_signature_that_is_not_for_it_or_was_changed(desk, clock, service, monkeypatch):
    """So that each message of these tests that was taken was signed as RFC 8292 asks."""
    clock.now = LOCKDOWN_MORNING
    for spoil in (
        lambda key, endpoint, contact, now: signature(key, "https://web.push.apple.com/x", contact, now),
        lambda *told: signature(*told).replace("vapid t=", "vapid t=ey"),
    ):
        monkeypatch.setattr(push_sender, "signature", spoil)
        [(_, outcome)] = run_once(desk, clock)
        assert (outcome.status, outcome.sent, outcome.again) == (403, False, True)
        clock.go_on(hours=1)
    monkeypatch.setattr(push_sender, "signature", signature)
    assert [outcome.status for _, outcome in run_once(desk, clock)] == [201]


def test_a_service_that_hangs_is_left_alone_and_tried_again(desk, clock, service, monkeypatch):
    monkeypatch.setattr(post, "__defaults__", (0.3,))
    service.answers = [HANG, 201]
    clock.now = LOCKDOWN_MORNING
    [(_, hung)] = run_once(desk, clock)
    assert (hung.sent, hung.again) == (False, True)
    clock.go_on(minutes=2)
    [(_, then)] = run_once(desk, clock)
    assert then.sent


def test_an_address_that_leads_into_the_house_is_not_called(desk, clock, service):
    clock.now = LOCKDOWN_MORNING

    def way(endpoint):
        return push_line.public_way(endpoint, lambda _: ["169.254.169.254"])

    sender = type(desk.push)(desk.push.key, desk.push.contact, clock.ms, way)
    [(_, outcome)] = asyncio.run(remind(desk.look, desk.writer.run, sender.send, clock()))
    assert (outcome.sent, service.received) == (False, [])
    assert "private network" in state(desk).outcome


def test_a_revoked_device_is_told_nothing(desk, clock, service):
    desk.writer.shelf.devices.revoke("phone-1")
    clock.now = LOCKDOWN_MORNING
    assert run_once(desk, clock) == []


def test_a_phone_that_was_paired_again_is_reminded_once(desk, clock, service):
    shelf = desk.writer.shelf
    shelf.devices.add(shelf.holdings.current().id, "phone-2", "Shed phone", "keeper", "another")
    subscribe(shelf, service, device="phone-2")
    clock.now = LOCKDOWN_MORNING
    assert [waiting.to.device for waiting, _ in run_once(desk, clock)] == ["phone-2"]


def test_it_goes_on_by_itself_and_what_goes_wrong_is_told(desk, clock, service, monkeypatch):
    monkeypatch.setattr(reminders, "EVERY_S", 0.01)
    service.answers = [403, 201]
    clock.now = LOCKDOWN_MORNING
    told: list[str] = []

    async def a_while():
        async with create_task_group() as jobs:  # as the app ends it: it waits for the thread that is writing
            jobs.start_soon(remind_by_itself, desk.look, desk.writer.run, desk.push.send, clock, told.append)
            while len(service.received) < 2:
                await asyncio.sleep(0.01)
                clock.go_on(seconds=20)
            jobs.cancel_scope.cancel()

    asyncio.run(asyncio.wait_for(a_while(), 20))
    [words] = told
    assert words.startswith("A reminder for Shed phone was not sent.")
    assert "403" in words
    assert ENDPOINT not in words


def test_a_fault_of_our_own_ends_one_round_and_not_the_server(desk, clock, service, monkeypatch):
    """Whatever a round fails with is told by its place, without words of the book, and the next round is made."""
    monkeypatch.setattr(reminders, "EVERY_S", 0.01)
    clock.now = LOCKDOWN_MORNING
    told: list[str] = []
    faults = [ZeroDivisionError("Rowan's eggs"), KeyError("Rowan"), RecursionError(), MemoryError()]

    async def look(question):
        if faults:
            raise faults.pop()
        return await desk.look(question)

    async def a_while():
        async with create_task_group() as jobs:
            jobs.start_soon(remind_by_itself, look, desk.writer.run, desk.push.send, clock, told.append)
            while not service.received:
                await asyncio.sleep(0.01)
            jobs.cancel_scope.cancel()

    asyncio.run(asyncio.wait_for(a_while(), 20))
    assert titles(service) == ["Lockdown: Sunday 29 March"]
    assert [words.split(":")[1].split()[0] for words in told] == [
        *("MemoryError", "RecursionError", "KeyError", "ZeroDivisionError"),
    ]
    assert "test_reminders.py, line" in told[0]
    assert not any("Rowan" in words for words in told)


def test_a_fault_with_one_device_leaves_the_others_their_reminders(desk, clock, service):
    """The one it failed with is tried again later, as after any other hindrance."""
    shelf = desk.writer.shelf
    shelf.devices.add(shelf.holdings.current().id, "phone-0", "Hen house", "keeper", "another")
    subscribe(shelf, service, ENDPOINT + "-0", device="phone-0")
    clock.now = LOCKDOWN_MORNING

    def send(to, message, **more):
        if to.device == "phone-0":
            raise KeyError("Rowan")
        return desk.push.send(to, message, **more)

    told = asyncio.run(remind(desk.look, desk.writer.run, send, clock()))
    outcomes = {waiting.to.device: outcome for waiting, outcome in told}
    assert {device: (one.sent, one.again) for device, one in outcomes.items()} == {
        "phone-0": (False, True),
        "phone-1": (True, False),
    }
    assert titles(service) == ["Lockdown: Sunday 29 March"]
    assert "KeyError in test_reminders.py" in outcomes["phone-0"].words
    assert "Rowan" not in outcomes["phone-0"].words
