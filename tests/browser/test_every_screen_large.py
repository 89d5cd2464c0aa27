"""Every screen of the demo at 320 px and with letters of 200 %, all that is folded away laid open; each paper fetched.

WCAG 2.2: reflow at 320 px (1.4.10), letters of 200 % (1.4.4), targets (2.5.8; our own are larger).
"""

import re
from collections.abc import Callable

from playwright.sync_api import Page

from tests.browser.audit import SOUND, audit
from tests.browser.every_screen import demo_on, every_screen, kind_of
from tests.browser.phones import PHONE, Phone
from tests.browser.serving import Served

NARROW = {"width": 320, "height": 640}
NO_RULE: list[str] = ["target-size"]
PAPERS = {
    "bird/ID": {"pedigree"},
    "setting/ID": {"setting", "cards", "tally"},
    "brood/ID": {"cards"},
    "mark/ID": {"marks"},
    "birds/record": {"inspection"},
    "phone/papers": {"season", "marks", "away", "inspection"},
}
"""Papers, each on the page where one would look; those of answers that take their time are in test_next_season."""
SIZES = ((NARROW, 100, NO_RULE), (PHONE, 200, NO_RULE), (NARROW, 200, None))
LOOKS = (("day", "red"), ("night", "red"), ("hatch-room", "red"), ("hatch-room", "amber"))


def papers_on(page: Page) -> set[str]:
    """The papers that a screen links, as they stand behind the route."""
    links = page.locator("main a[href^='/api/v1/papers/']")
    return {link.partition("/papers/")[2] for link in links.evaluate_all("(all) => all.map((one) => one.href)")}


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
    papers: dict[str, set[str]] = {}
    iso: dict[str, list[str]] = {}
    for at, kind in enumerate(every_screen(page, demo.url)):
        lay_open(page, *LOOKS[at % len(LOOKS)])  # sizes are of no theme; that each theme's are sound is seen here too
        papers[kind] = papers_on(page)
        iso[kind] = re.findall(r"\d{4}-\d\d-\d\d", page.locator("body").inner_text())
        for size, letters_pct, rules in SIZES:
            page.set_viewport_size(size)  # type: ignore[arg-type]
            page.evaluate("(pct) => { document.documentElement.style.fontSize = `${pct}%` }", letters_pct)
            page.wait_for_timeout(60)  # drawings follow the width a frame later
            found[f"{kind} {size['width']} px, {letters_pct} %"] = audit(page, rules)
    for kind, expected in PAPERS.items():
        assert {re.sub(r"/[^/]+[.]pdf$|[.]pdf.*", "", paper) for paper in papers[kind]} >= expected, kind
    every = {kind_of(paper): paper for on_one in papers.values() for paper in on_one}
    for paper in every.values():
        assert page.request.get(f"{demo.url}/api/v1/papers/{paper}").body().startswith(b"%PDF-"), paper
    assert {screen: days for screen, days in iso.items() if days} == {}, "days as programs write them"
    assert {screen: told for screen, told in found.items() if told != {"axe": [], **SOUND}} == {}
