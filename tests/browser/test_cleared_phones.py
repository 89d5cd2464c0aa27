"""A phone that lost part of what it kept, or keeps it elsewhere: what is left brings it back (failure 15)."""

import json
import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.hands import (
    ask_now,
    follow,
    in_hand,
    name_the_place,
    on_server,
    only_here,
    pair,
    rows_held,
    tap,
)
from tests.browser.liar import Liar, losing_first
from tests.browser.phones import Phone
from tests.browser.serving import Served, free_port, wait_until

EGGS = 60
CLEAR_CACHES = "caches.keys().then((all) => Promise.all(all.map((name) => caches.delete(name))))"
FILES_KEPT = """async () => {
  const names = await caches.keys();
  const kept = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).length));
  return Math.max(0, ...kept);
}"""
CLEAR_BOOKS = """() => indexedDB.databases().then((all) => Promise.all(all.map(({ name }) => new Promise((done) => {
  const request = indexedDB.deleteDatabase(name);
  request.onsuccess = request.onblocked = done;
}))))"""


@pytest.fixture
def page(running: Served, paired: Phone) -> Page:
    """The candling, with the server near and nothing left to send."""
    assert paired.context is not None
    page = paired.context.pages[0]
    ask_now(page)
    on_server(page)
    return page


def opened_anew(page: Page, address: str) -> None:
    page.goto(address)
    page.locator(".big-count").wait_for()
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")


def test_where_the_apps_files_were_cleared_but_not_the_book_all_is_back_with_the_first_answer(page, running):
    tally, left = page.url, in_hand(page)
    running.kill()
    tap(page, "Clear", 3)
    wait_until(lambda: only_here(page) == 3)
    kept = page.evaluate(FILES_KEPT)
    assert kept > 10
    page.evaluate(CLEAR_CACHES)
    page.goto(tally)
    expect(page.get_by_role("heading", name="The phone has cleared the app's own files")).to_be_visible()
    running.start()
    tap_link(page, "Try again")
    page.locator(".big-count").wait_for()
    assert in_hand(page) == left - 3
    on_server(page)
    wait_until(lambda: page.evaluate(FILES_KEPT) == kept)  # and it works without a server again
    running.kill()
    opened_anew(page, tally)
    assert in_hand(page) == left - 3


def tap_link(page: Page, words: str) -> None:
    page.get_by_role("link", name=words).tap()


def test_where_the_book_was_cleared_but_not_the_app_the_server_brings_it_back_whole(page, running):
    tally, left = page.url, in_hand(page)
    stored = {entry["id"] for entry in running.entries()}
    running.kill()
    page.evaluate(CLEAR_BOOKS)
    page.goto(f"{running.url}/due")  # opens all the same, with a book of its own
    expect(page.get_by_label("Name of your place")).to_be_visible()
    running.start()
    ask_now(page)
    on_server(page)
    opened_anew(page, tally)
    assert in_hand(page) == left
    assert {row["id"] for row in rows_held(page)} == stored
    assert {entry["id"] for entry in running.entries()} == stored


def test_what_waited_at_an_old_address_is_still_there_and_comes_over_by_a_copy(page, running, tmp_path):
    tally, left, old = page.url, in_hand(page), running.url
    known = len(running.entries())
    running.kill()
    tap(page, "Clear", 3)
    wait_until(lambda: only_here(page) == 3)
    moved = Served(running.folder)
    moved.port = free_port()
    moved.url = f"http://127.0.0.1:{moved.port}"
    moved.start()
    assert page.context is not None
    new = page.context.new_page()
    pair(new, moved.url, moved.code(), "The same phone")
    on_server(new)
    assert len(rows_held(new)) == len(moved.entries())  # nothing came over by itself

    opened_anew(page, tally)  # the old address has no server any more, and opens
    assert (in_hand(page), only_here(page)) == (left - 3, 3)
    page.goto(f"{old}/phone")
    with page.expect_download() as copy:
        tap(page, "Save a copy")
    copy.value.save_as(tmp_path / "copy.jsonl")
    lines = (tmp_path / "copy.jsonl").read_text(encoding="utf-8").splitlines()

    new.goto(f"{moved.url}/phone")
    new.get_by_label("Take a copy in").set_input_files(tmp_path / "copy.jsonl")
    expect(new.get_by_text(f"{len(lines)} entries read from the copy.")).to_be_visible()
    on_server(new)
    assert len(moved.entries()) == known + 3

    other = json.loads(lines[0]) | {"id": "0199ffff-ffff-7fff-8fff-ffffffffffff", "amends": None, "kind": "keeper"}
    other["body"] = {"holding": "Gorse Bank", "zone": "UTC", "temperature": "C", "mass": "g"}
    (tmp_path / "stranger.jsonl").write_text(json.dumps(other) + "\n", encoding="utf-8")
    new.get_by_label("Take a copy in").set_input_files(tmp_path / "stranger.jsonl")
    asked = new.get_by_text("This seems to be the copy of another book, Gorse Bank. Nothing of it was taken in.")
    expect(asked).to_be_visible()
    assert_sound(new)
    tap(new, "Leave it out")
    expect(asked).to_have_count(0)
    assert len(rows_held(new)) == known + 3  # nothing of it went in
    opened_anew(new, tally.replace(old, moved.url))
    assert in_hand(new) == left - 3
    new.close()
    moved.kill()
    running.start()
    opened_anew(page, tally)
    on_server(page)  # and where the old address answers again, nothing is doubled
    assert len(running.entries()) == known + 3


def test_the_installed_app_and_a_tab_keep_apart_what_they_hold_until_both_are_paired(page, running, new_phone):
    """On some phones the installed app and the browser share nothing: two profiles stand for them."""
    left = in_hand(page)
    tab = new_phone().open(running.url)
    name_the_place(tab, ["Hazel"])  # a book of the tab's own: it cannot know of the other one
    expect(tab.get_by_text(re.compile("^3 only on this phone"))).to_be_visible()
    pair(tab, running.url, running.code(), "The tab")
    on_server(tab)
    expect(tab.get_by_role("heading", name="Other books on this phone")).to_be_visible()
    opened_anew(tab, page.url)
    tap(tab, "Clear", 2)
    on_server(tab)
    ask_now(page)
    expect(page.locator(".big-count .figure")).to_have_text(str(left - 2))
    assert not any("Hazel" in str(entry["body"]) for entry in running.entries())
    tab.goto(f"{running.url}/phone")
    with tab.expect_download() as copy:
        tab.get_by_role("button", name="Save a copy").nth(1).tap()
    assert "Hazel" in copy.value.path().read_text(encoding="utf-8")


def test_an_app_whose_first_copy_was_cut_off_is_kept_by_a_second_try(running, new_phone):
    """Or it would open at the house, and not in the hatch room."""
    with Liar(free_port(), losing_first("/manifest.webmanifest", running.url)) as hotspot:
        page = new_phone().open(f"{hotspot.url}/phone")
        expect(page.get_by_text("The app is not whole on this phone yet.")).to_be_visible()
        expect(page.get_by_text("The app is whole on this phone")).to_be_visible(timeout=60_000)
        asked = hotspot.asked.count("GET /manifest.webmanifest")
    assert asked >= 2
    page.goto(hotspot.url)  # nobody answers there any more
    expect(page.get_by_label("Name of your place")).to_be_visible()


def test_a_page_that_came_while_the_worker_took_over_works_offline_at_once_and_says_so(running, new_phone):
    """Loaded past the worker, as such a page is: it belongs to none, and must not need a second load."""
    page = new_phone().open(f"{running.url}/phone")
    expect(page.get_by_text("The app is whole on this phone")).to_be_visible(timeout=60_000)
    page.context.new_cdp_session(page).send("Page.reload", {"ignoreCache": True})
    page.wait_for_timeout(200)
    expect(page.get_by_text("The app is whole on this phone")).to_be_visible()
    assert page.evaluate("Boolean(navigator.serviceWorker.controller)")
    running.stop()
    follow(page, "Handbook")  # comes later than the first script, and from this phone
    expect(page.get_by_role("heading", level=1)).not_to_have_text("This phone")
    expect(page.get_by_text("Candling", exact=False).first).to_be_visible()
