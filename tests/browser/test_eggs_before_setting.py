"""Eggs from the nest to the machine with no server near, in every theme; the numbers are asked from the server later.

By hand: Rowan 5 laid 9 days ago, 6 four days ago, 4 yesterday (3 kept), Hazel 4 four days ago: 18 kept. Two of Rowan
eaten, the oldest: 16 in store, the oldest 9 days. Commercial flocks lost 0.2 x 7 + 0.5 x 2 = 2.4 points at 9 days.
"""

import datetime
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import name_the_place, pick, tap


def day(ago: int) -> str:
    """In the phones' own zone."""
    return (datetime.datetime.now(ZoneInfo("Europe/Dublin")).date() - datetime.timedelta(days=ago)).isoformat()


def go(page: Page, path: str) -> None:
    page.goto(page.url.split("/", 3)[0] + "//" + page.url.split("/", 3)[2] + path)
    expect(page.get_by_role("heading", level=1)).to_be_visible()


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


def test_eggs_by_post_are_told_apart(served, new_phone):
    page = carried_away(served, new_phone, "hatch-room")
    name_the_place(page, ["Rowan"])
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
    tap(page, "Start with 12 eggs")
    page.wait_for_url("**/setting/*")
    back_home(page, served)
    (lot,) = next(entry["body"]["lots"] for entry in served.entries() if entry["kind"] == "set")
    assert lot["from"] == {"who": "A. Moss", "posted": True, "arrived": day(1)}
    assert (lot["laid_from"], lot["laid_to"]) == (day(5), day(3))


def test_a_setting_that_runs_already(served, new_phone):
    """12 of Rowan set 19 days ago: candled on day 8, 2 clear and 1 blood ring; locked down on day 18."""
    page = carried_away(served, new_phone, "night")
    name_the_place(page, ["Rowan"])
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
    tap(page, "Start with 12 eggs")
    page.wait_for_url("**/setting/*")
    expect(page.get_by_role("heading", level=1)).to_have_text("Chicks due in 2 days")
    setting = page.url.rpartition("/")[2]
    back_home(page, served)
    total = served.run("report", "setting", setting)["total"]
    assert total["stages"] == {"blood_ring": 1, "clear": 2, "locked": 9}
    assert (total["fertility"]["k"], total["fertility"]["n"]) == (10, 12)
    tasks = served.run("report", "due")["tasks"]
    assert [(task["task"], task["n"], task["overdue"]) for task in tasks] == [("hatch", 9, False), ("open", 9, False)]


def test_under_a_hen_and_planned_backwards(served, new_phone):
    page = carried_away(served, new_phone, "day")
    name_the_place(page, ["Rowan"])
    page.get_by_label("In", exact=True).select_option(label="A broody hen")
    page.get_by_label("Her name").fill("Dot")
    expect(page.get_by_text("Chicks due: leave her alone")).to_be_visible()
    expect(page.get_by_text("Lockdown, day 18")).to_be_hidden()
    expect(page.get_by_text("the hatch falls above 10")).to_be_visible()
    assert_sound(page)
    page.get_by_role("textbox", name="Eggs of Rowan").fill("9")
    expect(page.get_by_text("the hatch falls above 10")).to_be_hidden()
    tap(page, "Start with 9 eggs")
    page.wait_for_url("**/setting/*")
    expect(page.get_by_text("Lockdown")).to_be_hidden()

    # ducks to hatch with her chicks: seven days too late; a week on they are set before the chickens
    go(page, "/families")
    tap(page, "Add a family")
    page.get_by_label("Name", exact=True).fill("Reed")
    page.get_by_label("Species").select_option(label="Duck")
    page.get_by_label("Breed").fill("Marsh Runner")
    tap(page, "Save the family")
    go(page, "/rooms/plan")
    page.get_by_role("button", name="With 9 chicks").tap()
    expect(page.get_by_role("region", name="Duck").get_by_text("7 days too late")).to_be_visible()
    page.get_by_label("Chicks on").fill(day(-35))
    ducks = page.get_by_role("region", name="Duck")
    expect(ducks.get_by_text("in 7 days")).to_be_visible()
    expect(page.get_by_role("region", name="Chicken").get_by_text("in 14 days")).to_be_visible()
    assert_sound(page)
    ducks.get_by_role("button", name="Write the plan in the book").tap()
    expect(ducks.get_by_text("Written in the book.")).to_be_visible()
    back_home(page, served)
    kinds = {entry["kind"]: entry["body"] for entry in served.entries()}
    assert kinds["note"]["text"].startswith("Plan: set duck")
    hen = next(entry for entry in served.entries() if entry["body"].get("role") == "hen")
    assert (hen["body"], kinds["set"]["place"]) == ({"name": "Dot", "role": "hen"}, hen["id"])
    assert {task["task"] for task in served.run("report", "due", "--on", day(-17))["tasks"]} <= {"candle", "hatch"}
