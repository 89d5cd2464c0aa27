"""Light, sound and keys beside the touch: no bright frame in the hatch room, a keypad and a voice at night."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.away import THEMES, at_day, carried_away, rate, report, set_away
from tests.browser.hands import in_hand, name_the_place, set_eggs
from tests.browser.serving import Served, wait_until

EARS = """() => {
  window.heard = [];
  speechSynthesis.speak = ({ text }) => window.heard.push(text);
  navigator.vibrate = (pattern) => window.heard.push(pattern);
}"""
BRIGHTEST = """async (frames) => {
  let most = 0;
  for (const frame of frames) {
    const bytes = Uint8Array.from(atob(frame), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = canvas.getContext('2d');
    pen.drawImage(bitmap, 0, 0);
    const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
    for (let at = 0; at < data.length; at += 4) most = Math.max(most, data[at + 1], data[at + 2]);
  }
  return most;
}"""
SCREENS = {
    "red": ("due", "rooms", "families", "book", "phone", "help/open", "tally/candle", "tally/hatch", "season"),
    "amber": ("due", "tally/open", "help/candle", "rooms"),
}
GREEN_OF_INK = {"red": 0x60, "amber": 0x90}
"""A little above the green of the brightest ink; white has green and blue of 0xff."""


def begin(running: Served, phone) -> tuple[Page, str]:
    """A phone by itself, unpaired, with eight eggs set."""
    page = phone.open(f"{running.url}/welcome")
    name_the_place(page, ["Rowan"])
    return page, set_eggs(page, [("Rowan", 8)])


@pytest.mark.parametrize("theme", THEMES)
def test_a_keypad_and_a_voice_without_a_server(served, new_phone, theme):
    page = carried_away(served, new_phone, theme)
    address = set_away(page, served.url, [("Rowan", 8)])
    at_day(page, 7.1)
    page.goto(f"{served.url}/phone")
    page.get_by_role("radio", name="Large", exact=True).tap()
    for sign in ("Keep the screen on", "Say each count aloud", "A buzz with each answer"):
        page.get_by_role("switch", name=sign).tap()
    page.goto(f"{address}/tally/candle")
    page.locator(".keys").wait_for()
    expect(page.get_by_text("Keep the screen on while you count?")).to_have_count(0)
    page.evaluate(EARS)
    for key in "1122":
        page.keyboard.press(key)
    page.keyboard.press("Backspace")
    page.keyboard.press("0")
    wait_until(lambda: len(page.evaluate("heard")) == 11)
    assert [told for told in page.evaluate("heard") if isinstance(told, str)] == [
        "Rowan, 1 live",
        "Rowan, 2 live",
        "Rowan, 1 clear",
        "Rowan, 2 clear",
        "Undo",
        "Rowan, 5 in hand",
    ]
    assert [told for told in page.evaluate("heard") if isinstance(told, list)][2:4] == [[30, 60, 30], [30, 60, 30]]
    assert in_hand(page) == 5
    assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "20px"
    found = report(served, page, address)
    assert found["total"]["stages"] == {"set": 7, "clear": 1}
    assert rate(found["total"], "fertility") == (2, 3), "two live and one clear of eight looked at"
    looks = [entry["body"] for entry in served.entries() if entry["kind"] == "looked"]
    assert [(look["what"], look["day"], look["live"]) for look in looks] == [("candled", 7, 1)] * 2


def test_no_frame_of_the_hatch_room_is_bright(running, new_phone):
    """Frames as the screen drew them, from the start of the app through its screens, each a script of its own."""
    page, address = begin(running, new_phone())
    frames: list[str] = []
    film = page.context.new_cdp_session(page)

    def keep(frame: dict) -> None:
        frames.append(frame["data"])
        film.send("Page.screencastFrameAck", {"sessionId": frame["sessionId"]})

    film.on("Page.screencastFrame", keep)
    for tone, screens in SCREENS.items():
        page.goto(f"{running.url}/phone")
        page.evaluate(
            "(tone) => Object.assign(localStorage, { 'broodline-theme': 'hatch-room', 'broodline-tone': tone })", tone
        )
        page.reload()
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        film.send("Page.startScreencast", {"format": "png", "everyNthFrame": 1})
        for screen in screens:
            page.goto(f"{address}/{screen}" if screen.startswith("tally") else f"{running.url}/{screen}")
            expect(page.get_by_role("heading", level=1)).to_be_attached()
        film.send("Page.stopScreencast")
        assert len(frames) >= len(screens)
        assert page.evaluate(BRIGHTEST, frames) <= GREEN_OF_INK[tone]
        frames.clear()


def test_all_answers_are_on_the_first_screenful_with_letters_of_any_size(running, new_phone):
    page, address = begin(running, new_phone())
    for width, height, sizes in ((390, 844, ("usual", "large", "largest")), (320, 640, ("usual", "large"))):
        page.set_viewport_size({"width": width, "height": height})
        for letters in sizes:
            page.evaluate(
                "(size) => Object.assign(localStorage, { 'broodline-letters': size, 'broodline-awake': 'no' })", letters
            )
            for what in ("candle", "lockdown", "hatch", "open"):
                page.goto(f"{address}/tally/{what}")
                page.locator(".keys").wait_for()
                keys = page.locator(".keys button").evaluate_all(
                    "(all) => all.map((one) => one.getBoundingClientRect()).map((it) => [it.bottom, it.height])"
                )
                assert len(keys) == 7
                assert max(bottom for bottom, _ in keys) <= height, (width, letters, what)
                assert min(tall for _, tall in keys) >= 72, (width, letters, what)
                count = page.locator(".big-count .figure").bounding_box()
                assert count
                assert count["y"] + count["height"] <= min(bottom - tall for bottom, tall in keys)
