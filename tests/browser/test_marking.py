"""Marking a hatch without a server, as a keeper would: webs and rings, what is not safe said, soles up, taken back.

Rowan hatched 4, Hazel 3, Alder 2, all in one machine. LO, RI and LO+RI together are not safe: a healed web turns the
third into either of the others (trade.md 9; by taking webs away).
"""

import json
import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.audit import SOUND, assert_sound, audit
from tests.browser.away import THEMES, at_day, carried_away, report, set_away
from tests.browser.hands import (
    EVERY_ROW,
    button,
    choose_tab,
    follow,
    tap,
)
from tests.browser.phones import Phone
from tests.browser.serving import Served

HATCHED = {"Rowan": 4, "Hazel": 3, "Alder": 2}


def hatch(page: Page, url: str) -> str:
    """Three families set, and hatched on day 21; gives the setting's address."""
    address = set_away(page, url, [(family, n + 1) for family, n in HATCHED.items()])
    at_day(page, 21.1)
    page.goto(f"{address}/tally/hatch")
    for family, n in HATCHED.items():
        choose_tab(page, family)
        tap(page, "Hatched", n)
    page.goto(address)
    return address


def web(page: Page, name: str) -> Locator:
    return page.get_by_role("switch", name=f"{name} web")


def label_right_inner(page: Page, label: str) -> None:
    """A name of the keeper's own for one pattern."""
    page.get_by_text("Numbers for patterns").tap()
    page.get_by_label("Call patterns by").select_option(label="Labels of my own")
    page.get_by_role("combobox", name="Webs").select_option(label="Right inner: 4")
    page.get_by_label("Your label for right inner").fill(label)
    tap(page, "Keep this label")
    expect(page.get_by_text(f"You call it {label}.")).to_be_visible()


def bodies(page: Page, kind: str) -> list[dict[str, Any]]:
    """What was written on this phone, in order."""
    entries = [json.loads(row["text"]) for row in page.evaluate(EVERY_ROW)]
    return [one["body"] for one in sorted(entries, key=lambda one: one["id"]) if one["kind"] == kind]


@pytest.mark.parametrize("theme", THEMES)
def test_webs_and_rings_without_signal(served: Served, new_phone: Callable[..., Phone], theme: str) -> None:
    page = carried_away(served, new_phone, theme, "amber")
    address = hatch(page, served.url)
    page.get_by_role("link", name="Mark, Rowan").tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("Rowan: 4 chicks, none marked")
    expect(page.get_by_text("farmed ducks only, within 36 hours")).to_be_visible()
    assert page.get_by_role("switch").count() == 0, "no web before the law was asked"
    assert_sound(page)
    tap(page, "Webs are allowed here and wanted")

    expect(page.get_by_text("No web is tapped yet")).to_be_visible()
    assert button(page, "Mark 4 chicks").get_attribute("aria-disabled") == "true", "none is no mark"
    left_to_right = [one.get_attribute("aria-label") for one in page.get_by_role("switch").all()]
    assert left_to_right == ["Left outer web", "Left inner web", "Right inner web", "Right outer web"]
    page.get_by_text("Numbers for patterns").tap()
    page.get_by_label("Call patterns by").select_option(label="A plain sum: from left to right 1, 2, 4, 8")
    web(page, "Left outer").tap()
    expect(page.get_by_text("You call it 1.")).to_be_visible()
    expect(page.get_by_text("If the left outer heals, this reads as a chick nobody marked.")).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}
    tap(page, "Mark 4 chicks")
    expect(page.get_by_role("heading", level=2).first).to_have_text("One Rowan chick: left outer")
    assert_sound(page)
    tap(page, "Yes, 4 Rowan marked")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rowan: all 4 chicks are marked")

    page.get_by_role("link", name="Hazel").tap()
    page.get_by_role("radio", name="Soles up").tap()
    seen = [one.get_attribute("aria-label") for one in page.get_by_role("switch").all()]
    assert seen == left_to_right[::-1], "held soles up, left and right change sides"
    web(page, "Right inner").tap()
    expect(page.get_by_text("You call it 4.")).to_be_visible()
    label_right_inner(page, "Bell")
    assert audit(page) == {"axe": [], **SOUND}
    tap(page, "Mark 3 chicks")
    expect(page.get_by_text("Rowan shares Loft box and wears the same")).to_have_count(0)
    tap(page, "Yes, 3 Hazel marked")

    page.get_by_role("link", name="Alder").tap()
    web(page, "Left outer").tap()
    expect(page.get_by_text("Rowan wears this pattern this season.")).to_be_visible()
    web(page, "Right inner").tap()
    expect(page.get_by_text("If the left outer heals, this reads as Hazel.")).to_be_visible()
    expect(page.get_by_text("If the right inner heals, this reads as Rowan.")).to_be_visible()
    tap(page, "Use it")
    expect(page.get_by_text("Left inner and right outer.")).to_be_visible()
    expect(page.get_by_text("You call it 10.")).to_be_visible()
    expect(page.get_by_text("Safe: if one web heals over, it reads as no other family.")).to_be_visible()
    page.get_by_role("radio", name="Ring").tap()
    expect(page.get_by_label("Colour")).to_have_value("white")
    assert audit(page) == {"axe": [], **SOUND}
    page.get_by_label("Colour").select_option("blue")
    page.get_by_role("radio", name="Right", exact=True).tap()
    tap(page, "Mark 2 chicks")
    tap(page, "Yes, 2 Alder marked")
    expect(page.get_by_text(re.compile("^2: blue ring, right leg, "))).to_be_visible()

    page.get_by_role("link", name="Hazel").tap()
    page.get_by_role("radio", name="Ring").tap()
    page.get_by_label("Colour").select_option("blue")
    page.get_by_role("radio", name="Right", exact=True).tap()
    expect(page.get_by_text("Alder wears this already.")).to_be_visible()
    tap(page, "Mark 1 chick")
    shared = "Alder shares Loft box and wears the same. Give these another mark before they mix."
    expect(page.get_by_text(shared)).to_be_visible()
    tap(page, "Change it")

    # whatever the keeper calls them, a mark is its webs
    assert [{name: said for name, said in one.items() if name != "lot"} for one in bodies(page, "marked")] == [
        {"webs": ["LO"], "n": 4},
        {"webs": ["RI"], "n": 3},
        {"tag": {"kind": "ring", "colour": "blue", "leg": "right"}, "n": 2},
    ]
    labels = bodies(page, "keeper")[-1]["mark_key"]
    assert (len(labels), labels["LO"], labels["RI"], labels["LI+RO"]) == (15, "1", "Bell", "10")
    tap(page, "Take back")
    expect(page.get_by_role("heading", level=1)).to_have_text("Hazel: 3 chicks, none marked")

    look_at_webs_again(page, served.url)
    found = report(served, page, address)
    assert found["total"]["stages"] == {"set": 3, "hatched": 9}
    taken_back = {entry["amends"] for entry in served.entries() if entry["kind"] == "marked" and entry["void"]}
    marked = [entry for entry in served.entries() if entry["kind"] == "marked" and not entry["void"]]
    stands = [entry["body"] for entry in marked if entry["id"] not in taken_back]
    assert sorted(one["n"] for one in stands if not one.get("recheck")) == [2, 4]
    assert [(one["webs"], one.get("n")) for one in stands if one.get("recheck")] == [(["LO"], 1), (["LO"], None)]


def look_at_webs_again(page: Page, url: str) -> None:
    """Two weeks after they were punched (Slocum 2020) it is asked for; one had closed, and it is asked no more."""
    at_day(page, 35.2)
    page.goto(f"{url}/due")
    expect(page.get_by_text("Look at toe webs, Loft box")).to_be_visible()
    follow(page, "Webs")
    expect(page.get_by_text("Not looked at yet.")).to_be_visible()
    assert_sound(page)
    expect(page.get_by_text("Closed and punched again").first).to_be_visible()
    tap(page, "1 web mark punched again")
    expect(page.get_by_text("Last looked at").first).to_be_visible()
    tap(page, "All are open")
    page.goto(f"{url}/due")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(page.get_by_text("Look at toe webs, Loft box")).to_have_count(0)


@pytest.mark.parametrize("theme", THEMES)
def test_where_webs_are_not_allowed_rings_are_offered_and_marks_are_looked_at_again(
    served: Served, new_phone: Callable[..., Phone], theme: str
) -> None:
    page = carried_away(served, new_phone, theme)
    address = hatch(page, served.url)
    page.get_by_role("link", name="Mark, Rowan").tap()
    tap(page, "Not allowed or not wanted here")
    assert page.get_by_role("radio", name="Webs").count() == 0
    tap(page, "Mark 4 chicks")
    tap(page, "Yes, 4 Rowan marked")
    page.get_by_role("link", name="Hazel").tap()
    page.get_by_role("radio", name="Wing tag").tap()
    page.get_by_label("Number or letters").fill("104")
    tap(page, "Mark 1 chick")
    tap(page, "Yes, 1 Hazel marked")
    expect(page.get_by_role("heading", level=1)).to_have_text("Hazel: 2 of 3 chicks still to mark")
    at_day(page, 27.1)
    page.goto(f"{address.split('/setting')[0]}/due")
    follow(page, "Rings")
    assert_sound(page)
    tap(page, "Changed for larger rings")
    tap(page, "All turn freely")
    page.goto(f"{address.split('/setting')[0]}/due")
    expect(page.get_by_text("Look at rings, Loft box")).to_be_visible()
    [care] = bodies(page, "care")
    assert care["task"] == "rings"
    ringed, winged, larger = bodies(page, "marked")
    assert (winged["tag"], winged["n"]) == ({"kind": "wing", "text": "104"}, 1)
    assert (larger["tag"], larger["n"], larger["lot"]) == (ringed["tag"], 4, ringed["lot"])
    assert larger["replaces"]
    found = report(served, page, address)
    assert {lot["n"]: lot["stages"].get("hatched") for lot in found["lots"]} == {5: 4, 4: 3, 3: 2}
