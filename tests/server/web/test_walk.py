"""Every route with every role and every fault of a request: one table of what must come, and nothing unexpected.

The order of refusal is the contract's: host 400, origin 403, unpaired 401, role 403, 429, 413, 400 (web/guards.py).
"""

import secrets
from itertools import product

import pytest
from starlette.testclient import TestClient

from broodline.sync.photos import MOST_PICTURE_BYTES
from broodline.sync.push import MOST_BYTES
from broodline.web.guards import EVERY_REPLY
from broodline.web.import_routes import MOST_BODY_BYTES
from tests.server.conftest import HandClock
from tests.server.web.conftest import OWN, PORT, serving
from tests.server.web.test_refusals import CALLS

JSON = {"content-type": "application/json"}
FAULTS = (
    "wrong host",
    "wrong origin",
    "no origin",
    "another tab's site",
    "oversized",
    "wrong type",
    "malformed",
    "none",
)
WHO = (None, "revoked", "keeper", "helper", "reader")
TAKES_NO_JSON = {("PUT", "/api/v1/photos/{sha256}")}
READS_A_BODY = ("POST", "PUT")
SOUND = (200, 400, 404)  # an empty object or an unknown name is no fault of the door


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    clock = HandClock()
    with serving(tmp_path_factory.mktemp("book"), clock, secrets.token_bytes) as server:
        browsers: dict[str | None, TestClient] = {None: server.browser()}
        browsers |= {role: server.paired(role) for role in ("keeper", "helper", "reader")}
        gone = server.paired("keeper", "lost")
        device = gone.get("/api/v1/me").json()["device"]
        server.desk.writer.shelf.devices.revoke(device)
        yield clock, {**browsers, "revoked": gone}


def asked(browser, method, address, fault):
    """The answer to a request with that fault, and all later ones of the order too."""
    headers = {**JSON}
    body = b"{}"
    if fault == "malformed":
        body = b'{"v":'
    if fault in ("wrong type", "oversized", "wrong origin", "wrong host"):
        headers["content-type"] = "text/plain"
    if fault in ("oversized", "wrong origin", "wrong host"):
        body = b"{" * (MOST_BYTES + 1)
    if fault == "oversized" and ("photos" in address or "imports" in address):
        body = b"{" * (MOST_PICTURE_BYTES + 1 if "photos" in address else MOST_BODY_BYTES + 1)
    if fault in ("wrong origin", "wrong host"):
        headers["origin"] = "https://elsewhere.example"
    if fault == "no origin":
        headers["origin"] = "null"
    if fault == "another tab's site":
        headers["sec-fetch-site"] = "same-site"
    if fault == "wrong host":
        headers["host"] = "evil.example"
    content = body if method in READS_A_BODY else None
    return browser.request(method, address, content=content, headers=headers)


def expected(method, path, who, fault):
    """The statuses the contract allows."""
    changes, roles = method != "GET", CALLS[method, path]
    if fault == "wrong host":
        return (400,)
    if changes and fault in ("wrong origin", "no origin", "another tab's site"):
        return (403,)
    if path == "/api/v1/air":
        return (401,)  # by a token alone, see test_sensor_routes.py
    if None not in roles:
        if who in (None, "revoked"):
            return (401,)
        if who not in roles:
            return (403,)
    if method not in READS_A_BODY:
        return SOUND if None not in roles or who is None else (*SOUND, 401)
    if fault == "oversized":
        return (413,)
    if fault in ("wrong type", "malformed") or (method, path) in TAKES_NO_JSON:
        return (400,)
    return (*SOUND, 401) if path.endswith("/pair") else SOUND


def test_every_route_with_every_role_and_every_fault_answers_as_the_contract_says(house):
    clock, browsers = house
    unexpected = []
    walked = 0
    for (method, path), who, fault in product(CALLS, WHO, FAULTS):
        address = path.replace("{id}", "nobody").replace("{sha256}", "0" * 64).replace("{year:int}", "2026")
        address = address.replace("{uid}", "nothing").replace("{token}", "0" * 32).replace("{lot}", "nothing")
        clock.go_on(seconds=61)  # the limits of tries have their own tests
        answer = asked(browsers[who], method, address, fault)
        walked += 1
        well = answer.status_code in expected(method, path, who, fault)
        guarded = all(answer.headers.get(name) == value for name, value in EVERY_REPLY.items())
        worded = answer.status_code < 400 or set(answer.json()["error"]) >= {"code", "message", "remedy"}
        if not (well and guarded and worded):
            unexpected.append((method, path, who, fault, answer.status_code, answer.text[:120]))
    assert unexpected == []
    assert walked == len(CALLS) * len(WHO) * len(FAULTS) > 1000


def directives(policy):
    return {words[0]: words[1:] for part in policy.split(";") if (words := part.split())}


@pytest.mark.parametrize(
    "path", ["/", "/sw.js", "/manifest.webmanifest", "/assets/main-3f2a.js", "/healthz", "/api/v1/me", "/nothing.png"]
)
def test_the_headers_of_every_kind_of_reply(server, path):
    """W3C CSP 3, Trusted Types and Fetch Metadata as quality.md asks: nothing inline, nothing from elsewhere."""
    for headers in ({}, {"if-none-match": server.browser().get(path).headers.get("etag", "x")}):
        answer = server.browser().get(path, headers=headers)
        policy = directives(answer.headers["content-security-policy"])
        assert policy["default-src"] == ["'none'"]
        assert policy["frame-ancestors"] == policy["base-uri"] == ["'none'"]
        assert policy["require-trusted-types-for"] == ["'script'"]
        assert policy["trusted-types"] == ["broodline"]
        sources = {word for name, words in policy.items() if name.endswith("-src") for word in words}
        assert sources == {"'none'", "'self'", "blob:", "data:"}
        assert {name for name, words in policy.items() if {"blob:", "data:"} & set(words)} == {"img-src"}
        told = {
            name: answer.headers.get(name) for name in ("x-content-type-options", "referrer-policy", "x-frame-options")
        }
        assert told["x-content-type-options"] == "nosniff"
        assert told["referrer-policy"] == "no-referrer"
        assert answer.headers["cross-origin-opener-policy"] == "same-origin"
        assert answer.headers["cross-origin-resource-policy"] == "same-origin"
        assert "server" not in answer.headers
        assert "access-control-allow-origin" not in answer.headers
        assert "strict-transport-security" not in answer.headers
        assert answer.headers["x-request-id"]


def test_only_what_is_asked_for_leaves_this_machine(tmp_path, clock, chance):
    """Secure by default: it listens on this machine alone unless asked, and no other name opens it."""
    with serving(tmp_path / "plain", clock, chance) as plain:
        assert plain.desk.settings.host == "127.0.0.1"
        for host in (f"192.168.1.5:{PORT}", "broodline.home.arpa", "evil.example"):
            assert plain.browser(url=OWN).get("/healthz", headers={"host": host}).status_code == 400
