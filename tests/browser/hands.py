"""What a keeper's hands do on the screen, by the words that stand there and nothing else."""

import datetime
import re
import time
from typing import Any
from zoneinfo import ZoneInfo

from playwright.sync_api import Locator, Page, expect

DAY_MS = 24 * 3600 * 1000
SEEN_MS, SLID_PX = 420, 50  # parts/press.tsx swallows for 400 ms what is tapped where a button that wrote was


def button(page: Page, words: str) -> Locator:
    """The button whose words begin so (a count may follow)."""
    return page.get_by_role("button", name=re.compile(rf"^{re.escape(words)}(?![\w,])"))


class _Finger:
    """Where and when it tapped last, and what."""

    words, x, y, at = "", 0.0, 0.0, 0.0


_last = _Finger()


def tap(page: Page, words: str, times: int = 1) -> None:
    """As fast as the page allows, but what slid under the finger is seen first: sooner it is swallowed."""
    button(page, words).scroll_into_view_if_needed()
    box = button(page, words).bounding_box() or {"x": 0, "y": 0, "width": 0, "height": 0}
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    if words != _last.words and abs(x - _last.x) + abs(y - _last.y) < SLID_PX:
        page.wait_for_timeout(max(0, SEEN_MS - 1000 * (time.monotonic() - _last.at)))
    for _ in range(times):
        button(page, words).tap()
    _last.words, _last.x, _last.y, _last.at = words, x, y, time.monotonic()


def pick(page: Page, words: str) -> None:
    """One of a few answers side by side."""
    page.get_by_role("radio", name=words, exact=True).tap()


def follow(page: Page, words: str) -> None:
    page.get_by_role("link", name=re.compile(rf"^{re.escape(words)}")).first.tap()


def choose_tab(page: Page, family: str) -> None:
    page.get_by_role("tab", name=re.compile(rf"^{re.escape(family)}")).tap()


def day(ago: int) -> str:
    """A date so many days ago, in the phones' own zone."""
    return (datetime.datetime.now(ZoneInfo("Europe/Dublin")).date() - datetime.timedelta(days=ago)).isoformat()


def go(page: Page, path: str) -> None:
    """To a screen of the app by its path."""
    page.goto(page.url.split("/", 3)[0] + "//" + page.url.split("/", 3)[2] + path)
    expect(page.get_by_role("heading", level=1)).to_be_visible()


def pair(page: Page, url: str, code: str, name: str = "Hatch room phone") -> None:
    page.goto(f"{url}/pair")
    page.get_by_label("Code").fill(code)
    page.get_by_label("Name of this phone").fill(name)
    tap(page, "Pair")
    expect(page).to_have_url(re.compile("/phone$"))


def wait_until_it_works_offline(page: Page) -> None:
    """The worker controls the page, so that it opens without a server. (To poll in the page would be `eval`.)

    A page that is being loaded while the worker takes over belongs to it from the next load on."""
    came = page.evaluate(
        """() => Promise.race([
          navigator.serviceWorker.ready.then(() => true),
          new Promise((done) => setTimeout(() => done(false), 60_000)),
        ])"""
    )
    assert came, "no worker came to keep the app"
    page.wait_for_timeout(300)
    if not page.evaluate("Boolean(navigator.serviceWorker.controller)"):
        page.reload()


def name_the_place(page: Page, families: list[str]) -> None:
    """The first screen: the place, an incubator, families with their initial as sign."""
    page.get_by_label("Name of your place").fill("Gorse Bank")
    page.get_by_label("Its name").fill("Loft box")
    for at, family in enumerate(families):
        if at:
            tap(page, "Add a family")
        page.get_by_label("Name", exact=True).nth(at).fill(family)
        page.get_by_label("Breed").nth(at).fill("Marsh Speckle")
        page.get_by_label("Sign on the eggs").nth(at).fill(family[0])
    tap(page, "Begin")
    expect(page).to_have_url(re.compile("/rooms/set$"))


def begin_with_a_setting(page: Page, url: str, code: str, name: str) -> None:
    """A phone paired, the first hour's steps, twelve eggs of Rowan set, and all of it on the server."""
    pair(page, url, code, name)
    page.goto(f"{url}/welcome")
    name_the_place(page, ["Rowan"])
    set_eggs(page, [("Rowan", 12)])
    on_server(page)


def add_family(page: Page, name: str) -> None:
    """On the page of families."""
    tap(page, "Add a family")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Breed").fill("Marsh Speckle")
    tap(page, "Save the family")


def set_eggs(page: Page, batches: list[tuple[str, int]]) -> str:
    """Start a setting; gives its address on the app."""
    for _ in batches[1:]:
        tap(page, "Another batch")
    for at, (family, n) in enumerate(batches):
        page.get_by_role("combobox", name="Family", exact=True).nth(at).select_option(label=family)
        page.get_by_role("textbox", name=f"Eggs of {family}").fill(str(n))
    tap(page, f"Start with {sum(n for _, n in batches)} eggs")
    expect(page).to_have_url(re.compile("/setting/"))
    return str(page.url)


def candle_paired(page: Page, url: str, code: str, eggs: int, name: str = "Hatch room phone") -> str:
    """Pair, set eggs of one new family, and open their candling with all of it on the server; gives its address."""
    pair(page, url, code, name)
    page.goto(f"{url}/welcome")
    name_the_place(page, ["Rowan"])
    address = f"{set_eggs(page, [('Rowan', eggs)])}/tally/candle"
    wait_until_it_works_offline(page)
    on_server(page)
    page.goto(address)
    page.locator(".big-count").wait_for()
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    return address


def on_server(page: Page, seconds: float = 40) -> None:
    """Wait until the top line says that all is on the server."""
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=seconds * 1000)


def ask_now(page: Page) -> None:
    """As where the phone has found a network: the server is asked at once."""
    page.evaluate("dispatchEvent(new Event('online'))")


def in_hand(page: Page) -> int:
    """The big number of a tally."""
    return int(page.locator(".big-count").first.inner_text().split()[0])


def only_here(page: Page) -> int:
    """How many entries the top line says are only on this phone."""
    told = page.get_by_text(re.compile(r"^\d+ only on this phone"))
    return int(told.first.inner_text().split()[0]) if told.count() else 0


EVERY_ROW = """async () => {
  const found = (await indexedDB.databases()).filter((one) => one.name.startsWith('broodline:'));
  const books = await Promise.all(found.map(({ name }) => new Promise((done) => {
    indexedDB.open(name).onsuccess = ({ target: { result } }) => {
      result.transaction('entries').objectStore('entries').getAll().onsuccess = (event) => {
        result.close();
        done(event.target.result);
      };
    };
  })));
  return books.flat();
}"""


def rows_held(page: Page) -> list[dict[str, Any]]:
    """Every entry in the phone's storage as it lies there, of all books."""
    return list(page.evaluate(EVERY_ROW))
