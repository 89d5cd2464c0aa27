"""All that is done between setting and brooder beside the tally, as a keeper does it, without a server, in each theme.

One setting of 30 eggs in one machine. Figures worked out by hand: 20 eggs weigh 1450 - 250 = 1200 g, on day 10 they
weigh 1360 - 250 = 1110 g: 7.5 % lost, 13.5 % by day 18 at that pace. 37.5 C dry and 30.0 C wet are 58 % humidity (Vick
and others 1993, worked out by ASHRAE's formula). The second keeper's ounces and degrees Fahrenheit are the same eggs in
the same air. Each screen is held to its sizes with the figures on it, also at 320 px and twice the letters.
"""

import re
from datetime import UTC, datetime

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import assert_sound
from tests.browser.hands import (
    DAY_MS,
    choose_tab,
    follow,
    name_the_place,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.serving import wait_until

METRIC = {
    "t": "°C", "m": "g",
    "empty": "250", "full": "1450", "later": "1360,0",
    "dry": "37,5", "wet": "30,0", "above": "38,1", "reads": "37.2", "right": "37.5", "warm": "37.3",
}  # fmt: skip
US = {
    "t": "°F", "m": "oz",
    "empty": "8.82", "full": "51.15", "later": "47.97",
    "dry": "99.5", "wet": "86", "above": "100", "reads": "98.96", "right": "99.5", "warm": "99.14",
}  # fmt: skip


def at_day(page: Page, set_ms: int, day: float) -> None:
    page.clock.set_system_time((set_ms + day * DAY_MS) / 1000)


@pytest.mark.parametrize(("theme", "units"), [("Day", METRIC), ("Night", US), ("Hatch room", METRIC)])
def test_a_machine_is_read_weighed_and_hatched_without_a_server(served, new_phone, theme, units):
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    page.get_by_role("radio", name=theme).tap()
    wait_until_it_works_offline(page)
    served.stop()
    set_ms = int(datetime.now(UTC).timestamp() * 1000)
    page.clock.install(time=set_ms / 1000)
    page.goto(served.url)
    if units is US:
        page.get_by_role("radio", name="United States").tap()
    name_the_place(page, ["Rowan", "Hazel"])
    address = set_eggs(page, [("Rowan", 16), ("Hazel", 14)])
    rooms = f"{served.url}/rooms"

    weigh_first(page, units)
    at_day(page, set_ms, 5)
    quick_acts(page, rooms)
    read_the_air(page, rooms, units)
    check_the_thermometer(page, rooms, units)
    at_day(page, set_ms, 6)
    read_the_hygrometer(page, rooms, units)
    at_day(page, set_ms, 10)
    weigh_again(page, address, units)
    lose_the_power(page, rooms, set_ms)
    hatch(page, rooms, address, set_ms)

    served.start()
    page.goto(f"{served.url}/book")
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)
    wait_until(lambda: len(served.entries()) > 20)
    assert_the_setting(served, address.rpartition("/")[2])
    keep_the_forecast(served, page, address)


def weigh_first(page: Page, units: dict[str, str]) -> None:
    follow(page, "Weigh a tray")
    page.get_by_label(f"Tray empty, {units['m']}").fill(units["full"])
    page.get_by_label(f"Tray with eggs, {units['m']}").fill(units["empty"])
    tap(page, "Write it down")
    expect(page.get_by_text("are the two mixed up?")).to_be_visible()
    page.get_by_label(f"Tray empty, {units['m']}").fill(units["empty"])
    page.get_by_label(f"Tray with eggs, {units['m']}").fill(units["full"])
    tap(page, "Write it down")
    expect(page.get_by_role("heading", name="Weighed once")).to_be_visible()


def quick_acts(page: Page, rooms: str) -> None:
    page.goto(rooms)
    tap(page, "Turned, X up")
    expect(page.get_by_text("Turned 1 time today, an odd number. X up.")).to_be_visible()
    page.wait_for_timeout(600)  # sooner, it is the rest of a double tap
    tap(page, "Turned, O up")
    tap(page, "No, X is up")
    tap(page, "Not now")
    page.get_by_role("radio", name="Yesterday").tap()
    tap(page, "That was when")
    expect(page.get_by_text("Turned 1 time today")).to_be_visible()
    tap(page, "Water filled")
    tap(page, "Undo: Water filled")
    tap(page, "Vents changed")
    expect(page.get_by_text(re.compile("^Vents changed, "))).to_be_visible()


def read_the_air(page: Page, rooms: str, units: dict[str, str]) -> None:
    page.goto(rooms)
    follow(page, "Read the air")
    page.get_by_label(f"Dry bulb, {units['t']}").fill(units["dry"])
    page.get_by_label(f"Wet bulb, {units['t']}").fill(units["above"])
    tap(page, "Write it down")
    expect(page.get_by_text("The wet bulb reads above the dry bulb")).to_be_visible()
    page.get_by_label(f"Wet bulb, {units['t']}").fill(units["wet"])
    expect(page.get_by_text("That is 58 % humidity.")).to_be_visible()
    tap(page, "Write it down")
    expect(page.get_by_role("heading", name=re.compile("58 %: in the band"))).to_be_visible()
    expect(page.get_by_text("Nobody has checked the thermometer and wet bulb this season.")).to_be_visible()
    page.get_by_text("Why?").tap()
    expect(page.get_by_text("ASHRAE Fundamentals 2017")).to_be_visible()
    assert_sound(page)


def check_the_thermometer(page: Page, rooms: str, units: dict[str, str]) -> None:
    page.goto(rooms)
    follow(page, "Check a gauge")
    page.get_by_label(f"It reads, {units['t']}").fill(units["reads"])
    page.get_by_label(f"It should read, {units['t']}").fill(units["right"])
    expect(page.get_by_text("too low. Readings from now on")).to_be_visible()
    tap(page, "Gauge checked")
    expect(page.get_by_role("heading", name="One gauge checked this season")).to_be_visible()
    assert_sound(page)


def read_the_hygrometer(page: Page, rooms: str, units: dict[str, str]) -> None:
    page.goto(rooms)
    follow(page, "Read the air")
    page.get_by_role("radio", name="Hygrometer").tap()
    page.get_by_label(f"Temperature, {units['t']}").fill(units["warm"])
    page.get_by_label("Humidity, %").fill("55")
    tap(page, "Write it down")
    put_right = "99.7 °F, 55 %" if units["t"] == "°F" else "37.6 °C, 55 %"
    expect(page.get_by_role("heading", name=re.compile(f"{put_right}: in the band"))).to_be_visible()


def weigh_again(page: Page, address: str, units: dict[str, str]) -> None:
    page.goto(f"{address}/weigh")
    page.get_by_label(f"Tray with eggs, {units['m']}").fill(units["full"].replace("5", "9", 1))
    tap(page, "Write it down")
    expect(page.get_by_text("Eggs do not gain weight")).to_be_visible()
    page.get_by_label(f"Tray with eggs, {units['m']}").fill(units["later"])
    tap(page, "Write it down")
    expect(page.get_by_role("heading", name="Losing water too fast")).to_be_visible()
    expect(page.get_by_text("Lost 7.5 % by day 10; at this pace 13.5 % by lockdown. 10.5 to 13.0 %")).to_be_visible()
    expect(page.get_by_text("Raise the humidity from 55 to 60 %")).to_be_visible()
    expect(page.get_by_text("Nobody has checked the hygrometer this season")).to_be_visible()
    assert_sound(page)


def lose_the_power(page: Page, rooms: str, set_ms: int) -> None:
    page.goto(rooms)
    tap(page, "Power is off")
    at_day(page, set_ms, 10 + 1 / 24)
    follow(page, "What to do")
    expect(page.get_by_role("heading", name=re.compile("Power off for (1 h 0|59)"))).to_be_visible()
    expect(page.get_by_text("Small machines that fit under a box")).to_be_visible()
    expect(page.get_by_text("No flame, no fuel heater and no generator indoors")).to_be_visible()
    assert_sound(page)
    tap(page, "Power is back")
    page.goto(rooms)
    expect(page.get_by_text(re.compile("The power was away .* Candle again between"))).to_be_visible()
    assert_sound(page)


def hatch(page: Page, rooms: str, address: str, set_ms: int) -> None:
    at_day(page, set_ms, 18.01)
    page.goto(f"{address}/hatching")
    follow(page, "Lockdown")
    expect(page.get_by_text("Keep the screen on while you count?")).to_be_visible()
    assert_sound(page)
    tap(page, "Keep it on")
    for family in ("Rowan", "Hazel"):
        choose_tab(page, family)
        tap(page, "The rest go in")
    tap(page, "Lockdown done")
    for day, family, answer, n in (
        (20.5, "Rowan", "Pipped", 3),
        (20.9, "Rowan", "Hatched", 2),
        (21.2, "Hazel", "Hatched", 5),
    ):
        at_day(page, set_ms, day)
        page.goto(f"{address}/tally/hatch")
        choose_tab(page, family)
        tap(page, answer, n)
    at_day(page, set_ms, 21.3)
    page.goto(f"{address}/hatching")
    expect(page.get_by_role("heading", name="7 out, 23 still in the shell")).to_be_visible()
    expect(page.get_by_role("heading", name=re.compile("7 of 30 out within 7 h"))).to_be_visible()
    expect(page.get_by_text("1 egg is pipped: the lid stays shut")).to_be_visible()
    expect(page.get_by_text(re.compile("^By the species alone"))).to_be_visible()
    assert_sound(page)
    tap(page, "Move 7 chicks to the brooder")
    page.goto(rooms)
    expect(page.get_by_text("5 chicks, hatched today")).to_be_visible()


def keep_the_forecast(served, page: Page, address: str) -> None:
    """What the server foretold stays on the phone, with its date."""
    foretold = re.compile("^Nine of ten between")
    page.goto(f"{address}/hatching")
    expect(page.get_by_text(foretold)).to_be_visible()
    served.stop()
    page.reload()
    expect(page.get_by_text(foretold)).to_be_visible()
    expect(page.get_by_text(re.compile("The server's answer of"))).to_be_visible()


def assert_the_setting(served, setting: str) -> None:
    found = served.run("report", "setting", setting)
    air = found["air"]
    assert (air["readings"], air["gauge_checked"], air["last_humidity_pct"]) == (2, True, 55)
    assert air["phases"][0]["readings_out"] == 0
    assert [(one["gauge"], one["off"]) for one in air["gauges"] if one["off"] is not None] == [
        ("dry", pytest.approx(0.3, abs=0.001))
    ]
    [outage] = air["outages"]
    assert (outage["told"], outage["hours"]) == (True, pytest.approx(1, abs=0.02))
    loss = found["weight_loss"]
    assert [one["loss_pct"] for one in loss["points"]] == [0, pytest.approx(7.5, abs=0.03)]
    assert loss["projected_pct"] == pytest.approx(13.5, abs=0.06)
    assert sum(lot["stages"].get("brooding", 0) for lot in found["lots"]) == 7
    assert found["hatch"]["hatched"] == 7
    kinds = [(one["kind"], one["body"].get("side"), one["void"]) for one in served.entries()]
    assert kinds.count(("turned", "x", False)) == 3  # one, one put right to X, and that one dated anew
    assert [one for one in kinds if one[0] == "watered"] == [("watered", None, False), ("watered", None, True)]
    assert ("vented", None, False) in kinds
