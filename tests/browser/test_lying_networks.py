"""Networks that lie, stall and crawl, and servers that die: the app opens, records, says so, and recovers by itself."""

import json
import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Playwright, Request, Route, expect

from tests.browser.hands import candle_paired, in_hand, on_server, only_here, tap
from tests.browser.liar import Liar, bad_gateway, half_an_answer, page_called_json, page_with_200
from tests.browser.phones import Phone
from tests.browser.serving import Served, wait_until

EGGS = 100
OPENS_WITHIN_S = 3
SLOW = {"offline": False, "latency": 400, "downloadThroughput": 50_000 / 8, "uploadThroughput": 50_000 / 8}
SOMEBODY_ELSE = "Something else answered instead of your server."


@pytest.fixture
def tally(running: Served, paired: Phone) -> Page:
    """The candling, with the server near and nothing left to send."""
    assert paired.context is not None
    page = paired.context.pages[0]
    on_server(page)
    return page


def taps(running: Served) -> int:
    return sum(entry["kind"] == "moved" for entry in running.entries())


def opens_and_records(page: Page, times: int = 1) -> None:
    """Opened anew, whatever the network does: soon there, with the right count, and taps are saved."""
    left, written = in_hand(page), only_here(page)
    begun = time.monotonic()
    page.reload()
    page.locator(".big-count").wait_for()
    assert time.monotonic() - begun < OPENS_WITHIN_S
    assert in_hand(page) == left
    tap(page, "Clear", times)
    assert in_hand(page) == left - times
    wait_until(lambda: only_here(page) == written + times)


def test_without_a_server_it_works_although_the_browser_says_it_is_online(tally, running):
    known = taps(running)
    running.kill()
    opens_and_records(tally)
    assert tally.evaluate("navigator.onLine") is True
    expect(tally.get_by_text("All on the server")).to_have_count(0)
    running.start()
    on_server(tally)
    assert taps(running) == known + 1


@pytest.mark.parametrize("way", [page_with_200, page_called_json, bad_gateway])
def test_a_page_in_the_place_of_an_answer_is_told_from_the_server_and_changes_nothing(tally, running, way):
    known = taps(running)
    running.kill()
    with Liar(running.port, way) as liar:
        opens_and_records(tally)
        expect(tally.get_by_text(SOMEBODY_ELSE)).to_be_visible()
        assert any("/api/v1/" in asked for asked in liar.asked)
        tally.reload()  # the liar's page became no part of the app
        tally.locator(".big-count").wait_for()
        assert only_here(tally) == 1
    running.start()
    on_server(tally)
    expect(tally.get_by_text(SOMEBODY_ELSE)).to_have_count(0)
    assert taps(running) == known + 1


def test_half_an_answer_is_no_answer(tally, running):
    known = taps(running)
    running.kill()
    with Liar(running.port, half_an_answer) as liar:
        opens_and_records(tally)
        wait_until(lambda: any("/api/v1/" in asked for asked in liar.asked))
        assert only_here(tally) == 1
    running.start()
    on_server(tally)
    assert taps(running) == known + 1


def test_a_server_that_takes_connections_and_never_answers_holds_nothing_up(tally, running):
    known = taps(running)
    running.freeze()
    opens_and_records(tally, times=2)
    tap(tally, "Clear")
    wait_until(lambda: only_here(tally) == 3)
    with tally.expect_event("requestfailed", timeout=20_000):
        pass  # given up in time, not waited for without end
    running.thaw()
    on_server(tally)
    assert taps(running) == known + 3


def test_a_server_killed_in_the_middle_of_a_push_gets_each_entry_once(tally, running):
    known = taps(running)
    killed: list[str] = []

    def hold(route: Route) -> None:
        if not killed:
            running.freeze()  # the request is on its way, and nobody will have answered it
            killed.append(route.request.url)
        route.continue_()

    tally.route("**/push", hold)
    tap(tally, "Clear", 5)
    wait_until(lambda: tally.wait_for_timeout(50) is None and killed)
    tally.wait_for_timeout(300)
    running.kill()
    tally.unroute("**/push", hold)
    assert only_here(tally) == 5
    running.start()
    on_server(tally)
    assert taps(running) == known + 5


def test_an_answer_lost_after_the_server_kept_the_push_doubles_nothing(tally, running):
    known = taps(running)
    lost: list[int] = []

    def keep_and_say_nothing(route: Route) -> None:
        if lost:
            route.continue_()
            return
        lost.append(route.fetch().status)  # the server has it
        route.abort("connectionreset")

    tally.context.route("**/api/v1/push", keep_and_say_nothing)
    tap(tally, "Clear", 2)
    wait_until(lambda: tally.wait_for_timeout(50) is None and lost)
    on_server(tally)
    tally.context.unroute_all(behavior="ignoreErrors")
    assert lost == [200]
    assert taps(running) == known + 2
    left = in_hand(tally)
    tally.reload()
    tally.locator(".big-count").wait_for()
    assert in_hand(tally) == left


def test_a_line_of_50_kbit_brings_everything_up(tally, running):
    known = taps(running)
    line = tally.context.new_cdp_session(tally)
    line.send("Network.enable")
    line.send("Network.emulateNetworkConditions", SLOW)
    opens_and_records(tally, times=10)
    on_server(tally)
    line.detach()
    assert taps(running) == known + 10


def test_where_only_single_entries_come_through_they_go_up_one_by_one(tally, running):
    known = taps(running)
    carried: list[int] = []

    def one_at_a_time(route: Route) -> None:
        sent: dict[str, Any] = json.loads(route.request.post_data or "{}")
        carried.append(len(sent["entries"]))
        if len(sent["entries"]) == 1:
            route.continue_()

    tally.context.route("**/api/v1/push", one_at_a_time)
    tap(tally, "Clear", 2)
    on_server(tally, seconds=60)
    tally.context.unroute_all(behavior="ignoreErrors")
    assert carried[:1] == [2]
    assert carried[-2:] == [1, 1]
    assert taps(running) == known + 2


def test_one_tab_at_a_time_speaks_to_the_server_and_both_show_every_tap(tally, running):
    known = taps(running)
    second = tally.context.new_page()
    second.goto(tally.url)
    second.locator(".big-count").wait_for()
    under_way: set[Request] = set()
    most = [0]

    def begin(request: Request) -> None:
        if "/api/v1/pu" in request.url:
            under_way.add(request)
            most[0] = max(most[0], len(under_way))

    tally.context.on("request", begin)
    tally.context.on("requestfinished", lambda request: under_way.discard(request))
    tally.context.on("requestfailed", lambda request: under_way.discard(request))
    lines = [tally.context.new_cdp_session(page) for page in (tally, second)]
    for line in lines:  # slow enough for two rounds to meet
        line.send("Network.enable")
        line.send("Network.emulateNetworkConditions", SLOW)
    for page, other in ((tally, second), (second, tally)):
        page.bring_to_front()
        tap(page, "Clear", 3)
        expect(other.locator(".big-count .figure")).to_have_text(str(in_hand(page)))
    for page in (tally, second):
        page.evaluate("dispatchEvent(new Event('online'))")
    on_server(tally)
    on_server(second)
    for line in lines:
        line.detach()
    assert most[0] == 1
    assert taps(running) == known + 6
    the_other_goes_on_where_a_tab_dies_in_its_round(tally, second, running)


def the_other_goes_on_where_a_tab_dies_in_its_round(tally: Page, second: Page, running: Served) -> None:
    """Invariant 22: the lock of a tab that is gone is free again."""
    known = taps(running)
    second.route("**/api/v1/pull*", lambda _: None)  # never answered
    with second.expect_request("**/api/v1/pull*"):
        second.evaluate("dispatchEvent(new Event('online'))")
    tap(tally, "Clear")
    second.close()
    on_server(tally)
    assert taps(running) == known + 1


def test_a_browser_that_says_offline_is_not_believed_either(running: Served, playwright: Playwright, tmp_path: Path):
    phone = Phone(playwright, tmp_path / "phone")
    page = phone.open("about:blank")
    page.context.add_init_script("Object.defineProperty(Navigator.prototype, 'onLine', { get: () => false })")
    candle_paired(page, running.url, running.code(), 12, "Barn phone")
    tap(page, "Clear")
    on_server(page)
    assert page.evaluate("navigator.onLine") is False
    phone.close()
