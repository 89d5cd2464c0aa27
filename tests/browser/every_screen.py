"""Every screen of the demo's book, found by following all links, one address for each kind of screen."""

import re
from collections.abc import Iterator

from playwright.sync_api import Page, expect

from tests.browser.hands import on_server
from tests.browser.phones import Phone
from tests.browser.serving import Served

ID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")
BEGIN = ("due", "rooms", "families", "book", "season", "phone", "eggs", "help")
UNLINKED = ("welcome", "pair", "phone/ready", "nowhere")
TALLIES = ("candle", "lockdown", "hatch", "open")
BESIDE = ("weigh", "hatching", "meaning", *(f"tally/{what}" for what in TALLIES))
"""Linked only while it is their time."""
LEAST = {
    *BEGIN,
    *UNLINKED,
    *(f"help/{what}" for what in ("candle", "hatch", "lockdown", "open", "tally")),
    *(f"help/{what}" for what in ("brood", "intervals", "kin", "late", "mark", "server", "start", "weak")),
    *(f"rooms/{what}" for what in ("places", "plan", "set", "ID/air", "ID/gauge", "ID/power")),
    *(f"setting/ID{what}" for what in ("", *(f"/{beside}" for beside in BESIDE))),
    "again/ID",
    "bird/ID",
    "birds",
    *(f"birds/{what}" for what in ("came", "choose/ID", "growth", "orders", "record", "treatments", "weigh")),
    "families/keep",
    "families/kin",
    "families/pens",
    "holding",
    "mark/ID",
    "pairing",
    "plan",
}
"""What a search for screens must find, or it has gone astray."""


def demo_on(phone: Phone, demo: Served) -> Page:
    """All of the demo on the phone; what is asked once is answered."""
    page = phone.open(f"{demo.url}/due")
    on_server(page)
    page.evaluate("Object.assign(localStorage, { 'broodline-awake': 'no', 'broodline-webs': 'yes' })")
    return page


def kind_of(path: str) -> str:
    return ID.sub("ID", path)


def every_screen(page: Page, url: str) -> Iterator[str]:
    """Shows one screen of each kind after the other, and names its kind."""
    shown: set[str] = set()
    waiting = [*BEGIN, *UNLINKED]
    while waiting:
        path = waiting.pop(0)
        kind = kind_of(path)
        if kind in shown:
            continue
        shown.add(kind)
        page.goto(f"{url}/{path}")
        expect(page.get_by_role("heading", level=1)).to_be_attached()
        links = page.locator("main a[href]").evaluate_all("(all) => all.map((one) => one.getAttribute('href'))")
        waiting += [link[1:].partition("?")[0] for link in links if link.startswith("/") and "/api/" not in link]
        if kind == "setting/ID":
            waiting += [f"{path}/{beside}" for beside in BESIDE]
        if kind.startswith("again/"):
            waiting.append(path.replace("again/", "mark/"))
        if kind == "rooms/ID/air":
            waiting.append(path.replace("/air", "/power"))
        yield kind
    assert shown >= LEAST
