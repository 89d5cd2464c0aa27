"""What a keeper's hands do from the hatch to the last day under heat, by the words on the screen.

Rowan 12 eggs, 9 out; Hazel 10 eggs, 7 out, all on day 21 after SET_MS. Days are those since setting, as in `away`.
"""

import re

from playwright.sync_api import Page, expect

from tests.browser.away import at_day, set_away
from tests.browser.hands import button, choose_tab, follow, pick, tap

HATCHED = {"Rowan": 9, "Hazel": 7}
OUT_DAY = 21.1
"""When they were seen out."""


def aged(page: Page, days: float) -> None:
    """The clock shows chicks that are so many days old."""
    at_day(page, OUT_DAY + days)


def hatch_brood(page: Page, url: str) -> str:
    """Both families set and hatched; gives the address of the setting."""
    address = set_away(page, url, [("Rowan", 12), ("Hazel", 10)])
    at_day(page, OUT_DAY)
    page.goto(f"{address}/tally/hatch")
    for family, n in HATCHED.items():
        choose_tab(page, family)
        tap(page, "Hatched", n)
    page.goto(f"{address}/hatching")
    return address


def ring(page: Page, address: str, family: str, colour: str) -> None:
    """All chicks of a family get a ring of a colour on the left leg."""
    page.goto(address)
    page.get_by_role("link", name=f"Mark, {family}").tap()
    no_webs = button(page, "Not allowed or not wanted here")
    ways = page.get_by_role("radio", name="Ring")
    no_webs.or_(ways).first.wait_for()
    if no_webs.count():
        no_webs.tap()
    ways.tap()
    page.get_by_label("Colour").select_option(colour)
    pick(page, "Left")
    n = HATCHED[family]
    tap(page, f"Mark {n} chicks")
    tap(page, f"Yes, {n} {family} marked")
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("all .* are marked"))


def move_all(page: Page, n: int, place: str, *, role: str | None = None) -> None:
    """On the page that moves chicks: all of them into a place. role: as what it is named first, where it is new."""
    if role is not None:
        page.get_by_label("Name", exact=True).fill(place)
        pick(page, role)
        tap(page, "Save")
    page.get_by_label("Into").select_option(label=place)
    tap(page, f"Move {n} to {place}")
    expect(page.get_by_text(f"{n} now in {place}.")).to_be_visible()


def to_place(page: Page, url: str, place: str) -> None:
    """The page of a brooder or pen with chicks."""
    page.goto(f"{url}/broods")
    page.get_by_role("link", name=f"Heat, care, feed, {place}").tap()
    expect(page.get_by_text(place, exact=True).first).to_be_visible()


def to_batch(page: Page, url: str, family: str) -> None:
    """The page of a batch of chicks."""
    page.goto(f"{url}/broods")
    follow(page, family)
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile(f"^{family}: "))


def look(page: Page, what: str) -> None:
    page.get_by_role("radio", name=re.compile(f"^{what}")).tap()


def read_heat(page: Page, text: str) -> None:
    page.get_by_label("Warmth at their backs").fill(text)
    tap(page, "Note the warmth")


def task_row(page: Page, what: str):
    """What is due, by its words."""
    return page.get_by_role("listitem").filter(has_text=what)


def done(page: Page, what: str) -> None:
    """A task of a brood done with one tap."""
    page.get_by_role("button", name=re.compile(rf"^Done ?: {re.escape(what)}")).tap()
    expect(page.get_by_role("button", name=re.compile(rf"^Done ?: {re.escape(what)}"))).to_have_count(0)
    page.wait_for_timeout(600)  # the next row moves up under the finger, where a second tap within 500 ms is swallowed


def lose(page: Page, how: str, whose: str | None, n: int, cause: str | None = None) -> None:
    """how: Dead, Culled or Missing. whose: on the page of a place with several batches."""
    button(page, how).tap()
    if whose is not None:
        page.get_by_label("Whose").select_option(label=whose)
    for _ in range(n - 1):
        page.get_by_role("group", name="How many").get_by_role("button", name="One more").tap()
    if cause is not None:
        page.get_by_label("Why", exact=True).select_option(label=cause)
    page.get_by_role("button", name=re.compile(f"^Write down: {n} ")).tap()
    expect(page.get_by_role("button", name=re.compile(rf"^Undo: {n} "))).to_be_visible()
