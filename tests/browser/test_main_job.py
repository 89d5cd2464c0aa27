"""The main job on a phone without a server, from setting to opening, with the battery dying on the way.

40 eggs. Rowan 16: 2 clear (1 infertile, 1 dead early), 1 blood ring, 11 hatched, 1 dead late, 1 at internal pip.
Hazel 14: 1 clear (infertile), 9 hatched, 1 dead mid, 2 late, 1 at external pip. Alder 10: 4 clear (infertile),
3 hatched, 3 dead late. Rates worked out by hand; limits by scipy.stats.binomtest(...).proportion_ci("wilson").
"""

import re
from datetime import UTC, datetime

import pytest
from playwright.sync_api import Page, expect
from scipy.stats import binomtest

from tests.browser.hands import (
    DAY_MS,
    button,
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
from tests.browser.serving import wait_until

UNTIL_THE_BATTERY_DIED = 6 + 21 + 4 + 20
WRITTEN = UNTIL_THE_BATTERY_DIED + 6 + 16


def at_day(page: Page, set_ms: int, day: float) -> None:
    """Let the phone's clock show so many days after setting, and look at the app anew."""
    page.clock.set_system_time((set_ms + day * DAY_MS) / 1000)


def assert_rate(rate, k, n):
    low, high = binomtest(k, n).proportion_ci(method="wilson")
    assert (rate["k"], rate["n"]) == (k, n)
    assert [rate["rate"], rate["low"], rate["high"]] == pytest.approx([k / n, low, high])


def test_a_setting_from_eggs_to_opening_without_a_server(served, new_phone):
    phone = new_phone()
    page = phone.open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    phone.close()  # the browser writes its cookies down now; killed within half a minute it would forget them
    page = phone.open(served.url)
    served.stop()

    set_ms = int(datetime.now(UTC).timestamp() * 1000)
    page.clock.install(time=set_ms / 1000)
    page.goto(served.url)
    name_the_place(page, ["Rowan", "Hazel", "Alder"])
    address = set_eggs(page, [("Rowan", 16), ("Hazel", 14), ("Alder", 10)])

    candle(page, address, set_ms)
    lock_down(page, address, set_ms)
    at_day(page, set_ms, 21.2)
    page.goto(address)
    follow(page, "Look at the hatch")
    choose_tab(page, "Rowan")
    tap(page, "Hatched", 11)
    choose_tab(page, "Hazel")
    tap(page, "Hatched", 9)
    assert in_hand(page) == 4
    # place, incubator, families, setting; 21 taps at candling, 4 at lockdown, 20 chicks
    expect(page.get_by_text(f"{UNTIL_THE_BATTERY_DIED} only on this phone")).to_be_visible()
    phone.kill()

    page = phone.open("about:blank")
    page.clock.install(time=(set_ms + 21.3 * DAY_MS) / 1000)
    page.goto(f"{address}/tally/hatch")
    choose_tab(page, "Hazel")
    assert in_hand(page) == 4
    assert only_here(page) == UNTIL_THE_BATTERY_DIED
    if button(page, "Keep it on").count():  # a choice made just before the battery died may be asked again
        tap(page, "Keep it on")
    finish_hatch(page)
    open_what_is_left(page, address, set_ms)
    expect(page.get_by_text(f"{WRITTEN} only on this phone")).to_be_visible()

    served.start()
    page.goto(f"{served.url}/book")
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)
    wait_until(lambda: len(served.entries()) == WRITTEN)
    assert_the_season(served, address.rpartition("/")[2])


def candle(page: Page, address: str, set_ms: int) -> None:
    at_day(page, set_ms, 7.1)
    page.goto(address)
    follow(page, "Candle")
    choose_tab(page, "Rowan")
    assert in_hand(page) == 16
    tap(page, "Clear", 2)
    tap(page, "Blood ring")
    tap(page, "Live", 3)
    tap(page, "Keep it on")
    assert in_hand(page) == 10
    tap(page, "The rest are live")
    choose_tab(page, "Hazel")
    tap(page, "Dead in shell")
    tap(page, "Undo")
    tap(page, "Clear")
    assert in_hand(page) == 13
    tap(page, "The rest are live")
    choose_tab(page, "Alder")
    tap(page, "Clear", 4)
    tap(page, "Live", 6)
    expect(page.get_by_role("heading", name="Every egg is judged.")).to_be_visible()


def lock_down(page: Page, address: str, set_ms: int) -> None:
    at_day(page, set_ms, 18)
    page.goto(address)
    follow(page, "Lockdown")
    for family in ("Rowan", "Hazel", "Alder"):
        choose_tab(page, family)
        tap(page, "The rest go in")
    tap(page, "Lockdown done")
    expect(page.get_by_text(re.compile("^Lockdown done")).first).to_be_visible()


def finish_hatch(page: Page) -> None:
    choose_tab(page, "Alder")
    tap(page, "Hatched", 3)
    for family in ("Rowan", "Hazel", "Alder"):
        choose_tab(page, family)
        tap(page, "The rest did not hatch")


def open_what_is_left(page: Page, address: str, set_ms: int) -> None:
    at_day(page, set_ms, 23)
    page.goto(address)
    follow(page, "Open eggs")
    piles = {
        "Rowan": [("unhatched", ["Died late", "Pipped inside"]), ("clear", ["Infertile", "Died early"])],
        "Hazel": [
            ("unhatched", ["Died midway", "Died late", "Died late", "Pipped outside"]),
            ("clear", ["Infertile"]),
        ],
        "Alder": [("unhatched", ["Died late"] * 3), ("clear", ["Infertile"] * 4)],
    }
    for family, opened in piles.items():
        choose_tab(page, family)
        for pile, found in opened:
            radio = page.get_by_role("radio", name=re.compile(pile))
            if radio.count():
                radio.tap()
            for stage in found:
                button(page, stage).tap()
        if family == "Rowan":
            assert in_hand(page) == 1  # the blood ring, which may stay unopened


def assert_the_season(served, setting: str) -> None:
    found = served.run("report", "setting", setting)
    lots = {lot["n"]: lot for lot in found["lots"]}
    for n, fertile, hatched, deaths in (
        (16, 15, 11, {"early": 2, "mid": 0, "late": 1, "internal_pip": 1, "external_pip": 0, "unopened": 0}),
        (14, 13, 9, {"early": 0, "mid": 1, "late": 2, "internal_pip": 0, "external_pip": 1, "unopened": 0}),
        (10, 6, 3, {"early": 0, "mid": 0, "late": 3, "internal_pip": 0, "external_pip": 0, "unopened": 0}),
    ):
        assert_rate(lots[n]["fertility"], fertile, n)
        assert_rate(lots[n]["hatch_of_set"], hatched, n)
        assert_rate(lots[n]["hatch_of_fertile"], hatched, fertile)
        assert lots[n]["deaths"] == deaths
        assert lots[n]["fertility"]["basis"] == "opened"
    season = served.run("report", "season", str(datetime.now(UTC).year))
    assert [(one["name"], one["set"]) for one in season["families"]] == [("Alder", 10), ("Hazel", 14), ("Rowan", 16)]
    for family, (fertile, hatched) in zip(season["families"], ((6, 3), (13, 9), (15, 11)), strict=True):
        assert_rate(family["fertility"], fertile, family["set"])
        assert_rate(family["hatch_of_fertile"], hatched, fertile)
    assert season["problems"] == []
