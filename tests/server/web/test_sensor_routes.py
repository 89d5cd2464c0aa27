"""Thermometers over HTTP: their token instead of a cookie, what is kept of what they say, and their end."""

import asyncio
from datetime import UTC, datetime

import pytest

from broodline.jobs.push_sender import Outcome
from broodline.jobs.reminders import remind
from broodline.store.sensors import Sensor
from tests.book_writer import BookWriter
from tests.server.web.conftest import OWN
from tests.server.web.test_refusals import assert_guarded, assert_refused
from tests.server.web.test_sync_routes import push

AIR = "/api/v1/air"
JSON = {"content-type": "application/json"}


@pytest.fixture
def keeper(server):
    phone = server.paired()
    writer = BookWriter()
    writer.keeper()
    family, place = writer.family("Rowan"), writer.incubator()
    writer.set_eggs(place, [(writer.lot(), family, 12)], set_at=datetime(2026, 3, 7, 20, 0, tzinfo=UTC))
    push(phone, *writer.documents)
    phone.place = place
    return phone


@pytest.fixture
def sensor(server, keeper) -> Sensor:
    return server.desk.writer.shelf.sensors.add("5e45", keeper.place, "Loft probe", "the-token")


def speaker(server, token="the-token", peer="192.168.1.30"):
    """A small program in the house: no origin, no cookie."""
    program = server.browser(peer=peer, origin=None)
    if token is not None:
        program.headers["authorization"] = f"Bearer {token}"
    return program


def entries(keeper):
    rows = keeper.get("/api/v1/pull").json()["entries"]
    return [row["entry"] for row in rows if row["entry"]["kind"] == "air"]


def test_a_reading_becomes_an_entry_of_its_own_that_phones_pull(server, keeper, sensor):
    answer = speaker(server).post(AIR, json={"dry_c": 37.612, "humidity_pct": 51.26})
    assert_guarded(answer)
    assert answer.json() == {"kept": True, "what": "stored", "beyond": False}
    [entry] = entries(keeper)
    assert (entry["device"], entry["at"], entry["zone"]) == ("sensor:5e45", "2026-03-08T12:00:00.000Z", "Europe/Dublin")
    assert entry["body"] == {"place": keeper.place, "dry_c": 37.61, "humidity_pct": 51.3, "by": "sensor"}
    assert entry["id"][14] == "7"
    assert int(entry["id"][:8] + entry["id"][9:13], 16) == server.desk.now_ms()


def test_one_in_ten_minutes_is_kept_and_each_that_leaves_the_band_or_comes_back(server, keeper, sensor, clock):
    said = {0: 37.5, 1: 37.6, 9: 37.7, 10: 37.8, 12: 39.5, 13: 39.6, 14: 37.5, 15: 37.4, 24: 37.5}
    kept = []
    for minute, dry_c in said.items():
        clock.now = datetime(2026, 3, 8, 12, minute, tzinfo=UTC)
        answer = speaker(server).post(AIR, json={"dry_c": dry_c}).json()
        assert answer["beyond"] is (dry_c > 39)
        kept += [minute] if answer["kept"] else []
    assert kept == [0, 10, 12, 14, 24]
    assert [entry["at"][14:16] for entry in entries(keeper)] == ["00", "10", "12", "14", "24"]


def test_amber_hides_no_red_and_the_alarm_of_red_comes_at_once(server, keeper, sensor, clock):
    """Chickens at 37.5 °C: amber beyond 38.89, red from 39.44 (alarms.json). Red above is told at once, amber after two
    hours (reminders.json); all of this is over within ten minutes of the first amber reading."""
    server.desk.writer.shelf.reminders.subscribe(
        keeper.get("/api/v1/me").json()["device"], "https://fcm.googleapis.com/1", b"p", b"a", OWN, '{"what": ["air"]}'
    )
    kept, alarms = [], {}

    def send(to, message, *, topic, lasts_s, urgent=False):
        alarms[clock.now.minute] = urgent
        return Outcome(201, sent=True, ended=False, again=False, words="")

    for minute, dry_c in {1: 37.5, 2: 39.2, 3: 39.3, 4: 41.0, 5: 42.0, 6: 42.0, 7: 39.2, 8: 39.2}.items():
        clock.now = datetime(2026, 3, 8, 12, minute, tzinfo=UTC)
        kept += [dry_c] if speaker(server).post(AIR, json={"dry_c": dry_c}).json()["kept"] else []
        asyncio.run(remind(server.desk.look, server.desk.writer.run, send, clock()))
    assert kept == [37.5, 39.2, 41.0, 39.2]
    assert alarms == {4: True}


def test_hot_that_turns_cold_is_kept_and_so_is_cold_that_turns_red(server, keeper, sensor, clock):
    said = {1: 39.0, 2: 36.0, 3: 36.0, 4: 35.0, 5: 34.0, 6: 39.0, 7: 39.0, 8: 37.5}
    kept = []
    for minute, dry_c in said.items():
        clock.now = datetime(2026, 3, 8, 12, minute, tzinfo=UTC)
        kept += [minute] if speaker(server).post(AIR, json={"dry_c": dry_c}).json()["kept"] else []
    assert kept == [1, 2, 4, 6, 8]


def test_one_that_brings_late_what_it_kept_is_thinned_by_what_lies_nearest(server, keeper, sensor):
    """One that was off the network speaks of now and of then by turns; in whatever order, as many are kept."""
    said = {"12:00": 37.5, "11:30": 37.5, "11:59": 37.6, "11:29": 37.6, "11:31": 37.6, "11:50": 37.5, "11:55": 39.5}
    kept = {}
    for number, (at, dry_c) in enumerate(said.items()):
        body = {"dry_c": dry_c, "at": f"2026-03-08T{at}:00Z"}
        kept[at] = speaker(server, peer=f"192.168.1.{number}").post(AIR, json=body).json()["kept"]
    assert [at for at in kept if kept[at]] == ["12:00", "11:30", "11:50", "11:55"]


def test_two_thermometers_of_one_place_are_thinned_together(server, keeper, sensor, clock):
    server.desk.writer.shelf.sensors.add("0001", keeper.place, "Other", "other-token")
    assert speaker(server).post(AIR, json={"dry_c": 37.5}).json()["kept"]
    clock.go_on(minutes=5)
    assert speaker(server, "other-token").post(AIR, json={"dry_c": 37.5}).json()["what"] == "thinned"


def test_red_is_hidden_by_no_second_thermometer_that_speaks_at_the_same_moment(server, keeper, sensor, clock):
    server.desk.writer.shelf.sensors.add("0001", keeper.place, "Other", "other-token")
    for minute in range(0, 60, 10):
        said = f"2026-03-08T12:{minute:02}:00Z"
        clock.now = datetime(2026, 3, 8, 12, minute, tzinfo=UTC)
        assert speaker(server).post(AIR, json={"dry_c": 37.5, "at": said}).json()["what"] == "stored"
        assert speaker(server, "other-token").post(AIR, json={"dry_c": 42.0, "at": said}).json()["what"] == "stored"
        assert speaker(server, "other-token").post(AIR, json={"dry_c": 42.0, "at": said}).json()["what"] == "duplicate"
        assert speaker(server).post(AIR, json={"dry_c": 37.6, "at": said}).json()["what"] == "clash"
    assert sorted(one["body"]["dry_c"] for one in entries(keeper)) == [37.5] * 6 + [42.0] * 6


def test_the_same_moment_said_again_is_stored_once(server, keeper, sensor, clock):
    said = {"dry_c": 37.5, "at": "2026-03-08T11:59:00Z"}
    assert [speaker(server).post(AIR, json=said).json()["what"] for _ in range(2)] == ["stored", "duplicate"]
    clock.go_on(hours=1)
    speaker(server).post(AIR, json={"dry_c": 37.5})
    assert speaker(server).post(AIR, json=said).json()["what"] == "duplicate"
    assert speaker(server).post(AIR, json={**said, "dry_c": 38.0}).json()["what"] == "clash"
    assert len(entries(keeper)) == 2


def test_it_speaks_sixty_times_a_minute_at_most_and_wrong_tokens_are_counted_too(server, keeper, sensor, clock):
    for _ in range(60):
        assert speaker(server).post(AIR, json={"dry_c": 37.5}).status_code == 200
    answer = speaker(server).post(AIR, json={"dry_c": 37.5})
    assert_refused(answer, 429, "too_many_tries")
    assert 1 <= int(answer.headers["retry-after"]) <= 60
    clock.go_on(minutes=2)
    assert speaker(server).post(AIR, json={"dry_c": 37.5}).status_code == 200
    for _ in range(5):
        assert_refused(speaker(server, "wrong", peer="192.168.1.66").post(AIR, json={"dry_c": 37.5}), 401, "unpaired")
    assert_refused(speaker(server, "wrong", peer="192.168.1.66").post(AIR, json={"dry_c": 37.5}), 429, "too_many_tries")


def test_wrong_tokens_silence_no_thermometer_at_their_address(server, keeper, sensor, clock):
    for _ in range(10):
        assert speaker(server, "revoked").post(AIR, json={"dry_c": 37.5}).status_code in (401, 429)
    assert speaker(server).post(AIR, json={"dry_c": 42.0}).json() == {"kept": True, "what": "stored", "beyond": True}


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({}, "dry_c"), ({"dry_c": None}, "dry_c"), ({"dry_c": "37"}, "dry_c"), ({"dry_c": True}, "dry_c"),
        ({"dry_c": 99.5}, "dry_c"), ({"dry_c": -40}, "dry_c"), ({"dry_c": 37, "humidity_pct": 101}, "humidity_pct"),
        ({"dry_c": 37, "at": "yesterday"}, "at"), ({"dry_c": 37, "at": 5}, "at"),
        ({"dry_c": 37, "at": "2024-02-27T12:00:00Z"}, "at"), ({"dry_c": 37, "at": "2026-03-08T12:06:00Z"}, "at"),
        ({"dry_c": 37, "at": "2026-13-08T12:06:00Z"}, "at"), ({"dry_c": 37, "place": 3}, "place"),
        ({"dry_c": 37, "place": "elsewhere"}, "place"), ([], "$"), ("x", "$"), (3, "$"),
    ],
)  # fmt: skip
def test_what_is_no_reading_is_refused_with_what_to_do(server, keeper, sensor, body, field):
    answer = speaker(server).post(AIR, json=body)
    assert_refused(answer, 400, "envelope")
    assert answer.json()["error"]["field"] == field
    assert entries(keeper) == []


def test_a_token_opens_nothing_else_and_a_cookie_does_not_speak_for_a_thermometer(server, keeper, sensor):
    assert_refused(speaker(server).get("/api/v1/pull"), 401, "unpaired")
    assert_refused(speaker(server).post("/api/v1/push", json={"v": 1, "entries": []}), 403, "origin")
    assert_refused(keeper.post(AIR, json={"dry_c": 37.5}), 401, "unpaired")
    assert_refused(speaker(server, None).post(AIR, json={"dry_c": 37.5}), 403, "origin")
    del keeper.headers["origin"]
    answer = keeper.post(AIR, json={"dry_c": 37.5}, headers={"authorization": "Bearer the-token"})
    assert_refused(answer, 403, "origin")  # a browser's cookie beside it: a page, and not our own


def test_a_revoked_one_is_listened_to_no_longer_and_what_it_wrote_stays(server, keeper, sensor):
    speaker(server).post(AIR, json={"dry_c": 37.5})
    server.desk.writer.shelf.sensors.revoke(sensor.id)
    assert_refused(speaker(server).post(AIR, json={"dry_c": 37.5}), 401, "unpaired")
    assert len(entries(keeper)) == 1
    assert "the-token" not in "\n".join(server.desk.writer.shelf.connection.iterdump())


def test_wrong_type_and_size(server, keeper, sensor):
    answer = speaker(server).post(AIR, content=b'{"dry_c": 37}', headers={"content-type": "text/plain"})
    assert_refused(answer, 400, "envelope")
    assert_refused(speaker(server).post(AIR, content=b" " * (256 * 1024 + 1), headers=JSON), 413, "too_large")
