"""Eggs by post to a holding at 1500 m, no server near: what the thin air does to them is said beside the scales.

Tullett 2013 prints 20 % more gas movement at 1500 m; an example of 55 % humidity takes 62 % there (1 - 0.45 / 1.198).
"""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import name_the_place, pick, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served


@pytest.mark.parametrize("theme", THEMES)
def test_eggs_from_lower_ground_need_moister_air(served: Served, new_phone: Callable[..., Phone], theme: str) -> None:
    page = carried_away(served, new_phone, theme)
    page.get_by_text("Zone, height, units, your own words").tap()
    page.get_by_label("Height above the sea, m").fill("1500")
    name_the_place(page, ["Rowan"])
    page.get_by_text("Laid when, from where").first.tap()
    pick(page, "By post")
    page.get_by_label("From whom").fill("A. Moss")
    tap(page, "Start with 12 eggs")
    page.wait_for_url("**/setting/*")
    setting = page.url.rpartition("/")[2]
    page.goto(f"{page.url}/weigh")
    section = page.locator("section").filter(has_text="Eggs brought up to you")
    expect(section.get_by_text("at 1500 m they lose 20 % more water than there")).to_be_visible()
    expect(section.get_by_text("what 55 % humidity does at the sea takes 62 % here")).to_be_visible()
    section.locator("summary").tap()
    expect(section.get_by_text("84.6 kPa")).to_be_visible()
    assert_sound(page)
    back_home(page, served)
    found = served.run("report", "setting", setting)["brought_up"]
    assert (round(found["more_pct"]), round(found["humidity_pct"])) == (20, 62)
