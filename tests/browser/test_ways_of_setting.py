"""Eggs by post, eggs that run already, eggs under a hen and a hatch planned backwards: with no server, in each theme.

12 of Rowan by post; 12 set 19 days ago, of which 2 were clear and 1 a blood ring at the candling on day 8, locked down
on day 18; 8 under the hen Dot; and ducks, which take 28 days for her chicks' 21. The server tells the same afterwards.
"""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import day, go, name_the_place, pick, tap


@pytest.mark.parametrize("theme", THEMES)
def test_every_way_to_set_eggs(served, new_phone, theme):
    page = carried_away(served, new_phone, theme, "amber")
    name_the_place(page, ["Rowan"])
    posted = by_post(page)
    late = running_already(page)
    hen = under_a_hen(page)
    plan_backwards(page)

    back_home(page, served)
    sets = {entry["id"]: entry["body"] for entry in served.entries() if entry["kind"] == "set"}
    (lot,) = sets[posted]["lots"]
    assert lot["from"] == {"who": "A. Moss", "posted": True, "arrived": day(1)}
    assert (lot["laid_from"], lot["laid_to"]) == (day(5), day(3))
    total = served.run("report", "setting", late)["total"]
    assert total["stages"] == {"blood_ring": 1, "clear": 2, "locked": 9}
    assert (total["fertility"]["k"], total["fertility"]["n"]) == (10, 12)
    tasks = [task for task in served.run("report", "due")["tasks"] if task["setting"] == late]
    assert [(task["task"], task["n"], task["overdue"]) for task in tasks] == [("hatch", 9, False), ("open", 9, False)]
    dot = next(entry for entry in served.entries() if entry["body"].get("role") == "hen")
    assert (dot["body"], sets[hen]["place"]) == ({"name": "Dot", "role": "hen"}, dot["id"])
    assert served.run("report", "setting", hen)["total"]["stages"] == {"set": 8}
    hers = [task for task in served.run("report", "due", "--on", day(-17))["tasks"] if task["setting"] == hen]
    assert {task["task"] for task in hers} <= {"candle", "hatch"}
    (note,) = [entry["body"]["text"] for entry in served.entries() if entry["kind"] == "note"]
    assert note.startswith("Set duck eggs on")


def started(page: Page, eggs: int) -> str:
    tap(page, f"Start with {eggs} eggs")
    page.wait_for_url("**/setting/*")
    return page.url.rpartition("/")[2]


def by_post(page: Page) -> str:
    page.get_by_text("Laid when, from where").first.tap()
    pick(page, "By post")
    expect(page.get_by_text("Posted eggs rest 12 to 24 h, large end up, before they are set.").first).to_be_visible()
    tap(page, "Start with 12 eggs")
    expect(page.get_by_role("status").get_by_text("Say from whom")).to_be_visible()
    assert_sound(page)
    page.get_by_label("From whom").fill("A. Moss")
    page.get_by_label("Arrived on").fill(day(1))
    page.get_by_label("Oldest laid on").fill(day(0))
    page.get_by_label("Youngest laid on").fill(day(3))
    tap(page, "Start with 12 eggs")
    expect(page.get_by_role("status").get_by_text("The oldest is laid before the youngest.")).to_be_visible()
    page.get_by_label("Oldest laid on").fill(day(5))
    return started(page, 12)


def running_already(page: Page) -> str:
    go(page, "/rooms/set")
    pick(page, "A date")
    page.get_by_label("Day", exact=True).fill(day(19))
    expect(page.get_by_role("heading", name="It runs already")).to_be_visible()
    page.get_by_role("radiogroup", name="Held to the light?").get_by_role("radio", name="Yes").tap()
    page.get_by_role("textbox", name="On day").fill("8")
    page.get_by_role("textbox", name="Clear, Rowan").fill("12")
    page.get_by_role("textbox", name="Blood ring, Rowan").fill("1")
    expect(page.get_by_text("More were found than were set.")).to_be_visible()
    page.get_by_role("textbox", name="Clear, Rowan").fill("2")
    expect(page.get_by_text("The other 9 were live.")).to_be_visible()
    assert_sound(page)
    page.get_by_role("radiogroup", name="Lockdown done?").get_by_role("radio", name="Yes").tap()
    setting = started(page, 12)
    expect(page.get_by_role("heading", level=1)).to_have_text("Chicks due in 2 days")
    return setting


def under_a_hen(page: Page) -> str:
    go(page, "/rooms/set")
    page.get_by_label("In", exact=True).select_option(label="A broody hen")
    page.get_by_label("Her name").fill("Dot")
    expect(page.get_by_text("Chicks due: leave her alone")).to_be_visible()
    expect(page.get_by_text("Lockdown, day 18")).to_be_hidden()
    expect(page.get_by_text("the hatch falls above 10")).to_be_visible()
    assert_sound(page)
    page.get_by_role("textbox", name="Eggs of Rowan").fill("8")
    expect(page.get_by_text("the hatch falls above 10")).to_be_hidden()
    setting = started(page, 8)
    expect(page.get_by_text("Lockdown")).to_be_hidden()
    return setting


def plan_backwards(page: Page) -> None:
    """Ducks to hatch with her chicks: seven days too late; a week on they are set before the chickens."""
    go(page, "/families")
    tap(page, "Add a family")
    page.get_by_label("Name", exact=True).fill("Reed")
    page.get_by_label("Species").select_option(label="Duck")
    page.get_by_label("Breed").fill("Marsh Runner")
    tap(page, "Save the family")
    go(page, "/rooms/plan")
    page.get_by_role("button", name="With 8 chicks").tap()
    expect(page.get_by_role("region", name="Duck").get_by_text("7 days too late")).to_be_visible()
    page.get_by_label("Chicks on").fill(day(-35))
    ducks = page.get_by_role("region", name="Duck")
    expect(ducks.get_by_text("in 7 days")).to_be_visible()
    expect(page.get_by_role("region", name="Chicken").get_by_text("in 14 days")).to_be_visible()
    assert_sound(page)
    ducks.get_by_role("button", name="Write the plan in the book").tap()
    expect(ducks.get_by_text("Written in the book.")).to_be_visible()
