"""A phone paired at the house and carried out of its server's reach, in one of the three themes."""

from collections.abc import Callable
from datetime import datetime

from playwright.sync_api import Page

from tests.browser.hands import DAY_MS, name_the_place, on_server, pair, set_eggs, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served

THEMES = ("day", "night", "hatch-room")
SET_MS = int(datetime.fromisoformat("2026-03-01T09:00:00Z").timestamp() * 1000)


def carried_away(served: Served, new_phone: Callable[..., Phone], theme: str, tone: str = "red") -> Page:
    """The app open on a paired phone, with the server stopped. tone: of the hatch room."""
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    page.evaluate(
        """([theme, tone]) => Object.assign(localStorage, {
          'broodline-theme': theme, 'broodline-tone': tone, 'broodline-awake': 'no' })""",
        [theme, tone],
    )
    served.stop()
    page.goto(served.url)
    assert page.evaluate("document.documentElement.dataset.theme") == theme
    return page


def back_home(page: Page, served: Served) -> None:
    """The server answers again and has all the phone wrote."""
    served.start()
    page.goto(f"{served.url}/book")
    on_server(page)


def set_away(page: Page, url: str, batches: list[tuple[str, int]]) -> str:
    """A holding begun, and eggs set at SET_MS by the phone's clock; gives the setting's address."""
    page.clock.install(time=SET_MS / 1000)
    page.goto(f"{url}/welcome")
    name_the_place(page, [family for family, _ in batches])
    return set_eggs(page, batches)


def at_day(page: Page, day: float) -> None:
    """So many days after SET_MS."""
    page.clock.set_system_time((SET_MS + day * DAY_MS) / 1000)


def report(served: Served, page: Page, address: str) -> dict:
    """What the server makes of the setting, once all of it is there."""
    back_home(page, served)
    return dict(served.run("report", "setting", address.rpartition("/")[2]))


def rate(found: dict, name: str) -> tuple[int, int]:
    return found[name]["k"], found[name]["n"]
