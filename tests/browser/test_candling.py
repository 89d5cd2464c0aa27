"""Candling with no server, as a keeper taps it, in each theme: taken back, put back, counted again, of no known family.

Counts were worked out by hand, beside each; the setting's report is asked afterwards.
"""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_large_keys
from tests.browser.away import THEMES, at_day, carried_away, rate, report, set_away
from tests.browser.hands import choose_tab, follow, in_hand, tap


def else_(page: Page, *words: str) -> None:
    tap(page, "Something else")
    for word in words:
        tap(page, word)


@pytest.mark.parametrize("theme", THEMES)
def test_candling_without_a_server(served, new_phone, theme):
    """Rowan 12: 9 live, 1 clear (another was put back), 1 blood ring, 1 dead that was not sure at first.

    Hazel 8: 1 missing by count, 6 live; the one left over is the clear egg whose sign nobody could read.
    """
    page = carried_away(served, new_phone, theme)
    address = set_away(page, served.url, [("Rowan", 12), ("Hazel", 8)])
    at_day(page, 7.1)
    page.goto(f"{address}/tally/candle")
    assert_large_keys(page)
    tap(page, "Clear", 2)
    tap(page, "Blood ring")
    tap(page, "Undo")
    tap(page, "Blood ring")
    tap(page, "Not sure")
    tap(page, "Live", 3)
    assert in_hand(page) == 5
    else_(page)
    follow(page, "How to")
    expect(page.get_by_role("heading", name="Candling: one egg, one look, one tap")).to_be_visible()
    follow(page, "Back to the count")
    assert in_hand(page) == 5
    else_(page, "Put an egg back", "One of 2 clear, back in")
    assert in_hand(page) == 6
    tap(page, "The rest are live")
    expect(page.get_by_role("heading", name="All of this batch is judged.")).to_be_visible()
    expect(page.get_by_role("img", name=re.compile("^Fertile: 10 of 11, true rate 62 to 98 %"))).to_be_visible()
    tap(page, "Look again at 1 not sure")
    assert in_hand(page) == 1
    tap(page, "Dead in shell")
    page.get_by_text("Why?").tap()
    expect(page.get_by_text("11 of 12").last).to_be_visible()
    tap(page, "Next: Hazel")
    else_(page, "Count again")
    tap(page, "One fewer")
    tap(page, "That is the count")
    expect(page.get_by_text("You counted 7; the book says 8.")).to_be_visible()
    tap(page, "1 egg missing: write that down")
    tap(page, "Live", 2)
    choose_tab(page, "Not known")
    tap(page, "Clear")
    choose_tab(page, "Hazel")
    assert in_hand(page) == 4
    else_(page, "Batch by batch")
    expect(page.get_by_text("and up to 1 more clear: the family was not known")).to_have_count(2)
    tap(page, "Back")
    at_day(page, 7.1 + 25 / 60 / 24)
    page.clock.run_for(21_000)
    expect(page.get_by_text("Out for 25 minutes")).to_be_visible()
    tap(page, "The rest are live")
    expect(page.get_by_role("heading", name="Every egg is judged.")).to_be_visible()

    found = report(served, page, address)
    rowan, hazel = sorted(found["lots"], key=lambda lot: -lot["n"])
    assert rowan["stages"] == {"set": 9, "clear": 1, "blood_ring": 1, "quitter": 1}
    assert hazel["stages"] == {"set": 7, "unaccounted": 1}
    assert found["total"]["stages"] == {"set": 15, "clear": 2, "blood_ring": 1, "quitter": 1, "unaccounted": 1}
    assert (rate(rowan, "fertility"), rate(hazel, "fertility")) == ((11, 12), (6, 6))
    assert found["problems"] == []
