"""Phones tally one setting, all without a server, and later agree: counts add up, none is lost."""

import re

from playwright.sync_api import expect

from tests.browser.away import THEMES
from tests.browser.hands import (
    ask_now,
    choose_tab,
    in_hand,
    name_the_place,
    on_server,
    only_here,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.phones import DESK
from tests.browser.serving import wait_until


def test_phones_tally_the_same_eggs_apart_and_then_agree(served, new_phone):
    """One phone in each theme. Rowan 20: 3 + 2 + 1 clear, 1 blood ring, 5 + 4 live; Hazel 12: 1 cracked, 2 live."""
    phones = dict(zip(THEMES, (new_phone(), new_phone(), new_phone()), strict=True))
    day, night, red = (phone.open(served.url) for phone in phones.values())
    pair(day, served.url, served.code(), "Kitchen phone")
    day.goto(served.url)
    name_the_place(day, ["Rowan", "Hazel"])
    address = set_eggs(day, [("Rowan", 20), ("Hazel", 12)])
    on_server(day)
    pair(night, served.url, served.code("helper"), "Barn phone")
    pair(red, served.url, served.code("helper"), "Hatch room phone")
    for theme, page in zip(THEMES, (day, night, red), strict=True):
        page.goto(address)
        expect(page.get_by_role("link", name="Candle")).to_be_visible()
        wait_until_it_works_offline(page)
        page.evaluate(
            """(theme) => Object.assign(localStorage, { 'broodline-theme': theme, 'broodline-awake': 'no' })""", theme
        )
    served.stop()
    for page in (day, night, red):
        page.goto(f"{address}/tally/candle")
        choose_tab(page, "Rowan")

    tap(day, "Clear", 3)
    tap(day, "Live", 5)
    tap(night, "Clear", 2)
    tap(night, "Blood ring")
    tap(night, "Live", 4)
    choose_tab(night, "Hazel")
    tap(night, "Cracked")
    tap(red, "Clear")
    choose_tab(red, "Hazel")
    tap(red, "Live", 2)
    wait_until(lambda: [only_here(page) for page in (day, night, red)] == [8, 8, 3])
    for page in (night, red):
        choose_tab(page, "Rowan")
    assert [in_hand(page) for page in (day, night, red)] == [12, 13, 19]

    served.start()
    for page in (day, night, red):
        ask_now(page)
        on_server(page)
    for page in (day, night, red):
        ask_now(page)
        expect(page.locator(".big-count .figure")).to_have_text("4", timeout=30_000)
    found = served.run("report", "setting", address.rpartition("/")[2])
    lots = {lot["n"]: lot for lot in found["lots"]}
    assert lots[20]["stages"] == {"set": 13, "clear": 6, "blood_ring": 1}
    assert lots[12]["stages"] == {"set": 11, "cracked": 1}
    assert found["problems"] == []
    assert len({entry["device"] for entry in served.entries()}) == 3


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
    on_server(page)

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
