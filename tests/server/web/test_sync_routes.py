"""Push and pull over HTTP: what is stored comes back, and what could not be stored is never acknowledged."""

import json

import pytest

from broodline.sync.push import MOST_BYTES
from tests.server.store.log_suite import note
from tests.server.web.test_refusals import assert_refused

PUSH, PULL = "/api/v1/push", "/api/v1/pull"


def document(number, text="", **envelope):
    return json.loads(note(number, text, **envelope).canonical)


def push(browser, *entries):
    return browser.post(PUSH, json={"v": 1, "entries": list(entries)})


def test_what_is_pushed_is_pulled(server, clock):
    keeper, helper = server.paired(), server.paired("helper")
    answer = push(keeper, document(1), document(2))
    assert answer.status_code == 200
    told = answer.json()
    assert set(told) == {"epoch", "server_ms", "results"}
    assert told["server_ms"] == clock.ms()
    assert told["results"] == [
        {"id": note(1).id, "status": "stored", "position": 1},
        {"id": note(2).id, "status": "stored", "position": 2},
    ]
    page = helper.get(PULL).json()
    assert set(page) == {"entries", "cursor", "more", "server_ms", "version"}
    assert page["entries"] == [{"position": 1, "entry": document(1)}, {"position": 2, "entry": document(2)}]
    assert page["cursor"].split(".")[0] == told["epoch"]
    assert helper.get(PULL, params={"cursor": page["cursor"]}).json()["entries"] == []


def test_a_clash_has_no_position(server):
    keeper = server.paired()
    push(keeper, document(1))
    assert push(keeper, document(1, "other")).json()["results"] == [{"id": note(1).id, "status": "clash"}]


def test_entries_travel_byte_for_byte(server):
    """Written by hand: keys out of order, 37.0, an own field. Stored in canonical form, then never touched."""
    raw = (
        '{"void":false,"id":"%s","v":1,"kind":"note","device":"x","at":"2026-03-08T19:40:12Z","zone":"UTC",'
        '"skew_ms":-0,"amends":null,"body":{"text":"ü\\u00e9\\u0001","10":37.0,"9":2.50},"later":[]}'
    ).replace("%s", note(1).id)
    keeper = server.paired()
    body = f'{{"v":1,"entries":[{raw}]}}'.encode()
    assert keeper.post(PUSH, content=body, headers={"content-type": "application/json"}).status_code == 200
    expected = (
        '{"amends":null,"at":"2026-03-08T19:40:12Z","body":{"10":37,"9":2.5,"text":"üé\\u0001"},"device":"x",'
        '"id":"%s","kind":"note","later":[],"skew_ms":0,"v":1,"void":false,"zone":"UTC"}'
    ).replace("%s", note(1).id)
    assert f'"entry":{expected}}}' in keeper.get(PULL).content.decode()


def test_a_page_travels_packed_to_those_who_unpack_it(server):
    """Whoever does not say so gets it plain, and what is small goes as it is."""
    keeper = server.paired()
    push(keeper, *(document(number) for number in range(1, 41)))
    plain, packed = keeper.get(PULL, headers={"accept-encoding": "identity"}), keeper.get(PULL)
    assert "content-encoding" not in plain.headers
    assert packed.headers["content-encoding"] == "gzip"
    assert plain.headers["vary"] == packed.headers["vary"] == "accept-encoding"
    assert packed.content == plain.content  # the client unpacked it
    assert len(plain.content) == int(plain.headers["content-length"]) > 5 * int(packed.headers["content-length"])
    end = keeper.get(PULL, params={"cursor": plain.json()["cursor"]})
    assert "content-encoding" not in end.headers


def test_the_phone_that_brought_an_entry_is_noted_and_may_bring_any_devices(server):
    keeper = server.paired()
    own = keeper.get("/api/v1/me").json()["device"]
    push(keeper, document(1, device="somebody-else"), document(2, device="import"))
    brought = server.desk.reader.shelf.connection.execute("SELECT DISTINCT brought_by FROM log").fetchall()
    assert brought == [(own,)]


def test_a_refused_batch_changed_nothing_and_names_the_entry(server):
    keeper = server.paired()
    answer = push(keeper, document(1), {**document(2), "at": "noon"})
    assert_refused(answer, 400, "envelope")
    words = answer.json()["error"]
    assert (words["field"], words["index"]) == ("at", 1)
    assert "entries[1]" in words["message"]
    assert keeper.get(PULL).json()["entries"] == []


def test_size_limits(server):
    keeper = server.paired()
    assert_refused(push(keeper, *[{}] * 201), 413, "too_large")
    assert_refused(push(keeper, {**document(1), "body": {"text": "x" * 8192}}), 400, "envelope")
    assert push(keeper).json()["results"] == []
    json_type = {"content-type": "application/json"}
    large = b'{"v":1,"entries":[]}' + b" " * MOST_BYTES
    assert_refused(keeper.post(PUSH, content=large, headers=json_type), 413, "too_large")
    exact = large[:MOST_BYTES]
    assert keeper.post(PUSH, content=exact, headers=json_type).status_code == 200


def test_a_large_body_without_a_declared_length_is_refused_too(server):
    keeper = server.paired()
    pieces = (b" " * 65_536 for _ in range(40))
    answer = keeper.post(PUSH, content=pieces, headers={"content-type": "application/json"})
    assert_refused(answer, 413, "too_large")


def test_a_cursor_of_another_history_is_a_409(server):
    keeper = server.paired()
    push(keeper, document(1))
    for cursor in ("nonsense", "other.1." + "0" * 64, "é", "x" * 5000):
        assert_refused(keeper.get(PULL, params={"cursor": cursor}), 409, "reset")


def test_an_old_protocol_is_a_426(server):
    assert_refused(server.paired().post(PUSH, json={"v": 0, "entries": []}), 426, "protocol")


def test_a_full_disk_is_a_507_and_nothing_was_acknowledged(server, clock):
    keeper = server.paired()
    push(keeper, document(1))
    writer = server.desk.writer.shelf.connection
    (pages,) = writer.execute("PRAGMA page_count").fetchone()
    writer.execute(f"PRAGMA max_page_count = {pages}")
    batch = [document(n, "x" * 3000) for n in range(2, 50)]
    assert_refused(push(keeper, *batch), 507, "disk_full")
    clock.go_on(hours=1)  # "last seen" has to be written, and cannot
    assert len(keeper.get(PULL).json()["entries"]) == 1, "reading goes on"
    writer.execute("PRAGMA max_page_count = 1000000")
    assert {told["status"] for told in push(keeper, *batch).json()["results"]} == {"stored"}


def test_a_busy_book_is_a_503_with_a_time_to_wait(server, tmp_path):
    keeper = server.paired()
    server.desk.writer.shelf.connection.execute("PRAGMA busy_timeout = 20")
    beside = server.desk.reports.shelf.connection
    beside.execute("BEGIN IMMEDIATE")
    try:
        answer = push(keeper, document(1))
        assert_refused(answer, 503, "busy")
        assert int(answer.headers["retry-after"]) > 0
    finally:
        beside.execute("ROLLBACK")
    assert push(keeper, document(1)).status_code == 200


@pytest.mark.parametrize("cookie", ["", "x", "0" * 64, "; drop table devices", "a" * 8000])
def test_a_cookie_that_is_no_token_of_ours_is_unpaired(server, cookie):
    browser = server.browser()
    assert_refused(browser.get(PULL, headers={"cookie": f"broodline_8471={cookie}"}), 401, "unpaired")


def test_health_tells_entries_and_the_age_of_the_backup(server, clock, tmp_path):
    stranger = server.browser()
    push(server.paired(), document(1), document(2))
    told = stranger.get("/healthz").json()
    assert (told["ok"], told["entries"], told["backup_age_h"]) == (True, 2, None)
    assert told["version"]
    server.desk.writer.shelf.backups.take(tmp_path / "backup.db")
    clock.go_on(hours=30)
    assert stranger.get("/healthz").json()["backup_age_h"] == 30
