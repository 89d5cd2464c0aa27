"""Every screen in every theme: axe with target-size, letters of 16 px and up, targets of 56 and 72 px, nothing cut off.

Sizes are our own (wet hands, gloves); WCAG 2.2 asks for 24 px (2.5.8) and reflow at 320 px (1.4.10).
"""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.browser.audit import SOUND, audit
from tests.browser.hands import name_the_place, set_eggs
from tests.browser.phones import DESK, PHONE, Phone
from tests.browser.serving import Served

NARROW = {"width": 320, "height": 640}


def every_screen(setting: str, place: str) -> list[str]:
    tallies = [f"{setting}/tally/{what}" for what in ("candle", "lockdown", "hatch", "open")]
    beside = [
        f"{setting}/weigh",
        f"{setting}/hatching",
        f"{setting}/meaning",
        *(f"rooms/{place}/{what}" for what in ("air", "gauge", "power")),
    ]
    told_once = ["holding", "rooms/places", "rooms/plan", "rooms/set", "families", "eggs"]
    return ["due", "rooms", "book", "season", "phone", "phone/ready", "pair", setting, *told_once, *beside, *tallies]


@pytest.mark.parametrize(
    ("theme", "tone", "size"),
    [
        ("day", "red", PHONE),
        ("night", "red", DESK),
        ("hatch-room", "red", NARROW),
        ("hatch-room", "amber", PHONE),
    ],
)
def test_a_screen_can_be_read_and_tapped(
    served: Served, new_phone: Callable[..., Phone], theme: str, tone: str, size: dict[str, int]
) -> None:
    phone = new_phone(viewport=size)
    page = phone.open(served.url)
    expect(page.get_by_label("Name of your place")).to_be_visible()
    page.evaluate(
        "([theme, tone]) => { localStorage['broodline-theme'] = theme; localStorage['broodline-tone'] = tone }",
        [theme, tone],
    )
    page.reload()
    expect(page.get_by_label("Name of your place")).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}
    if size == DESK:
        page.get_by_label("Name of your place").fill("Gorse Bank")
        page.get_by_label("Its name").fill("Loft box")
        page.get_by_label("Name", exact=True).fill("Rowan")
        page.get_by_role("button", name="Begin").click()
        page.get_by_role("button", name="Start with 12 eggs").click()
        page.wait_for_url("**/setting/*")
        setting = page.url
    else:
        name_the_place(page, ["Rowan", "Hazel"])
        setting = set_eggs(page, [("Rowan", 16), ("Hazel", 14)])
    found = {}
    page.goto(f"{served.url}/rooms")
    place = str(page.get_by_role("link", name="Read the air").get_attribute("href")).split("/")[2]
    for screen in every_screen(setting.removeprefix(f"{served.url}/"), place):
        page.goto(f"{served.url}/{screen}")
        expect(page.get_by_role("heading", level=1)).to_be_attached()
        found[screen] = audit(page)
    assert {screen: told for screen, told in found.items() if told != {"axe": [], **SOUND}} == {}


def test_the_hatch_room_is_dark_before_anything_is_drawn(served: Served, new_phone: Callable[..., Phone]) -> None:
    page = new_phone().open(served.url)
    page.evaluate("localStorage['broodline-theme'] = 'hatch-room'")
    page.route("**/assets/*.js", lambda route: route.abort())
    page.goto(f"{served.url}/pair?fresh", wait_until="domcontentloaded")
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(0, 0, 0)"
    assert page.locator("#app").inner_text() == ""
