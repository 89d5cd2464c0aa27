"""Eggs from the nest to the machine with no server near, in every theme; the numbers are asked from the server later.

By hand: Rowan 5 laid 9 days ago, 6 four days ago, 4 yesterday (3 kept), Hazel 4 four days ago: 18 kept. Two of Rowan
eaten, the oldest: 16 in store, the oldest 9 days. Commercial flocks lost 0.2 x 7 + 0.5 x 2 = 2.4 points at 9 days.
"""

import datetime
import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import day, go, name_the_place, pick, tap


def gather(page: Page, ago: int, **found: tuple[int, int]) -> None:
    """One round: gathered and kept of each family."""
    tap(page, "Eggs gathered")
    if ago:
        pick(page, "A date")
        page.get_by_role("region", name="What did you gather?").get_by_label("Day", exact=True).last.fill(day(ago))
    for family, (n, kept) in found.items():
        page.get_by_role("textbox", name=f"Gathered of {family}").fill(str(n))
        page.get_by_role("textbox", name=f"Kept of {family}").fill(str(kept))
    tap(page, "Save")


@pytest.mark.parametrize("theme", THEMES)
def test_from_the_nest_to_the_machine_and_again(served, new_phone, theme):
    page = carried_away(served, new_phone, theme)
    go(page, "/eggs")
    expect(page.get_by_role("link", name="Add a family")).to_be_visible()
    go(page, "/welcome")
    name_the_place(page, ["Rowan", "Hazel"])
    go(page, "/eggs")
    expect(page.get_by_role("heading", name="No eggs in store")).to_be_visible()
    gather(page, 9, Rowan=(5, 5))
    gather(page, 4, Rowan=(6, 6), Hazel=(4, 4))
    gather(page, 1, Rowan=(4, 3))
    expect(page.get_by_role("heading", name="18 eggs in store, the oldest 9 days")).to_be_visible()
    tap(page, "Eggs gathered")
    page.get_by_role("textbox", name="Gathered of Hazel").fill("9")
    assert_sound(page)
    tap(page, "Save")
    tap(page, "Undo")
    expect(page.get_by_role("heading", name="18 eggs in store, the oldest 9 days")).to_be_visible()
    tap(page, "Sold, eaten, given")
    assert_sound(page)
    page.get_by_role("textbox", name="Eggs", exact=True).fill("2")
    page.get_by_label("Of", exact=True).select_option(label="Rowan, 14 in store")
    pick(page, "Eaten")
    tap(page, "Save")
    expect(page.get_by_role("heading", name="16 eggs in store, the oldest 9 days")).to_be_visible()
    expect(page.get_by_text("commercial flocks lost 2.4 points of hatch, on average")).to_be_visible()

    # in three days 6 of Rowan's are 7 days old, in four 8
    expect(page.get_by_text("12 of those in store now; 9 of them will be no older than 7 days.")).to_be_visible()
    page.get_by_label("Set on").fill(day(-4))
    expect(page.get_by_text("12 of those in store now; 3 of them will be no older than 7 days.")).to_be_visible()

    # set all of it: what is in store stands there already, and is told with the days it was laid on
    page.get_by_role("link", name="Set eggs").tap()
    expect(page.get_by_role("textbox", name="Eggs of Rowan")).to_have_value("12")
    expect(page.get_by_role("textbox", name="Eggs of Hazel")).to_have_value("4")
    expect(page.get_by_text("The oldest is 9 days old at setting")).to_be_visible()
    assert_sound(page)
    tap(page, "9 of up to 7 days")
    tap(page, "Start with 13 eggs")
    page.wait_for_url("**/setting/*")
    first = page.url.rpartition("/")[2]

    # a week's eggs later, as last time; and the machine would have to stop turning for the first
    go(page, "/eggs")
    expect(page.get_by_role("heading", name="3 eggs in store, the oldest 9 days")).to_be_visible()
    gather(page, 0, Rowan=(2, 2), Hazel=(5, 5))
    page.clock.set_system_time(datetime.datetime.now(datetime.UTC) + datetime.timedelta(days=7))
    go(page, "/rooms/set")
    tap(page, "Set again, as last time")
    expect(page.get_by_role("textbox", name="Eggs of Rowan")).to_have_value("2")
    expect(page.get_by_role("textbox", name="Eggs of Hazel")).to_have_value("5")
    expect(page.get_by_text("while these are on day 10")).to_be_visible()
    tap(page, "Start with 7 eggs")
    page.wait_for_url("**/setting/*")
    second = page.url.rpartition("/")[2]
    go(page, "/rooms")
    card = page.get_by_role("region", name="Loft box")
    for strip in ("Day 7", "Day 0"):  # the eggs added to the running machine stand on the same card
        expect(card.get_by_role("img", name=re.compile(f"^{strip} of incubation"))).to_have_count(1)

    back_home(page, served)
    told = {entry["id"]: entry["body"]["name"] for entry in served.entries() if entry["kind"] == "family"}
    for setting, expected in ((first, {"Rowan": 9, "Hazel": 4}), (second, {"Rowan": 2, "Hazel": 5})):
        lots = served.run("report", "setting", setting)["lots"]
        assert {told[lot["family"]]: lot["n"] for lot in lots} == expected
    store = {told[one["family"]]: one for one in served.run("report", "store")["families"]}
    assert {name: (one["kept"], one["out"], one["set"], one["n"]) for name, one in store.items()} == {
        "Rowan": (16, 2, 11, 3),
        "Hazel": (9, 0, 9, 0),
    }
    sets = [entry["body"]["lots"] for entry in served.entries() if entry["kind"] == "set"]
    rowan = sets[0][[told[lot["family"]] for lot in sets[0]].index("Rowan")]
    assert (rowan["laid_from"], rowan["laid_to"], rowan["sign"]) == (day(4), day(1), "R")
