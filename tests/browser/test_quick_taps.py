"""Three hundred taps as fast as a browser takes them: none is lost, and what they add up to is right everywhere."""

from collections import Counter

from playwright.sync_api import Page, expect

from tests.browser.hands import candle_paired, in_hand, on_server, only_here
from tests.browser.serving import wait_until

TAPS, EGGS = 300, 310
ANSWERS = ("Live", "Clear", "Blood ring")

# A finger's own events, one tap after the other with no rest: faster than any hand.
TAPPED = """([times, answers]) => {
  const finger = { bubbles: true, cancelable: true, isPrimary: true, button: 0, pointerId: 1, pointerType: "touch" };
  const next = (at) => {
    if (at === times) return;
    const words = answers[at % answers.length];
    const found = [...document.querySelectorAll(".keys button")].find((one) => one.textContent.startsWith(words));
    const box = found.getBoundingClientRect();
    const there = { ...finger, clientX: box.left + box.width / 2, clientY: box.top + box.height / 2 };
    found.dispatchEvent(new PointerEvent("pointerdown", there));
    found.dispatchEvent(new PointerEvent("pointerup", there));
    setTimeout(() => next(at + 1));
  };
  next(0);
}"""


def said(page: Page) -> bool:
    return only_here(page) == TAPS


def test_three_hundred_quick_taps_lose_none_and_count_right(running, new_phone):
    phone = new_phone()
    page = phone.open(running.url)
    address = candle_paired(page, running.url, running.code(), EGGS)
    setting = address.split("/")[-3]
    running.freeze()

    page.evaluate(TAPPED, [TAPS, list(ANSWERS)])
    wait_until(lambda: in_hand(page) == EGGS - TAPS, seconds=40)
    wait_until(lambda: said(page), seconds=40)
    page.reload()  # what was only on the screen would be gone now
    expect(page.locator(".big-count .figure")).to_have_text(str(EGGS - TAPS))
    assert said(page)

    running.thaw()
    on_server(page)
    taps = [entry for entry in running.entries() if entry["kind"] in ("looked", "moved")]
    assert len({entry["id"] for entry in taps}) == TAPS
    moved = Counter(move["to"] for entry in taps if entry["kind"] == "moved" for move in entry["body"]["moves"])
    assert moved == {"clear": TAPS // 3, "blood_ring": TAPS // 3}
    lot = running.run("report", "setting", setting)["lots"][0]
    assert lot["stages"] == {"set": EGGS - 2 * TAPS // 3, "clear": TAPS // 3, "blood_ring": TAPS // 3}
    assert (lot["fertility"]["k"], lot["fertility"]["n"]) == (2 * TAPS // 3, TAPS)
