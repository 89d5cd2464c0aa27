"""The battery dies right after a tap, twenty times over: whatever the screen showed as saved is there again."""

from functools import partial

from playwright.sync_api import Page, expect

from tests.browser.hands import (
    in_hand,
    name_the_place,
    only_here,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.serving import wait_until

KILLS = 20
EGGS = 100
ANSWERS = ("Clear", "Live", "Blood ring")


def counts(page: Page) -> tuple[int, int]:
    """Eggs still in hand, and entries that are only on this phone."""
    page.locator(".big-count").wait_for()
    return in_hand(page), only_here(page)


def says_saved(page: Page, n: int) -> bool:
    return only_here(page) == n


def test_no_tap_shown_as_saved_is_lost(running, new_phone):
    phone = new_phone()
    page = phone.open(running.url)
    pair(page, running.url, running.code())
    page.goto(running.url)
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", EGGS)])
    wait_until_it_works_offline(page)
    expect(page.get_by_text("All on the server")).to_be_visible()
    phone.close()  # cookies are written down now; a browser killed within half a minute would forget the pairing
    running.kill()
    tally = f"{address}/tally/candle"

    page = phone.open(tally)
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    left, written = counts(page)
    assert (left, written) == (EGGS, 0)
    for kill in range(KILLS):
        for answer in ANSWERS[: 1 + kill % 3]:
            tap(page, answer)
            left, written = left - 1, written + 1
        wait_until(partial(says_saved, page, written), pause=0)
        phone.kill()
        page = phone.open(tally)
        assert counts(page) == (left, written), f"kill {kill + 1}"

    running.start()
    page.goto(running.url)
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)
    kinds = [entry["kind"] for entry in running.entries()]
    assert kinds.count("looked") + kinds.count("moved") == written
