"""Pairing over HTTP: the cookie, who one is, the list of devices, and the demo that signs in by itself."""

import json

import pytest

from tests.server.store.log_suite import note
from tests.server.web.conftest import serving
from tests.server.web.test_refusals import assert_refused
from tests.server.web.test_sync_routes import push

REMEMBERED = "0123456789abcdef0123456789abcdef"


def pair(browser, code, **more):
    return browser.post("/api/v1/pair", json={"code": code, "name": "Loft phone", **more})


def test_pairing_answers_who_the_phone_is_and_sets_its_cookie(server):
    browser = server.browser()
    answer = pair(browser, server.code("helper"))
    told = answer.json()
    assert set(told) == {"device", "role", "holding", "demo"}
    assert (told["role"], told["demo"]) == ("helper", False)
    assert told["holding"] == {"id": server.desk.reader.shelf.holdings.current().id, "name": ""}
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith("broodline_8471=")
    assert "HttpOnly" in cookie
    assert "SameSite=lax" in cookie
    assert "Path=/" in cookie
    assert "Secure" not in cookie
    assert "Domain" not in cookie
    assert browser.get("/api/v1/me").json() == told


def test_behind_https_the_cookie_travels_by_https_only(tmp_path, clock, chance):
    with serving(tmp_path, clock, chance, public_origin="https://book.example") as public:
        browser = public.browser(peer="203.0.113.5", url="https://book.example", origin="https://book.example")
        answer = pair(browser, public.code())
        assert answer.status_code == 200
        cookie = answer.headers["set-cookie"]
        assert cookie.startswith("__Host-broodline=")
        assert "Secure" in cookie
        assert "HttpOnly" in cookie
        assert "Path=/" in cookie
        assert "Domain" not in cookie
        assert answer.headers["strict-transport-security"].startswith("max-age=")
        assert browser.get("/api/v1/me").status_code == 200


def test_over_plain_http_beyond_this_machine_nothing_is_paired_and_no_code_is_used_up(tmp_path, clock, chance):
    with serving(tmp_path, clock, chance, host="0.0.0.0") as wide:
        code = wide.code()
        url = "http://192.168.1.5:8471"
        assert_refused(pair(wide.browser("192.168.1.20", url, url), code), 403, "insecure")
        own = "http://127.0.0.1:8471"
        assert_refused(pair(wide.browser("192.168.1.20", own, own), code), 403, "insecure")
        assert pair(wide.browser(), code).status_code == 200


def test_the_holdings_name_is_the_keepers(server):
    keeper = server.paired()
    body = {"holding": "Gorse Bank", "zone": "Europe/Dublin", "temperature": "C", "mass": "g"}
    push(keeper, json.loads(note(1, kind="keeper", body=body).canonical))
    assert keeper.get("/api/v1/me").json()["holding"]["name"] == "Gorse Bank"


def test_asking_who_one_is_renews_the_cookie(server):
    keeper = server.paired()
    before = keeper.cookies["broodline_8471"]
    assert keeper.get("/api/v1/me").headers["set-cookie"].startswith(f"broodline_8471={before};")


def test_a_stranger_who_asks_as_one_is_told_and_not_refused(server):
    browser = server.browser()
    answer = browser.get("/api/v1/me?strangers=1")
    assert (answer.status_code, answer.json()) == (200, {"device": None})
    assert "set-cookie" not in answer.headers
    assert_refused(browser.get("/api/v1/me"), 401, "unpaired")
    keeper = server.paired()
    assert keeper.get("/api/v1/me?strangers=1").json() == keeper.get("/api/v1/me").json()


def test_an_empty_server_takes_over_the_holding_of_the_phone(server):
    assert pair(server.browser(), server.code(), holding=REMEMBERED).json()["holding"]["id"] == REMEMBERED
    keeper = server.paired()
    assert push(keeper, json.loads(note(1).canonical)).json()["results"][0]["status"] == "stored"
    other = pair(server.browser(), server.code(), holding="f" * 32)
    assert other.json()["holding"]["id"] == REMEMBERED, "no longer empty"


def test_a_keeper_lists_devices_and_ends_a_pairing(server):
    keeper, helper = server.paired(name="Kitchen"), server.paired("helper", name="Loft")
    listed = keeper.get("/api/v1/devices").json()["devices"]
    assert [(device["name"], device["role"], device["this_device"]) for device in listed] == [
        ("Kitchen", "keeper", True),
        ("Loft", "helper", False),
    ]
    loft = listed[1]["id"]
    assert keeper.get(f"/api/v1/devices/{loft}").json() == {"device": listed[1]}
    assert_refused(keeper.get("/api/v1/devices/nobody"), 404, "not_found")
    assert_refused(helper.get(f"/api/v1/devices/{loft}"), 403, "role")
    assert keeper.delete(f"/api/v1/devices/{loft}").json()["device"]["revoked_at"] == "2026-03-08T12:00:00.000Z"
    assert_refused(helper.get("/api/v1/pull"), 401, "unpaired")
    assert_refused(push(helper), 401, "unpaired")
    assert_refused(keeper.delete("/api/v1/devices/nobody"), 404, "not_found")


def test_a_keeper_names_any_device_and_others_only_themselves(server):
    keeper, helper = server.paired(name="Kitchen"), server.paired("helper", name="Loft")
    kitchen, loft = (one["id"] for one in keeper.get("/api/v1/devices").json()["devices"])
    told = keeper.post(f"/api/v1/devices/{loft}", json={"name": " Barn phone "}).json()["device"]
    assert (told["name"], told["this_device"]) == ("Barn phone", False)
    assert helper.post(f"/api/v1/devices/{loft}", json={"name": "Mine"}).json()["device"]["this_device"] is True
    assert_refused(helper.post(f"/api/v1/devices/{kitchen}", json={"name": "Mine"}), 403, "role")
    assert_refused(keeper.post("/api/v1/devices/nobody", json={"name": "x"}), 404, "not_found")
    faults: list[object] = [
        {},
        {"name": ""},
        {"name": "   "},
        {"name": 3},
        {"name": "x" * 101},
        {"name": "a\nb"},
        [],
        "x",
    ]
    for odd in faults:
        assert_refused(keeper.post(f"/api/v1/devices/{loft}", json=odd), 400, "envelope")
    assert [one["name"] for one in keeper.get("/api/v1/devices").json()["devices"]] == ["Kitchen", "Mine"]


@pytest.mark.parametrize("role", ["helper", "reader"])
def test_who_only_helps_can_unpair_the_own_phone_and_no_other(server, role):
    keeper, phone = server.paired(name="Kitchen"), server.paired(role)
    kitchen, own = (one["id"] for one in keeper.get("/api/v1/devices").json()["devices"])
    assert_refused(phone.delete(f"/api/v1/devices/{kitchen}"), 403, "role")
    assert phone.delete(f"/api/v1/devices/{own}").status_code == 200
    assert_refused(phone.get("/api/v1/pull"), 401, "unpaired")


def test_with_a_lost_phone_its_codes_reminders_and_calendar_end(server):
    keeper, phone = server.paired(name="Kitchen"), server.paired("keeper", name="Lost")
    code = phone.post("/api/v1/invitations", json={"role": "keeper"}).json()["code"]
    feed = phone.post("/api/v1/calendar", json={}).json()["path"]
    lost = phone.get("/api/v1/me").json()["device"]
    assert keeper.delete(f"/api/v1/devices/{lost}?lost=1").status_code == 200
    assert_refused(pair(server.browser(), code), 401, "wrong_code")
    assert_refused(server.browser().get(feed), 404, "not_found")
    assert_refused(phone.get("/api/v1/pull"), 401, "unpaired")
    kept = keeper.post("/api/v1/invitations", json={"role": "helper"}).json()["code"]
    keeper.delete(f"/api/v1/devices/{lost}")  # an end of a pairing that is no loss leaves others' codes alone
    assert pair(server.browser(), kept).status_code == 200


def test_with_a_pairing_the_codes_it_asked_for_end_and_no_others(server):
    keeper, leaving = server.paired(name="Kitchen"), server.paired("keeper", name="Leaving")
    theirs = leaving.post("/api/v1/invitations", json={"role": "keeper"}).json()["code"]
    others = [keeper.post("/api/v1/invitations", json={"role": "helper"}).json()["code"], server.code("reader")]
    keeper.delete(f"/api/v1/devices/{leaving.get('/api/v1/me').json()['device']}")
    assert_refused(pair(server.browser(), theirs), 401, "wrong_code")
    assert [pair(server.browser(), code).json()["role"] for code in others] == ["helper", "reader"]


def test_no_reply_and_no_table_holds_a_token(server):
    keeper = server.paired()
    token = keeper.cookies["broodline_8471"]
    assert len(token) == 64
    assert token not in keeper.get("/api/v1/devices").text
    assert token not in "\n".join(server.desk.reader.shelf.connection.iterdump())


def test_a_revoked_phone_can_be_paired_again_and_push_what_it_kept(server):
    keeper, phone = server.paired(), server.paired("helper")
    first = phone.get("/api/v1/me").json()["device"]
    keeper.delete(f"/api/v1/devices/{first}")
    pair(phone, server.code("helper"))
    assert phone.get("/api/v1/me").json()["device"] != first
    assert push(phone, json.loads(note(1, device=first).canonical)).json()["results"][0]["status"] == "stored"


def test_an_invitation_is_a_code_for_a_role(server):
    answer = server.paired().post("/api/v1/invitations", json={"role": "reader"})
    told = answer.json()
    assert (told["role"], told["expires_at"]) == ("reader", "2026-03-08T12:10:00.000Z")
    assert pair(server.browser(), told["code"]).json()["role"] == "reader"


@pytest.mark.parametrize("body", [{}, {"role": "owner"}, {"role": None}, [], "reader"])
def test_an_invitation_for_no_role_is_refused(server, body):
    assert_refused(server.paired().post("/api/v1/invitations", json=body), 400, "envelope")


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/api/v1/pair", []),
        ("/api/v1/pair", {"name": "Shed"}),
        ("/api/v1/pair", {"code": "X"}),
        ("/api/v1/pair", {"code": "X", "name": "Shed", "holding": 1}),
        ("/api/v1/invitations", []),
    ],
)
def test_a_request_without_entries_is_not_told_to_set_an_entry_aside(server, path, body):
    answer = server.paired().post(path, json=body)
    assert_refused(answer, 400, "envelope")
    assert "entr" not in answer.json()["error"]["remedy"]


def test_last_seen_moves_on(server, clock):
    keeper = server.paired()
    clock.go_on(hours=1)
    keeper.get("/api/v1/pull")
    (device,) = keeper.get("/api/v1/devices").json()["devices"]
    assert device["last_seen_at"] == "2026-03-08T13:00:00.000Z"


@pytest.mark.parametrize("first_call", ["/", "/api/v1/me"])
def test_a_demo_signs_the_browser_in_by_itself(demo_server, first_call):
    """By its first page, or, when that page came from the app's own cache, by asking who one is."""
    browser = demo_server.browser()
    assert browser.get(first_call).status_code == 200
    told = browser.get("/api/v1/me").json()
    assert (told["role"], told["demo"]) == ("keeper", True)
    assert told["holding"]["id"].startswith("demo-")
    assert browser.get("/api/v1/pull").status_code == 200
    assert len(demo_server.desk.reader.shelf.devices.all()) == 1, "signed in once"


def test_a_demo_lets_nobody_else_in(tmp_path, clock, chance):
    with serving(tmp_path, clock, chance, demo=True, host="0.0.0.0") as wide:
        assert_refused(wide.browser("192.168.1.20", "http://192.168.1.5:8471").get("/api/v1/me"), 401, "unpaired")
        assert_refused(wide.browser("192.168.1.20").get("/api/v1/me"), 401, "unpaired")


@pytest.mark.parametrize("first_call", ["/", "/api/v1/me"])
@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_a_page_of_another_site_is_not_signed_in_to_a_demo_behind_the_keepers_back(demo_server, first_call, site):
    browser = demo_server.browser()
    assert "set-cookie" not in browser.get(first_call, headers={"sec-fetch-site": site}).headers
    assert_refused(browser.get("/api/v1/me", headers={"sec-fetch-site": site}), 401, "unpaired")
    assert demo_server.desk.reader.shelf.devices.all() == []


@pytest.mark.parametrize("site", ["same-origin", "none"])
def test_a_demo_opened_by_hand_is_signed_in_to(demo_server, site):
    assert demo_server.browser().get("/api/v1/me", headers={"sec-fetch-site": site}).status_code == 200


def test_a_real_book_signs_nobody_in(server):
    browser = server.browser()
    assert "set-cookie" not in browser.get("/").headers
    assert_refused(browser.get("/api/v1/me"), 401, "unpaired")


def test_a_demo_takes_no_holding_over(demo_server):
    own = demo_server.desk.reader.shelf.holdings.current().id
    assert pair(demo_server.browser(), demo_server.code(), holding=REMEMBERED).json()["holding"]["id"] == own
