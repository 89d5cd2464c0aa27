"""A phone whose clock is two days behind: what it shows and writes is where the keeper says it was."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from playwright.sync_api import expect

from tests.browser.hands import (
    name_the_place,
    on_server,
    pair,
    pick,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.phones import Phone
from tests.browser.serving import Served

TWO_DAYS = timedelta(days=2)


def test_a_phone_two_days_behind_shows_the_right_day_and_dates_acts_rightly(
    served: Served, new_phone: Callable[..., Phone]
) -> None:
    page = new_phone().open(served.url)
    now = datetime.now(UTC)
    page.clock.install(time=now - TWO_DAYS)
    pair(page, served.url, served.code())
    expect(page.get_by_text(re.compile("2 days behind")).first).to_be_visible(timeout=20_000)
    wait_until_it_works_offline(page)
    served.stop()

    page.goto(f"{served.url}/welcome")
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", 12)])
    expect(page.get_by_text("Day 0", exact=False).first).to_be_visible()
    page.goto(f"{served.url}/rooms")
    tap(page, "Water filled")
    tap(page, "Not now")
    pick(page, "Yesterday")
    tap(page, "That was when")
    page.goto(f"{address}")

    served.start()
    on_server(page)
    told = {entry["kind"]: entry for entry in served.entries()}
    assert abs(datetime.fromisoformat(told["set"]["body"]["set_at"]) - now) < timedelta(minutes=3)
    watered = [one for one in served.entries() if one["kind"] == "watered"][-1]
    at = datetime.fromisoformat(watered["at"]) + timedelta(milliseconds=watered["skew_ms"])
    assert abs(at - (now - timedelta(days=1))) < timedelta(minutes=3)
