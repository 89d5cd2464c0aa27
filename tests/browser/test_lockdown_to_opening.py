"""Lockdown, hatch and opening with no server, by the left hand, in each theme, as a keeper taps it.

Counts were worked out by hand, beside each; the setting's report is asked afterwards.
"""

import re
from datetime import datetime

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_large_keys
from tests.browser.away import SET_MS, at_day, carried_away, rate, report, set_away
from tests.browser.hands import DAY_MS, button, in_hand, tap

ANSWERS = {"day": ("Day",), "night": ("Night",), "hatch-room": ("Hatch room", "Amber")}
"""What a keeper chooses on the page of this phone."""


def choose(page: Page, *answers: str) -> None:
    """On the page of this phone."""
    for answer in answers:
        page.get_by_role("radio", name=answer, exact=True).tap()


def come_back_to_lockdown(page: Page, address: str) -> None:
    """Called away in the middle of it: the page of the setting still asks for it first."""
    page.goto(address)
    expect(page.get_by_role("heading", name="Lockdown is due", level=1)).to_be_visible()
    expect(page.locator("a.press.main")).to_have_text("Lockdown")
    page.get_by_role("link", name="Lockdown", exact=True).tap()


@pytest.mark.parametrize(("theme", "answers"), ANSWERS.items())
def test_from_lockdown_to_opening_with_the_left_hand(served, new_phone, theme, answers):
    """Rowan 10: 1 clear, 7 hatched of 9 fertile (1 weak, 1 helped), 1 dead midway on day 10, 1 at internal pip.

    Hazel 6: 4 hatched, typed from paper; 2 dead late.
    """
    page = carried_away(served, new_phone, "day")
    address = set_away(page, served.url, [("Rowan", 10), ("Hazel", 6)])
    page.goto(f"{served.url}/phone")
    choose(page, *answers, "Left")
    page.get_by_role("switch", name="Keep the screen on").tap()
    at_day(page, 18)
    page.goto(f"{address}/tally/lockdown")
    tone = "amber" if theme == "hatch-room" else "red"
    assert page.evaluate("({ ...document.documentElement.dataset })") == {
        "theme": theme,
        "tone": tone,
        "hand": "left",
        "letters": "usual",
    }
    clear, ring = [button(page, words).bounding_box() for words in ("Clear", "Blood ring")]
    assert clear
    assert ring
    assert clear["x"] > ring["x"]
    tap(page, "Clear")
    tap(page, "Into the hatcher", 3)
    expect(page.locator(".big-count")).to_have_text(re.compile(r"^6\D"))
    come_back_to_lockdown(page, address)
    expect(page.locator(".big-count")).to_have_text(re.compile(r"^6\D"))
    tap(page, "The rest go in")
    tap(page, "Next: Hazel")
    tap(page, "The rest go in")
    expect(button(page, "Lockdown done")).to_be_visible()
    come_back_to_lockdown(page, address)
    tap(page, "Lockdown done")
    expect(page.get_by_role("button", name="Another time")).to_be_visible()
    expect(page.get_by_role("link", name="Lockdown", exact=True)).to_have_count(0)
    at_day(page, 20.9)
    page.goto(f"{address}/tally/hatch")
    assert_large_keys(page)
    tap(page, "Nothing new")
    at_day(page, 21.3)
    page.goto(f"{address}/tally/hatch")
    tap(page, "When: now")
    choose(page, "Earlier today")
    tap(page, "That is when")
    tap(page, "Hatched", 5)
    tap(page, "Hatched, weak")
    tap(page, "Helped out")
    tap(page, "Pipped")
    expect(page.get_by_text("keep the lid shut")).to_be_visible()
    tap(page, "The rest did not hatch")
    tap(page, "Next: Hazel")
    tap(page, "Type a count")
    page.get_by_role("textbox", name="Hatched", exact=True).fill("4")
    tap(page, "Write these down")
    assert in_hand(page) == 2
    tap(page, "The rest did not hatch")
    page.goto(f"{address}/tally/open")
    expect(page.get_by_text(re.compile("wait until it is 24"))).to_be_visible()
    at_day(page, 23)
    page.goto(f"{address}/tally/open")
    expect(page.get_by_text("Candle and listen first")).to_be_visible()
    tap(page, "Which is it?")
    tap(page, "One more", 10)
    expect(page.get_by_text("Day 10: Died midway.")).to_be_visible()
    tap(page, "Died midway, about day 10")
    tap(page, "Which is it?")
    tap(page, "Pipped inside")
    tap(page, "The rest are infertile")
    tap(page, "Next: Hazel")
    tap(page, "Type a count")
    page.get_by_role("textbox", name="Died late", exact=True).fill("2")
    tap(page, "Write these down")
    expect(page.get_by_role("heading", name="Every egg is opened.")).to_be_visible()

    found = report(served, page, address)
    rowan, hazel = sorted(found["lots"], key=lambda lot: -lot["n"])
    assert [rate(rowan, name) for name in ("fertility", "hatch_of_fertile", "hatch_of_set")] == [
        (9, 10),
        (7, 9),
        (7, 10),
    ]
    assert [rate(hazel, name) for name in ("fertility", "hatch_of_fertile")] == [(6, 6), (4, 6)]
    deaths = {"early": 0, "mid": 0, "late": 0, "internal_pip": 0, "external_pip": 0, "unopened": 0}
    assert rowan["deaths"] == {**deaths, "mid": 1, "internal_pip": 1}
    assert hazel["deaths"] == {**deaths, "late": 2}
    assert [(lot["weak"], lot["helped"]) for lot in (rowan, hazel)] == [(1, 1), (0, 0)]
    assert found["problems"] == []
    [locked] = [entry for entry in served.entries() if entry["kind"] == "locked"]
    assert datetime.fromisoformat(locked["at"]).timestamp() * 1000 >= SET_MS + 18 * DAY_MS
    moved = [entry for entry in served.entries() if entry["kind"] == "moved"]
    assert [entry["body"].get("day") for entry in moved if entry["body"].get("why") == "opened"] == [
        10,
        None,
        None,
        None,
    ]
    hatches = [entry["at"] for entry in moved if entry["body"].get("why") == "hatch"]
    assert {datetime.fromisoformat(at).timestamp() * 1000 for at in hatches} == {SET_MS + 21.3 * DAY_MS - 3_600_000}
