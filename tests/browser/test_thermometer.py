"""A thermometer's word on the phone: the last reading in Rooms, told as a thermometer's, and its alarm silenced."""

import json
import urllib.request

from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import begin_with_a_setting, follow, tap
from tests.browser.serving import wait_until


def say(url, token, **reading):
    headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    request = urllib.request.Request(f"{url}/api/v1/air", json.dumps(reading).encode(), headers, method="POST")
    with urllib.request.urlopen(request, timeout=10) as answer:
        return json.loads(answer.read())


def test_its_reading_stands_in_rooms_and_its_alarm_is_silenced_from_there(running, new_phone):
    page = new_phone().open(running.url)
    begin_with_a_setting(page, running.url, running.code(), "Shed phone")
    token = running.run("sensors", "add", "Loft box")["token"]
    assert say(running.url, token, dry_c=41.2, humidity_pct=51) == {"kept": True, "what": "stored", "beyond": True}
    page.goto(f"{running.url}/phone")
    tap(page, "Ask the server now")
    page.goto(f"{running.url}/rooms")
    expect(page.get_by_text("41.2 °C")).to_be_visible()
    follow(page, "Read the air")
    tap(page, "No alarm for 4 hours")
    expect(page.get_by_text("No alarm from here until")).to_be_visible()
    assert_sound(page)
    wait_until(lambda: [one["body"]["task"] for one in running.entries() if one["kind"] == "care"] == ["air"])
    page.goto(f"{running.url}/book")
    expect(page.get_by_text("a thermometer").first).to_be_visible()
