"""What opens beside the counting, and the how-to pages: axe in every theme, on a narrow phone and with large text.

Sizes as in test_every_screen.py; text at 200 % by WCAG 2.2 (1.4.4), 320 px wide by 1.4.10.
"""

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import SOUND, audit
from tests.browser.hands import name_the_place, set_eggs, tap
from tests.browser.phones import PHONE, Phone
from tests.browser.serving import Served

NARROW = {"width": 320, "height": 640}
HELP = {
    ("day", "red"): ("help", "help/candle", "help/tally", "phone"),
    ("night", "red"): ("help/hatch", "help/open"),
    ("hatch-room", "red"): ("help/lockdown", "help/open", "phone"),
    ("hatch-room", "amber"): ("help/candle", "phone"),
}


Step = Callable[[], None]


def panels(page: Page, address: str) -> dict[str, list[Step]]:
    """The ways to each panel, one after the other, from an opened candling."""

    def look(what: str) -> Step:
        def go() -> None:
            page.goto(f"{address}/tally/{what}")
            page.locator(".keys").wait_for()

        return go

    def press(words: str, times: int = 1) -> Step:
        return lambda: tap(page, words, times)

    else_ = press("Something else")
    return {
        "seldom": [else_],
        "batch by batch": [press("Batch by batch")],
        "back": [press("Back"), else_, press("Put an egg back")],
        "again": [press("Back"), else_, press("Count again")],
        "differs": [press("One fewer"), press("That is the count")],
        "typed": [press("Leave it"), press("Type a count")],
        "end": [press("Cancel"), press("The rest are live"), page.get_by_text("Why?").tap],
        "when": [look("hatch"), press("When: now")],
        "guide": [look("open"), press("Which is it?"), press("One more", 3)],
    }


@pytest.mark.parametrize(
    ("theme", "tone", "size", "letters_pct"),
    [
        ("day", "red", NARROW, 100),
        ("night", "red", PHONE, 200),
        ("hatch-room", "red", PHONE, 150),
        ("hatch-room", "amber", NARROW, 100),
    ],
)
def test_a_panel_can_be_read_and_tapped(
    running: Served,
    new_phone: Callable[..., Phone],
    theme: str,
    tone: str,
    size: dict[str, int],
    letters_pct: int,
) -> None:
    page = new_phone(viewport=size).open(f"{running.url}/welcome")
    name_the_place(page, ["Rowan", "Hazel"])
    address = set_eggs(page, [("Rowan", 9), ("Hazel", 4)])
    page.evaluate(
        """([theme, tone]) => Object.assign(localStorage, {
          'broodline-theme': theme, 'broodline-tone': tone, 'broodline-awake': 'no' })""",
        [theme, tone],
    )

    def found_here() -> dict[str, Any]:
        page.evaluate("(pct) => { document.documentElement.style.fontSize = `${pct}%` }", letters_pct)
        return audit(page)

    found = {}
    page.goto(f"{address}/tally/candle")
    tap(page, "Clear")
    for panel, steps in panels(page, address).items():
        for step in steps:
            step()
        found[panel] = found_here()
    pictures = page.locator(".picture").evaluate_all("(all) => all.map((one) => one.getBoundingClientRect().height)")
    assert len(pictures) == 6
    assert min(pictures) >= 72
    for screen in HELP[theme, tone]:
        page.goto(f"{running.url}/{screen}")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        found[screen] = found_here()
    assert {name: told for name, told in found.items() if told != {"axe": [], **SOUND}} == {}
