"""Phones that tell dates by another calendar, with other digits and in another zone: what they write is the same.

Thai phones count years from the death of the Buddha (2026 is 2569), Arabic ones of Egypt write other digits: both by
Unicode CLDR, which browsers follow. The holding lies in Dublin, the phone's clock in New York."""

import re
from collections.abc import Callable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from playwright.sync_api import Page, expect

from tests.browser.hands import follow, on_server, pick, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served

DUBLIN = ZoneInfo("Europe/Dublin")
TOLD = {"th-TH": "2569", "ar-EG": "٢٠٢٦"}


def test_days_are_written_alike_whatever_the_phone_tells_them_in(demo: Served, new_phone: Callable[..., Phone]) -> None:
    today = datetime.now(DUBLIN).date()
    for (locale, year), place, name in zip(TOLD.items(), ("Brooder one", "Orchard run"), ("Meg", "Peg"), strict=True):
        phone = new_phone()
        page = phone.open(f"{demo.url}/due", locale=locale, timezone_id="America/New_York")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        tells = page.evaluate("new Intl.DateTimeFormat(undefined, { year: 'numeric' }).format(1772971200000)")
        assert year in tells, "this browser has no such calendar"
        done_today(page, place)
        came_today(page, demo.url, name)
        watered_last_evening(page, demo.url)
        on_server(page)
        entries = demo.entries()
        last = {entry["kind"]: entry for entry in entries if entry["device"] == entries[-1]["device"]}
        assert last["came"]["body"]["on"] == today.isoformat()
        assert last["care"]["body"]["on"] == today.isoformat()
        watered = datetime.fromisoformat(last["watered"]["at"]).astimezone(DUBLIN)
        assert (watered.date(), watered.hour, watered.minute) == (today - timedelta(days=1), 21, 0)
        phone.close()


def done_today(page: Page, place: str) -> None:
    row = page.get_by_role("listitem").filter(has_text=f"Clean the drinkers, {place}")
    row.get_by_role("button", name=re.compile("^Done")).tap()
    expect(row).not_to_be_visible()


def came_today(page: Page, url: str, name: str) -> None:
    """A bird that came; a year of two digits is shown to the keeper and not saved."""
    page.goto(f"{url}/birds/came")
    page.get_by_label("From whom").fill("Fen End")
    page.get_by_role("textbox", name="Name", exact=True).fill(name)
    hatched = page.get_by_label("Hatched on, if known")
    hatched.fill("0026-02-01")
    tap(page, "Write the bird down")
    expect(hatched).to_be_focused()
    expect(page.get_by_text("Written down.")).not_to_be_visible()
    hatched.fill("2026-02-01")
    tap(page, "Write the bird down")
    expect(page.get_by_text("Written down.")).to_be_visible()
    page.goto(f"{url}/birds")
    follow(page, name)
    expect(page.get_by_role("heading", level=1)).to_contain_text(name)


def watered_last_evening(page: Page, url: str) -> None:
    """At nine by the clock of the holding, which is not the phone's."""
    page.goto(f"{url}/rooms")
    box = page.get_by_role("group", name="Done at Loft box")
    box.get_by_role("button", name="Water filled").tap()
    tap(page, "Not now")
    pick(page, "Yesterday")
    page.get_by_label("Time").fill("21:00")
    tap(page, "That was when")
    expect(page.get_by_role("button", name="That was when")).not_to_be_visible()
