"""The doors: every refusal, in its order, in one shape, with the same headers on all of them."""

import json

import pytest

from broodline.sync.push import MOST_BYTES
from broodline.web.app import route_table
from tests.book_writer import BookWriter
from tests.server.web.conftest import OWN, PORT, serving

PUSH = "/api/v1/push"
EMPTY = {"v": 1, "entries": []}
JSON = {"content-type": "application/json"}


def assert_refused(answer, status, code):
    assert answer.status_code == status, answer.text
    words = answer.json()["error"]
    assert words["code"] == code
    assert words["message"]
    assert words["remedy"]
    assert_guarded(answer)


def assert_guarded(answer):
    policy = answer.headers["content-security-policy"]
    assert policy.startswith("default-src 'none';")
    assert "frame-ancestors 'none'" in policy
    assert "require-trusted-types-for 'script'" in policy
    assert "unsafe" not in policy
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "no-referrer"


def test_refusals_come_in_one_order(server):
    """Host 400, origin 403, unpaired 401, role 403, too large 413, envelope 400: each request has all later faults."""
    too_large = {"content": b"{" * (MOST_BYTES + 1), "headers": JSON}
    stranger, reader, keeper = server.browser(), server.paired("reader"), server.paired("keeper")
    foreign = {"headers": {**JSON, "origin": "https://elsewhere.example"}}
    wrong_host = {"headers": {**foreign["headers"], "host": "elsewhere.example"}}
    assert_refused(stranger.post(PUSH, content=too_large["content"], **wrong_host), 400, "host")
    assert_refused(stranger.post(PUSH, content=too_large["content"], **foreign), 403, "origin")
    assert_refused(stranger.post(PUSH, **too_large), 401, "unpaired")
    assert_refused(reader.post(PUSH, **too_large), 403, "role")
    assert_refused(keeper.post(PUSH, **too_large), 413, "too_large")
    assert_refused(keeper.post(PUSH, content=b"{", headers=JSON), 400, "envelope")
    assert keeper.post(PUSH, json=EMPTY).status_code == 200


def test_what_is_meant_for_another_holding_is_refused_whole(server):
    """A page that has another book open than the one its browser is paired with by now."""
    keeper, reader = server.paired("keeper"), server.paired("reader")
    own = keeper.get("/api/v1/me").json()["holding"]["id"]
    of_another = {"broodline-holding": "f" * 32}
    for browser in (keeper, reader):
        assert_refused(browser.post(PUSH, json=EMPTY, headers=of_another), 409, "elsewhere")
        assert_refused(browser.get("/api/v1/pull", headers=of_another), 409, "elsewhere")
    assert_refused(server.browser().get("/api/v1/pull", headers=of_another), 401, "unpaired")
    assert keeper.post(PUSH, json=EMPTY, headers={"broodline-holding": own}).status_code == 200


def test_too_many_tries_are_refused_before_size_and_form(server):
    browser = server.browser()
    for _ in range(5):
        assert_refused(browser.post("/api/v1/pair", json={"code": "WR0NGC0D", "name": "x"}), 401, "wrong_code")
    for body in (b"{" * (MOST_BYTES + 1), b"{", json.dumps({"code": server.code(), "name": "x"}).encode()):
        answer = browser.post("/api/v1/pair", content=body, headers=JSON)
        assert_refused(answer, 429, "too_many_tries")
        assert 1 <= int(answer.headers["retry-after"]) <= 60


def test_a_named_forwarder_does_not_reset_the_tries(server):
    browser = server.browser()
    for n in range(5):
        body = {"code": "WR0NGC0D", "name": "x"}
        browser.post("/api/v1/pair", json=body, headers={"x-forwarded-for": f"203.0.113.{n}"})
    assert_refused(browser.post("/api/v1/pair", json={"code": "WR0NGC0D", "name": "x"}), 429, "too_many_tries")


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:8471", "127.0.0.1.evil.example", "192.168.1.9:8471", "", "localhost.:8471", "[::1"],
)
def test_a_name_that_is_not_ours_is_refused_even_for_the_first_page(server, host):
    assert_refused(server.browser().get("/", headers={"host": host}), 400, "host")
    assert_refused(server.browser().get("/healthz", headers={"host": host}), 400, "host")


@pytest.mark.parametrize("host", [f"127.0.0.1:{PORT}", f"localhost:{PORT}", f"[::1]:{PORT}", "LOCALHOST:9999"])
def test_this_machines_own_names_are_ours(server, host):
    assert server.browser().get("/healthz", headers={"host": host}).status_code == 200


def test_beyond_this_machine_addresses_in_digits_and_the_public_name_are_ours(tmp_path, clock, chance):
    with serving(tmp_path, clock, chance, host="0.0.0.0", public_origin="https://book.example") as wide:
        browser = wide.browser(peer="192.168.1.20", url="http://192.168.1.5:8471")
        assert browser.get("/healthz").status_code == 200
        assert browser.get("/healthz", headers={"host": "book.example"}).status_code == 200
        assert_refused(browser.get("/healthz", headers={"host": "evil.example"}), 400, "host")
        assert_refused(browser.get("/healthz", headers={"host": "book.example:444"}), 400, "host")


ORIGINS = [
    ({"sec-fetch-site": "same-origin"}, True),
    ({"sec-fetch-site": "same-origin", "origin": "https://elsewhere.example"}, True),
    ({"sec-fetch-site": "same-site", "origin": OWN}, False),
    ({"sec-fetch-site": "cross-site", "origin": OWN}, False),
    ({"sec-fetch-site": "none"}, False),
    ({"sec-fetch-site": ""}, False),
    ({"origin": OWN}, True),
    ({"origin": f"http://localhost:{PORT}"}, False),
    ({"origin": "http://127.0.0.1:1"}, False),
    ({"origin": OWN.replace("http", "https")}, False),
    ({"origin": "null"}, False),
    ({"referer": OWN + "/"}, False),
    ({}, False),
]


@pytest.mark.parametrize(("headers", "allowed"), ORIGINS)
@pytest.mark.parametrize(("method", "path"), [("POST", PUSH), ("DELETE", "/api/v1/devices/nobody")])
def test_a_change_must_come_from_our_own_pages(server, headers, allowed, method, path):
    keeper = server.paired()
    del keeper.headers["origin"]
    answer = keeper.request(method, path, headers=headers, json=EMPTY if method == "POST" else None)
    if allowed:
        assert answer.status_code == (200 if method == "POST" else 404)
    else:
        assert_refused(answer, 403, "origin")


def test_reading_needs_no_origin(server):
    keeper = server.paired()
    del keeper.headers["origin"]
    assert keeper.get("/api/v1/pull").status_code == 200


@pytest.mark.parametrize(
    "kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "", "application/jsonp"]
)
@pytest.mark.parametrize("path", [PUSH, "/api/v1/invitations", "/api/v1/pair"])
def test_a_form_of_another_site_cannot_be_a_post_of_ours(server, kind, path):
    answer = server.paired().post(path, content=b'{"v":1,"entries":[]}', headers={"content-type": kind})
    assert_refused(answer, 400, "envelope")
    assert answer.json()["error"]["field"] == "content-type"
    assert "JSON" in answer.json()["error"]["remedy"]


def test_json_with_a_charset_is_json(server):
    body = json.dumps(EMPTY).encode()
    kind = {"content-type": "Application/JSON; charset=utf-8"}
    assert server.paired().post(PUSH, content=body, headers=kind).status_code == 200


CALLS: dict[tuple[str, str], set[str | None]] = {
    ("GET", "/healthz"): {None, "keeper", "helper", "reader"},
    ("POST", "/api/v1/pair"): {None, "keeper", "helper", "reader"},
    ("GET", "/api/v1/me"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/devices"): {"keeper"},
    ("GET", "/api/v1/devices/{id}"): {"keeper"},
    ("POST", "/api/v1/devices/{id}"): {"keeper"},  # others only their own, see test_pairing_routes.py
    ("DELETE", "/api/v1/devices/{id}"): {"keeper"},
    ("POST", "/api/v1/invitations"): {"keeper"},
    ("POST", "/api/v1/push"): {"keeper", "helper"},
    ("GET", "/api/v1/pull"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/setting/{id}"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/season/{year:int}"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/brood/{lot}"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/growth"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/due"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/family"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/matings"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/choose"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/plan"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/flock"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reports/store"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/season/{year:int}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/marks/{year:int}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/setting/{id}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/cards/{id}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/tally/{id}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/pedigree/{id}.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/matings.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/away.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/papers/inspection.pdf"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/exports/book.jsonl"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/exports/book.xlsx"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/exports/book.zip"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/exports/season.xlsx"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/exports/society.csv"): {"keeper"},
    ("GET", "/api/v1/exports/bird/{id}.zip"): {"keeper", "helper", "reader"},
    ("POST", "/api/v1/imports/bird"): {"keeper"},
    ("POST", "/api/v1/imports/sheet"): {"keeper"},
    ("POST", "/api/v1/imports/book"): {"keeper"},
    ("GET", "/api/v1/reminders/key"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/reminders/subscription"): {"keeper", "helper", "reader"},
    ("POST", "/api/v1/reminders/subscription"): {"keeper", "helper", "reader"},
    ("DELETE", "/api/v1/reminders/subscription"): {"keeper", "helper", "reader"},
    ("POST", "/api/v1/reminders/try"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/calendar"): {"keeper", "helper", "reader"},
    ("POST", "/api/v1/calendar"): {"keeper", "helper", "reader"},
    ("DELETE", "/api/v1/calendar"): {"keeper", "helper", "reader"},
    ("GET", "/api/v1/calendar/{uid}.ics"): {"keeper", "helper", "reader"},
    ("POST", "/api/v1/air"): set(),  # for thermometers, see test_sensor_routes.py
    ("GET", "/calendar/{token}.ics"): {None, "keeper", "helper", "reader"},
    ("PUT", "/api/v1/photos/{sha256}"): {"keeper", "helper"},
    ("GET", "/api/v1/photos/{sha256}"): {"keeper", "helper", "reader"},
}


def test_every_route_is_in_the_table_of_roles(server):
    routes = {
        (method, route.path) for route in route_table(server.desk) for method in (route.methods or set()) - {"HEAD"}
    }
    assert routes == set(CALLS)


@pytest.mark.parametrize("role", [None, "keeper", "helper", "reader"])
@pytest.mark.parametrize(("method", "path"), CALLS)
def test_every_route_is_open_to_its_roles_and_to_no_others(server, role, method, path):
    browser = server.browser() if role is None else server.paired(role)
    address = path.replace("{id}", "nobody").replace("{sha256}", "0" * 64).replace("{year:int}", "2026")
    address = address.replace("{uid}", "nothing").replace("{token}", "0" * 32)
    answer = browser.request(method, address, json={} if method == "POST" else None)
    assert_guarded(answer)
    if role in CALLS[method, path]:
        assert answer.status_code in (200, 400, 404), answer.text
    elif role is None or not CALLS[method, path]:
        assert_refused(answer, 401, "unpaired")
    else:
        assert_refused(answer, 403, "role")


@pytest.mark.parametrize(
    ("method", "path", "status", "code"),
    [
        ("GET", "/api/v1/nothing", 404, "not_found"),
        ("POST", "/api/v1/nothing", 404, "not_found"),
        ("GET", "/api/", 404, "not_found"),
        ("GET", "/api", 404, "not_found"),
        ("GET", "/api/v1/reports/season/spring", 404, "not_found"),
        ("GET", "/api/v1/push", 405, "method"),
        ("PUT", "/api/v1/push", 405, "method"),
        ("POST", "/healthz", 405, "method"),
        ("OPTIONS", "/api/v1/push", 405, "method"),
        ("POST", "/", 404, "not_found"),
        ("GET", "/api/v1/pull/", 404, "not_found"),
    ],
)
def test_what_is_not_in_the_route_table_is_refused_as_json(server, method, path, status, code):
    assert_refused(server.paired().request(method, path), status, code)


def test_a_fault_of_our_own_tells_nothing_outside(server, monkeypatch):
    keeper = server.paired()
    monkeypatch.setattr(type(server.desk.reader.shelf.log), "read", lambda *_: 1 / 0)
    answer = keeper.get("/api/v1/pull")
    assert_refused(answer, 500, "fault")
    assert "division" not in answer.text


def test_replies_of_the_api_are_not_kept_by_the_browser(server):
    for path in ("/api/v1/me", "/api/v1/pull", "/healthz", "/api/v1/nothing"):
        assert server.paired().get(path).headers["cache-control"] == "no-store"


HALF = "\\ud800"  # half of a character, as JSON can write it and UTF-8 cannot


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("push", f'{{"entries":[],"v":1,"{HALF}":1,"{HALF}":2}}'),
        ("imports/sheet", f'{{"name":"{HALF}.xls","text":"a,b\\n1,2"}}'),
        ("imports/sheet", f'{{"name":"x.csv","text":"a,b\\n1,2","kind":"{HALF}"}}'),
        ("imports/sheet", f'{{"name":"x.csv","text":"a,b\\n1,2","columns":{{"{HALF}":"b"}}}}'),
        ("imports/sheet", f'{{"name":"x.csv","text":"family,eggs\\nA,2","species":"{HALF}"}}'),
        ("imports/sheet", f'{{"name":"x.csv","text":"family,eggs\\nA,2","breed":"{HALF}"}}'),
        ("imports/book", f'{{"name":"x","text":"{{\\"{HALF}\\":1}}"}}'),
        ("imports/bird", f'{{"name":"x","text":"abc","on":"2026-03-01","from":"{HALF}"}}'),
        ("pair", f'{{"code":"{HALF}","name":"x"}}'),
    ],
)
def test_half_a_character_is_answered_in_words_and_is_no_fault_of_the_server(server, path, body):
    answer = server.paired().post(f"/api/v1/{path}", content=body.encode(), headers=JSON)
    assert answer.status_code in (200, 400, 401), answer.text
    assert answer.status_code == 200 or answer.json()["error"]["remedy"]


def test_a_paper_with_a_letter_no_font_has_is_refused_and_made_where_boxes_are_asked_for(server):
    """422: understood, but what is asked for cannot be made of it (RFC 9110, 15.5.21)."""
    keeper, book = server.paired("keeper"), BookWriter()
    book.write("bird", {"sex": "male", "name": "Bram 😀", "hatched_on": "2026-04-01", "webs": ["LO"]})
    assert keeper.post(PUSH, json={"v": 1, "entries": book.documents}).status_code == 200
    answer = keeper.get("/api/v1/papers/marks/2026.pdf")
    assert_refused(answer, 422, "letters")
    assert "😀 (U+1F600), in: Bram 😀" in answer.json()["error"]["message"]
    assert keeper.get("/api/v1/papers/marks/2026.pdf?boxes=1").content.startswith(b"%PDF")
