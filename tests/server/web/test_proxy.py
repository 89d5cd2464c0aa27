"""Behind a reverse proxy: its word on who asks and under which name counts, and nobody else's."""

import pytest

from tests.server.web.conftest import OWN, serving
from tests.server.web.test_refusals import assert_refused

PUBLIC = "https://book.example"
PROXY = "127.0.0.1"


@pytest.fixture
def behind(tmp_path, clock, chance):
    with serving(tmp_path / "book", clock, chance, public_origin=PUBLIC, proxies=frozenset({PROXY})) as server:
        yield server


def through(server, sender="203.0.113.5", host="book.example", peer=PROXY):
    """A browser whose requests come by the proxy, which asks under a name of its own."""
    browser = server.browser(peer=peer, url=PUBLIC, origin=PUBLIC)
    browser.headers.update({"host": "127.0.0.1:8471", "x-forwarded-for": sender, "x-forwarded-host": host})
    browser.headers["x-forwarded-proto"] = "https"
    return browser


def pair(browser, code, name="phone"):
    return browser.post("/api/v1/pair", json={"code": code, "name": name})


def test_a_phone_pairs_through_it_with_a_cookie_of_its_own_name(behind):
    browser = through(behind)
    answer = pair(browser, behind.code())
    assert answer.status_code == 200
    assert answer.headers["set-cookie"].startswith("__Host-broodline=")
    assert answer.headers["strict-transport-security"].startswith("max-age=")


def test_tries_are_counted_by_who_asks_and_what_stands_before_it_is_not_believed(behind):
    for n in range(5):
        answer = pair(through(behind, sender=f"198.51.100.{n}, 203.0.113.5"), "WR0NGC0D")
        assert_refused(answer, 401, "wrong_code")
    assert_refused(pair(through(behind, sender="198.51.100.77, 203.0.113.5"), "WR0NGC0D"), 429, "too_many_tries")
    assert_refused(pair(through(behind, sender="203.0.113.6"), "WR0NGC0D"), 401, "wrong_code")


@pytest.mark.parametrize("sender", ["", "nobody", "203.0.113.5, ", "unix:", "1.2.3.4:55"])
def test_what_is_no_address_leaves_the_proxy_itself(behind, sender):
    for _ in range(5):
        pair(through(behind, sender=sender), "WR0NGC0D")
    assert_refused(pair(through(behind, sender=sender), "WR0NGC0D"), 429, "too_many_tries")


def test_a_name_that_is_not_ours_is_refused_also_through_it(behind):
    assert_refused(through(behind, host="evil.example").get("/healthz"), 400, "host")


def test_a_proxy_that_tells_the_usual_port_with_the_name_means_the_same_name(behind):
    assert through(behind, host="book.example:443").get("/healthz").status_code == 200
    assert_refused(through(behind, host="book.example:80").get("/healthz"), 400, "host")


def test_nobody_else_is_believed(behind):
    """The same words from another machine: the name it asked under is the server's own, in digits or not at all."""
    assert_refused(
        pair(through(behind, peer="192.168.1.9"), behind.code()), 403, "origin"
    )  # asked as 127.0.0.1, not as book.example
    for n in range(5):
        stranger = behind.browser(peer="192.168.1.9", url=PUBLIC, origin=PUBLIC)
        stranger.headers["x-forwarded-for"] = f"198.51.100.{n}"
        assert_refused(pair(stranger, "WR0NGC0D"), 401, "wrong_code")
    assert_refused(pair(stranger, "WR0NGC0D"), 429, "too_many_tries")


def test_who_comes_by_the_proxy_is_never_taken_for_this_machine(tmp_path, clock, chance):
    """A proxy that tells neither sender nor name, before a demo: nobody is signed in by it."""
    with serving(tmp_path / "demo", clock, chance, demo=True, proxies=frozenset({PROXY})) as demo:
        answer = demo.browser(peer=PROXY, url=OWN).get("/api/v1/me")
        assert_refused(answer, 401, "unpaired")
        assert "set-cookie" not in answer.headers
