"""Every screen of the demo at 320 px and with letters of 200 %, with all that is folded away laid open.

WCAG 2.2: reflow at 320 px (1.4.10), letters of 200 % (1.4.4), targets (2.5.8; our own are larger).
"""

from collections.abc import Callable

from playwright.sync_api import Page

from tests.browser.audit import SOUND, audit
from tests.browser.every_screen import demo_on, every_screen
from tests.browser.phones import PHONE, Phone
from tests.browser.serving import Served

NARROW = {"width": 320, "height": 640}
NO_RULE: list[str] = ["target-size"]
SIZES = ((NARROW, 100, NO_RULE), (PHONE, 200, NO_RULE), (NARROW, 200, None))
LOOKS = (("day", "red"), ("night", "red"), ("hatch-room", "red"), ("hatch-room", "amber"))


def lay_open(page: Page, theme: str, tone: str) -> None:
    page.evaluate(
        """(look) => {
          Object.assign(document.documentElement.dataset, look);
          for (const one of document.querySelectorAll('details')) one.open = true;
        }""",
        {"theme": theme, "tone": tone},
    )


def test_a_screen_holds_on_a_narrow_phone_with_letters_twice_as_large(
    demo: Served, new_phone: Callable[..., Phone]
) -> None:
    page = demo_on(new_phone(), demo)
    found = {}
    for at, kind in enumerate(every_screen(page, demo.url)):
        lay_open(page, *LOOKS[at % len(LOOKS)])  # sizes are of no theme; that each theme's are sound is seen here too
        for size, letters_pct, rules in SIZES:
            page.set_viewport_size(size)  # type: ignore[arg-type]
            page.evaluate("(pct) => { document.documentElement.style.fontSize = `${pct}%` }", letters_pct)
            page.wait_for_timeout(60)  # drawings follow the width a frame later
            found[f"{kind} {size['width']} px, {letters_pct} %"] = audit(page, rules)
    assert {screen: told for screen, told in found.items() if told != {"axe": [], **SOUND}} == {}
