"""A phone paired at the house and carried out of its server's reach, in one of the three themes."""

from collections.abc import Callable

from playwright.sync_api import Page

from tests.browser.hands import on_server, pair, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served

THEMES = ("day", "night", "hatch-room")


def carried_away(served: Served, new_phone: Callable[..., Phone], theme: str) -> Page:
    """The app open on a paired phone, with the server stopped."""
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    page.evaluate("theme => { localStorage['broodline-theme'] = theme; localStorage['broodline-awake'] = 'no' }", theme)
    served.stop()
    page.goto(served.url)
    assert page.evaluate("document.documentElement.dataset.theme") == theme
    return page


def back_home(page: Page, served: Served) -> None:
    """The server answers again and has all the phone wrote."""
    served.start()
    page.goto(f"{served.url}/book")
    on_server(page)
