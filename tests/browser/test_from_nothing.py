"""From an empty app to the first setting with no server near: at most 25 taps and two minutes, in every theme.

A tap is a finger coming down. Typing is typing: 1.5 characters a second is a slow thumb; a second for each tap to
look where it goes. The phone itself may take what it needs on top.
"""

import time

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.away import THEMES, back_home, carried_away
from tests.browser.hands import button, name_the_place, pick, tap
from tests.browser.serving import Served

MOST_TAPS = 25
MOST_SECONDS = 120
SECONDS_A_TAP = 1.0
CHARACTERS_A_SECOND = 1.5
COUNT_TAPS = "window.taps = 0; addEventListener('touchstart', () => { window.taps += 1 }, true)"


class Thumb:
    """Taps and types, and knows how much of it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.typed = 0

    def into(self, label: str, text: str, at: int = 0) -> None:
        self.page.get_by_label(label, exact=True).nth(at).tap()
        self.page.keyboard.type(text)
        self.typed += len(text)

    def count(self, label: str, text: str) -> None:
        """A count is marked when tapped, so that typing replaces it."""
        self.page.get_by_role("textbox", name=label).tap()
        self.page.keyboard.type(text)
        self.typed += len(text)


@pytest.mark.parametrize("theme", THEMES)
def test_the_first_setting(served: Served, new_phone, theme):
    page = carried_away(served, new_phone, theme)
    expect(page.get_by_text("Three short answers")).to_be_visible()
    page.evaluate(COUNT_TAPS)
    thumb = Thumb(page)
    began = time.monotonic()
    thumb.into("Name of your place", "Gorse Bank")
    thumb.into("Its name", "Loft box")
    pick(page, "Still, no fan")
    for at, (name, sign) in enumerate((("Rowan", "R"), ("Hazel", "H"))):
        if at:
            tap(page, "Add a family")
        thumb.into("Name", name, at)
        if not at:  # the next family is most often of the same breed: it is filled in
            thumb.into("Breed", "Marsh Speckle", at)
        thumb.into("Sign on the eggs", sign, at)
    tap(page, "Begin")
    thumb.count("Eggs of Rowan", "16")
    tap(page, "Another batch")
    thumb.count("Eggs of Hazel", "14")
    expect(page.get_by_text("What comes when")).to_be_visible()
    tap(page, "Start with 30 eggs")
    page.wait_for_url("**/setting/*")
    took = time.monotonic() - began
    taps = page.evaluate("window.taps")
    assert 12 <= taps <= MOST_TAPS
    assert took + taps * SECONDS_A_TAP + thumb.typed / CHARACTERS_A_SECOND <= MOST_SECONDS
    setting = page.url.rpartition("/")[2]
    back_home(page, served)
    report = served.run("report", "setting", setting)
    names = {entry["id"]: entry["body"]["name"] for entry in served.entries() if entry["kind"] == "family"}
    assert [(names[lot["family"]], lot["n"], lot["stages"]) for lot in report["lots"]] == [
        ("Rowan", 16, {"set": 16}),
        ("Hazel", 14, {"set": 14}),
    ]
    (box,) = [entry["body"] for entry in served.entries() if entry["kind"] == "place"]
    assert box == {"name": "Loft box", "role": "incubator", "air": "still"}
    breeds = {entry["body"]["breed"] for entry in served.entries() if entry["kind"] == "family"}
    assert breeds == {"Marsh Speckle"}


def test_a_place_told_in_feet_with_words_of_its_own(served: Served, new_phone):
    page = carried_away(served, new_phone, "day")
    page.get_by_label("Name of your place").fill("Gorse Bank")
    pick(page, "United States")
    page.get_by_text("Zone, height, units").tap()
    page.get_by_label("Time zone").fill("Nowhere/Atall")
    page.get_by_label("Its name").fill("Loft box")
    tap(page, "Begin")
    expect(page.get_by_text("one of them cannot be")).to_be_visible()
    page.get_by_label("Time zone").fill("America/Denver")
    page.get_by_label("Height above the sea, ft").fill("5,280")
    assert_sound(page)
    pick(page, "line")
    pick(page, "hatch")
    page.get_by_label("Name", exact=True).fill("Rowan")
    tap(page, "Begin")
    expect(page.get_by_role("combobox", name="Line")).to_be_visible()
    page.goto(f"{served.url}/families")
    expect(page.get_by_role("heading", name="1 line")).to_be_visible()
    expect(page.get_by_role("link", name="Lines")).to_be_visible()
    expect(button(page, "Add a line")).to_be_visible()
    page.goto(f"{served.url}/holding")
    expect(page.get_by_label("Height above the sea, ft")).to_have_value("5280")
    pick(page, "°C")
    expect(page.get_by_label("Height above the sea, m")).to_have_value("1609")
    tap(page, "Save")
    expect(page.get_by_text("Saved.")).to_be_visible()
    back_home(page, served)
    told = [entry["body"] for entry in served.entries() if entry["kind"] == "keeper"]
    words = {"family": "line", "hatch": "hatch"}
    shared = {"holding": "Gorse Bank", "zone": "America/Denver", "mass": "oz", "region": "us", "words": words}
    assert told == [
        {**shared, "temperature": "F", "altitude_m": 1609.3, "season_starts": 1},
        {**shared, "temperature": "C", "altitude_m": 1609, "season_starts": 1},
    ]


def test_a_machine_that_is_full_and_signs_that_are_alike(served: Served, new_phone):
    page = carried_away(served, new_phone, "night")
    name_the_place(page, ["Rowan", "Russet"])
    page.goto(f"{served.url}/rooms/places")
    page.get_by_role("button", name="Change Loft box").tap()
    page.get_by_label("How many eggs it holds").fill("20")
    pick(page, "By hand")
    assert_sound(page)
    tap(page, "Save")
    expect(page.get_by_text("holds 20")).to_be_visible()
    tap(page, "Add a place")
    page.get_by_label("Name", exact=True).fill("Cellar shelf")
    pick(page, "Egg store")
    tap(page, "Save")
    expect(page.get_by_role("heading", name="2 places")).to_be_visible()
    page.goto(f"{served.url}/rooms/set")
    tap(page, "Another batch")
    expect(page.get_by_text("24 eggs together; it holds 20.")).to_be_visible()
    expect(page.get_by_text("Rowan and Russet both bear R.")).to_be_visible()
    assert_sound(page)
    tap(page, "Start with 24 eggs")  # named, and saved all the same
    page.wait_for_url("**/setting/*")
    back_home(page, served)
    places = [entry["body"] for entry in served.entries() if entry["kind"] == "place"]
    assert places == [
        {"name": "Loft box", "role": "incubator"},
        {"name": "Loft box", "role": "incubator", "turns": "hand", "capacity": 20},
        {"name": "Cellar shelf", "role": "store"},
    ]
    (setting,) = [entry["id"] for entry in served.entries() if entry["kind"] == "set"]
    assert served.run("report", "setting", setting)["total"]["stages"] == {"set": 24}
