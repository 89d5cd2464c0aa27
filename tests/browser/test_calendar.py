"""What is due in the keeper's own calendar: an address made on the phone, read without a cookie, and ended there."""

import urllib.error
import urllib.request

import pytest
from icalendar import Calendar
from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import begin_with_a_setting, follow, tap


def read(url):
    with urllib.request.urlopen(url, timeout=10) as answer:
        return [str(event["summary"]) for event in Calendar.from_ical(answer.read()).walk("VEVENT")]


def test_an_address_is_made_read_and_ended_and_one_event_taken_along(running, new_phone):
    page = new_phone().open(running.url)
    begin_with_a_setting(page, running.url, running.code(), "Shed phone")
    page.goto(f"{running.url}/phone")
    follow(page, "In your calendar")
    expect(page.get_by_text("No calendar reads this phone's list.")).to_be_visible()
    tap(page, "Make an address for my calendar")
    address = page.get_by_label("Address of the calendar").input_value()
    assert address.startswith(f"{running.url}/calendar/")
    assert_sound(page)
    titles = read(address)
    assert titles[0] == "Candling"
    assert {"Lockdown tomorrow", "Lockdown", "First chicks"} <= set(titles)

    with page.expect_download() as download:
        page.get_by_role("link", name="Take it: Lockdown,").first.tap()
    [event] = Calendar.from_ical(download.value.path().read_bytes()).walk("VEVENT")
    assert str(event["summary"]) == "Lockdown"

    page.reload()
    expect(page.get_by_text("Last read")).to_be_visible()
    expect(page.get_by_label("Address of the calendar")).to_have_count(0)  # told once
    tap(page, "End the address")
    expect(page.get_by_text("No calendar reads this phone's list.")).to_be_visible()
    with pytest.raises(urllib.error.HTTPError, match="404"):
        read(address)
