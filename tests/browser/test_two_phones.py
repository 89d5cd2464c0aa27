"""Two phones tally one setting, both without a server, and later agree: counts add up, none is lost."""

import re

from playwright.sync_api import expect

from tests.browser.hands import (
    choose_tab,
    follow,
    in_hand,
    name_the_place,
    only_here,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.phones import DESK
from tests.browser.serving import wait_until


def test_two_phones_tally_the_same_eggs_apart_and_then_agree(served, new_phone):
    first, second = new_phone(), new_phone()
    page = first.open(served.url)
    pair(page, served.url, served.code(), "Kitchen phone")
    page.goto(served.url)
    name_the_place(page, ["Rowan", "Hazel"])
    address = set_eggs(page, [("Rowan", 20), ("Hazel", 12)])
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)
    wait_until_it_works_offline(page)
    other = second.open(served.url)
    pair(other, served.url, served.code("helper"), "Barn phone")
    other.goto(address)
    expect(other.get_by_role("link", name="Candle")).to_be_visible()
    wait_until_it_works_offline(other)
    served.stop()

    follow(page, "Candle")
    choose_tab(page, "Rowan")
    tap(page, "Clear", 3)
    tap(page, "Live", 5)
    follow(other, "Candle")
    choose_tab(other, "Rowan")
    tap(other, "Clear", 2)
    tap(other, "Blood ring")
    tap(other, "Live", 4)
    choose_tab(other, "Hazel")
    tap(other, "Cracked")
    wait_until(lambda: (only_here(page), only_here(other)) == (8, 8))
    choose_tab(other, "Rowan")
    assert (in_hand(page), in_hand(other)) == (12, 13)

    served.start()
    for one in (page, other):
        expect(one.get_by_text("All on the server")).to_be_visible(timeout=30_000)
        expect(one.locator(".big-count .figure")).to_have_text("5", timeout=30_000)
    found = served.run("report", "setting", address.rpartition("/")[2])
    lots = {lot["n"]: lot for lot in found["lots"]}
    assert lots[20]["stages"] == {"set": 14, "clear": 5, "blood_ring": 1}
    assert lots[12]["stages"] == {"set": 11, "cracked": 1}
    assert found["problems"] == []
    assert len({entry["device"] for entry in served.entries()}) == 2


def test_the_season_page_at_the_desk_shows_what_the_phone_counted(served, new_phone):
    """One finished setting: 10 eggs, 2 clear, 6 of the 8 fertile hatched."""
    phone, desk = new_phone(), new_phone(viewport=DESK)
    page = phone.open(served.url)
    pair(page, served.url, served.code())
    page.goto(served.url)
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", 10)])
    page.goto(f"{address}/tally/candle")
    tap(page, "Clear", 2)
    tap(page, "Live", 8)
    page.goto(f"{address}/tally/hatch")
    tap(page, "Hatched", 6)
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    tap(page, "The rest did not hatch")
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)

    wide = desk.open(served.url)
    wide.goto(f"{served.url}/pair")
    wide.get_by_label("Code").fill(served.code("reader"))
    wide.get_by_label("Name of this phone").fill("Desk")
    wide.get_by_role("button", name="Pair", exact=True).click()
    expect(wide).to_have_url(re.compile("/phone$"))
    wide.goto(f"{served.url}/season")
    row = wide.get_by_role("row", name=re.compile("Rowan")).first
    expect(row).to_contain_text("8 of 10", timeout=30_000)
    expect(row).to_contain_text("6 of 8")
