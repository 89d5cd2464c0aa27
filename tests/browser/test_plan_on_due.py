"""A planned setting with no server near: it stands on Due, and the eggs set from there are those of the plan.

Ducks take 28 days: for chicks in 35 days they are set in seven.
"""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import day, go, name_the_place, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served


@pytest.mark.parametrize("theme", THEMES)
def test_a_plan_comes_on_due_and_is_taken_up(served: Served, new_phone: Callable[..., Phone], theme: str) -> None:
    page = carried_away(served, new_phone, theme)
    name_the_place(page, ["Rowan"])
    go(page, "/families")
    tap(page, "Add a family")
    page.get_by_label("Name", exact=True).fill("Reed")
    page.get_by_label("Species").select_option(label="Duck")
    page.get_by_label("Breed").fill("Marsh Runner")
    tap(page, "Save the family")

    go(page, "/rooms/plan")
    page.get_by_label("Chicks on").fill(day(-35))
    for species in ("Duck", "Chicken"):
        region = page.get_by_role("region", name=species)
        region.get_by_role("button", name="Write the plan in the book").tap()
        expect(region.get_by_text("Written in the book.")).to_be_visible()
        expect(region.get_by_role("button", name="Write the plan in the book")).to_be_disabled()
    assert_sound(page)
    page.get_by_role("button", name="Not any more: Set chicken eggs").tap()
    expect(page.get_by_role("button", name="Not any more")).to_have_count(1)

    go(page, "/due")
    planned = page.get_by_role("listitem").filter(has_text="as planned")
    expect(planned).to_contain_text("Set duck eggs")
    planned.locator("summary").tap()
    expect(planned.get_by_text("Set duck eggs, as planned for chicks from")).to_be_visible()
    assert_sound(page)
    planned.get_by_role("link", name="Set eggs").tap()
    expect(page.get_by_label("Species")).to_have_value("duck")
    expect(page.get_by_role("radiogroup", name="Are these the eggs you planned?")).to_be_visible()
    assert_sound(page)
    tap(page, "Start with 12 eggs")
    page.wait_for_url("**/setting/*")
    calendar = page.locator("section").filter(has=page.get_by_role("heading", name="Calendar"))
    calendar.get_by_text("Why?").tap()
    expect(calendar.get_by_text("Published tables differ by a day or two")).to_be_visible()
    expect(calendar.get_by_text("Incubating and Hatching Eggs, B-6092")).to_be_visible()
    assert_sound(page)
    go(page, "/due")
    expect(page.get_by_text("as planned")).to_have_count(0)

    back_home(page, served)
    ducks, chickens = [entry for entry in served.entries() if entry["kind"] == "note" and entry["amends"] is None]
    assert ducks["body"]["plan"] == {"species": "duck", "set_on": day(-7)}
    (begun,) = [entry["body"] for entry in served.entries() if entry["kind"] == "set"]
    assert begun["plan"] == ducks["id"]
    assert chickens["body"]["plan"]["species"] == "chicken"
    assert "set" not in {task["task"] for task in served.run("report", "due", "--on", day(-7))["tasks"]}
