"""Every screen in every theme: axe with target-size, letters of 16 px and up, targets of 56 and 72 px, nothing cut off.

The demo's book is shown, so that each screen has something on it. Sizes are our own (wet hands, gloves); WCAG 2.2 asks
for 24 px (2.5.8), reflow at 320 px (1.4.10) and letters of 200 % (1.4.4).
"""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page

from tests.browser.audit import OF_THEMES, SOUND, audit
from tests.browser.every_screen import demo_on, every_screen
from tests.browser.phones import DESK, PHONE, Phone
from tests.browser.serving import Served

LOOKS = (("day", "red"), ("night", "red"), ("hatch-room", "red"), ("hatch-room", "amber"))
WELL = {"axe": [], **SOUND}


def look(page: Page, theme: str, tone: str) -> None:
    page.evaluate("(look) => { Object.assign(document.documentElement.dataset, look) }", {"theme": theme, "tone": tone})


def test_a_screen_can_be_read_and_tapped(demo: Served, new_phone: Callable[..., Phone]) -> None:
    """On a phone in each theme, and at the desk."""
    page = demo_on(new_phone(), demo)
    found: dict[str, dict[str, Any]] = {}
    for kind in every_screen(page, demo.url):
        for theme, tone in LOOKS:
            look(page, theme, tone)
            found[f"{kind}, {theme} {tone}"] = audit(page, None if theme == "day" else OF_THEMES)
        page.set_viewport_size(DESK)  # type: ignore[arg-type]
        look(page, "night", "red")
        page.wait_for_timeout(50)
        found[f"{kind}, desk"] = audit(page, OF_THEMES)
        page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    assert {screen: told for screen, told in found.items() if told != WELL} == {}


def test_the_hatch_room_is_dark_before_anything_is_drawn(served: Served, new_phone: Callable[..., Phone]) -> None:
    page = new_phone().open(served.url)
    page.evaluate("localStorage['broodline-theme'] = 'hatch-room'")
    page.route("**/assets/*.js", lambda route: route.abort())
    page.goto(f"{served.url}/pair?fresh", wait_until="domcontentloaded")
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(0, 0, 0)"
    assert page.locator("#app").inner_text() == ""
