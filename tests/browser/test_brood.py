"""A brood from the hatch through the brooder until it is off heat, without a server; its report is asked afterwards.

Rowan 9 and Hazel 7 came out on 22 March 2026. Rowan: one died of weakness on day 4; two taken by a fox on day 15 (no
alarm); Hazel: one missing on day 5, one culled on day 20. First weeks: 1 of 9 and 1 of 7. Survival by hand:
Rowan 8/9 on day 4, 6/9 on day 15; Hazel 6/7 on day 5. Floor of 14 chicks on day 8: 180 cm² each (NSW) to half a square
foot (the student text); on day 14: 440 cm² to 0.75 ft² (FACT).
"""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.away import back_home, carried_away
from tests.browser.brooder import (
    aged,
    done,
    hatch_brood,
    look,
    lose,
    move_all,
    read_heat,
    ring,
    task_row,
    to_batch,
    to_place,
)
from tests.browser.hands import follow, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served

OFF_HEAT = "2026-05-05"
"""Day 44."""


@pytest.fixture
def page(served: Served, new_phone: Callable[..., Phone]) -> Page:
    return carried_away(served, new_phone, "day")


def test_a_brood_from_the_hatch_until_it_is_off_heat(page: Page, served: Served) -> None:
    url = served.url
    address = hatch_brood(page, url)
    into_the_brooder(page, address)
    first_days(page, url)
    after_a_week(page, url)
    losses(page, url)
    off_heat(page, url)
    back_home(page, served)
    assert_the_reports(served)
    to_batch(page, url, "Rowan")
    expect(page.get_by_text("67 of 100 alive after day 15")).to_be_visible()
    expect(page.get_by_text("No difference between the families of this hatch")).to_be_visible()


def into_the_brooder(page: Page, address: str) -> None:
    """Whom marks do not tell apart is said before they meet; marked, nothing is."""
    aged(page, 0.5)
    follow(page, "Move some, or elsewhere")
    expect(page.get_by_role("heading", level=1)).to_have_text("Move 16 chicks")
    expect(
        page.get_by_text("Rowan and Hazel will be together, and their marks do not tell them apart.")
    ).to_be_visible()
    ring(page, address, "Rowan", "blue")
    ring(page, address, "Hazel", "yellow")
    page.goto(f"{address}/hatching")
    follow(page, "Move some, or elsewhere")
    expect(page.get_by_text("do not tell them apart")).to_have_count(0)
    move_all(page, 16, "Brooder one", role="Brooder")
    follow(page, "Go there")
    expect(page.get_by_role("heading", level=1)).to_have_text("16 chicks, hatched today: 32 to 35 °C")


def first_days(page: Page, url: str) -> None:
    """The chicks outrank the thermometer; what is due is done with one tap, and taken back."""
    aged(page, 1.1)
    to_place(page, url, "Brooder one")
    look(page, "Huddled")
    expect(page.get_by_text("cold. Raise the heat a little.")).to_be_visible()
    read_heat(page, "33,5")
    expect(page.get_by_text("33.5 °C at their backs")).to_have_count(2)
    expect(page.get_by_text(re.compile("^Raise the heat a little all the same"))).to_be_visible()
    look(page, "Spread evenly")
    expect(page.get_by_text("the warmth is in the band: leave it as it is")).to_be_visible()
    expect(page.get_by_text("Heat lamps start fires")).to_be_visible()
    assert_sound(page)
    tap(page, "Round done: water, feed, litter")
    expect(page.get_by_role("button", name=re.compile("^Done ?: Fresh water"))).to_have_count(0)
    tap(page, "Undo: Round: water, feed, litter")
    expect(page.get_by_role("button", name=re.compile("^Done ?: Fresh water"))).to_be_visible()

    aged(page, 4.1)
    page.goto(f"{url}/due")
    done(page, "Feed in a pan, paper up")
    done(page, "Look for chicks that do not eat")
    done(page, "Fresh water")
    page.get_by_role("group").filter(has_text="Clean the drinkers").locator("summary").first.tap()
    row = task_row(page, "Clean the drinkers")
    row.locator("summary", has_text="Put it off").tap()
    tap(page, "Not for these birds")
    expect(page.get_by_text(re.compile("^Clean the drinkers: not asked until"))).to_be_visible()
    expect(page.get_by_role("button", name=re.compile("^Done ?: Clean the drinkers"))).to_have_count(0)
    to_place(page, url, "Brooder one")
    expect(page.get_by_text("Not asked for now")).to_be_visible()
    lose(page, "Dead", "Rowan, 9", 1, "Weak from the start")
    aged(page, 5.1)
    to_batch(page, url, "Hazel")
    lose(page, "Missing", None, 1)


def after_a_week(page: Page, url: str) -> None:
    aged(page, 8.1)
    to_place(page, url, "Brooder one")
    expect(page.get_by_role("heading", level=1)).to_have_text("14 chicks, 8 days old: 29 to 32 °C")
    done(page, "Lower the heat")
    expect(page.get_by_text("From Sun 5 Apr: 27 to 29 °C, if they lie spread.")).to_be_visible()
    expect(page.get_by_role("row", name="Floor 0.25 to 0.66 m² 0.61 to 0.98 m²")).to_be_visible()
    expect(page.get_by_text("Now: chick crumb, 18 to 22 % protein.")).to_be_visible()
    expect(page.get_by_text(re.compile(r"^\d+ to \d+ kg, layers and old breeds\.$"))).to_be_visible()
    to_batch(page, url, "Rowan")
    expect(page.get_by_text("1 of 9 died or went missing; one death is no pattern.")).to_be_visible()
    expect(page.get_by_text("Commercial flocks: at most 1 % in a first week, at best 0.75.")).to_be_visible()


def losses(page: Page, url: str) -> None:
    aged(page, 15.1)
    to_place(page, url, "Brooder one")
    lose(page, "Dead", "Rowan, 8", 2, "Fox")
    expect(page.get_by_text("died here within a day")).to_have_count(0)
    aged(page, 20.1)
    to_batch(page, url, "Hazel")
    lose(page, "Culled", None, 1, "Legs")
    assert_sound(page)


def off_heat(page: Page, url: str) -> None:
    """They move to a pen; a dust bath is offered only there."""
    aged(page, 44.1)
    to_place(page, url, "Brooder one")
    expect(page.get_by_text("No heat is asked for at this age")).to_be_visible()
    expect(page.get_by_text("A dust bath", exact=True)).to_have_count(0)
    follow(page, "Move them")
    move_all(page, 11, "Orchard", role="Pen")
    follow(page, "Go there")
    expect(page.get_by_role("heading", level=1)).to_have_text("11 growing birds, 44 days old")
    page.locator("summary", has_text="A dust bath").tap()
    tap(page, "They have a dust bath")
    expect(page.get_by_text("Dust bath filled, Orchard")).to_be_visible()
    page.goto(f"{url}/broods")
    expect(page.get_by_role("heading", level=1)).to_have_text("11 growing birds in 1 place")


def assert_the_reports(served: Served) -> None:
    entries = served.entries()
    (founding,) = [one for one in entries if one["kind"] == "set"]
    rowan, hazel = (lot["lot"] for lot in founding["body"]["lots"])
    brood = served.run("report", "brood", rowan, "--on", OFF_HEAT)
    assert (brood["family_name"], brood["age_days"], brood["alive"]) == ("Rowan", 44, 6)
    assert brood["stages"] == {"died": 3, "growing": 6, "set": 3}
    assert [(one["place_name"], one["n"]) for one in brood["places"]] == [("Orchard", 6)]
    points = brood["survival"]["points"]
    assert [(one["day"], one["at_risk"], one["died"]) for one in points] == [(4, 9, 1), (15, 8, 2)]
    assert [one["rate"] for one in points] == pytest.approx([8 / 9, 6 / 9])
    assert (brood["first_week"]["k"], brood["first_week"]["n"]) == (1, 9)
    assert brood["alarms"] == [], "one death, and a fox"
    assert brood["heat"] is None
    assert brood["problems"] == []
    tasks = {task["task"] for task in brood["tasks"]}
    assert "water" in tasks
    assert "drinkers" in tasks, "silenced in the brooder, not in the pen"

    other = served.run("report", "brood", hazel, "--on", OFF_HEAT)
    assert other["stages"] == {"culled": 1, "growing": 5, "set": 3, "unaccounted": 1}
    assert [(one["day"], one["at_risk"], one["died"]) for one in other["survival"]["points"]] == [(5, 7, 1)]
    assert (other["first_week"]["k"], other["first_week"]["n"], other["first_week"]["culled"]) == (1, 7, 0)
    groups = [(one["family_name"], one["n"], one["last_day"]) for one in other["survival_by"]["groups"]]
    assert groups == [("Hazel", 7, 44), ("Rowan", 9, 44)]
    cares = [one["body"]["task"] for one in entries if one["kind"] == "care" and not one["void"]]
    assert sorted(cares) == ["drinkers", "dust_bath", "eat", "heat", "pan"]
