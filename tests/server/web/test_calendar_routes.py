"""The calendar over HTTP: a feed without a cookie at an address nobody guesses, and an end to it."""

from datetime import UTC, datetime

import pytest
from icalendar import Calendar

from tests.book_writer import BookWriter
from tests.server.web.conftest import OWN
from tests.server.web.test_refusals import assert_guarded, assert_refused
from tests.server.web.test_sync_routes import push

CALENDAR = "/api/v1/calendar"


@pytest.fixture
def keeper(server):
    phone = server.paired()
    writer = BookWriter()
    writer.keeper()
    family, place = writer.family("Rowan"), writer.incubator()
    writer.set_eggs(place, [(writer.lot(), family, 12)], set_at=datetime(2026, 3, 7, 20, 0, tzinfo=UTC))
    push(phone, *writer.documents)
    return phone


def feed(server, path):
    """As a calendar's machine asks: no cookie, no origin, from elsewhere."""
    return server.browser(peer="203.0.113.9", origin=None).get(path)


def test_a_feed_is_made_read_and_ended(server, keeper, clock):
    assert (keeper.get(CALENDAR).json()["on"], keeper.get(CALENDAR).json()["made_at"]) == (False, None)
    made = keeper.post(CALENDAR, json={}).json()
    assert (made["on"], made["read_at"], len(made["path"])) == (True, None, len("/calendar/.ics") + 32)
    answer = feed(server, made["path"])
    assert_guarded(answer)
    assert answer.headers["content-type"] == "text/calendar; charset=utf-8"
    assert answer.headers["cache-control"] == "no-store"
    events = Calendar.from_ical(answer.content).walk("VEVENT")
    assert [str(one["summary"]) for one in events][:1] == ["Candling"]
    assert [str(one["uid"]) for one in events] == [one["uid"] for one in made["events"]]
    assert str(events[0]["url"]).startswith(f"{OWN}/setting/")
    assert keeper.get(CALENDAR).json()["read_at"] == "2026-03-08T12:00:00.000Z"
    assert keeper.delete(CALENDAR).json()["on"] is False
    assert_refused(feed(server, made["path"]), 404, "not_found")


def test_a_new_address_ends_the_old_one_and_a_revoked_phone_ends_its_own(server, keeper):
    first = keeper.post(CALENDAR, json={}).json()["path"]
    second = keeper.post(CALENDAR, json={}).json()["path"]
    assert_refused(feed(server, first), 404, "not_found")
    assert feed(server, second).status_code == 200
    [device] = keeper.get("/api/v1/devices").json()["devices"]
    keeper.delete(f"/api/v1/devices/{device['id']}")
    assert_refused(feed(server, second), 404, "not_found")


def test_the_address_is_kept_nowhere(server, keeper):
    token = keeper.post(CALENDAR, json={}).json()["path"].split("/")[2].removesuffix(".ics")
    assert token not in "\n".join(server.desk.writer.shelf.connection.iterdump())
    assert token not in keeper.get(CALENDAR).text


def test_a_single_event_is_a_file_of_its_own(server, keeper):
    [first, *_] = keeper.get(CALENDAR).json()["events"]
    answer = keeper.get(f"{CALENDAR}/{first['uid']}.ics")
    [event] = Calendar.from_ical(answer.content).walk("VEVENT")
    assert (str(event["uid"]), str(event["description"])) == (first["uid"], first["words"])
    assert event["dtstart"].dt == datetime.fromisoformat(first["at"])
    assert answer.headers["content-disposition"] == 'attachment; filename="broodline-2026-03-14.ics"'
    assert len(event.walk("VALARM")) == 1
    assert_refused(keeper.get(f"{CALENDAR}/nothing.ics"), 404, "not_found")


def test_a_later_file_has_a_later_sequence(server, keeper):
    uid = keeper.get(CALENDAR).json()["events"][0]["uid"]

    def sequence():
        return Calendar.from_ical(keeper.get(f"{CALENDAR}/{uid}.ics").content).walk("VEVENT")[0]["sequence"]

    before = sequence()
    writer = BookWriter()
    for _ in range(6):
        writer.keeper()
    push(keeper, *writer.documents[5:])
    assert sequence() > before
