"""Eggs, count and answers in sight together at each of the four tallies, by either hand; many eggs scroll alone.

A tray of 24 is what a small machine holds; 80 is a batch as large as any keeper of small families will set.
"""

from collections.abc import Callable

from playwright.sync_api import Page

from tests.browser.audit import assert_large_keys
from tests.browser.away import at_day, set_away
from tests.browser.hands import choose_tab, rows_held, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served, wait_until

ANSWERED = {
    ("candle", 7.1): (("Live", 3), ("Clear", 1), ("Blood ring", 1), ("Dead in shell", 1), ("Not sure", 1), ("Live", 4)),
    ("lockdown", 18): (("Clear", 1), ("Rotten", 1), ("Into the hatcher", 3)),
    ("hatch", 21): (("Hatched", 5), ("Hatched, weak", 1), ("Helped out", 1), ("Pipped", 2), ("Hatched, died", 1)),
    ("open", 21.5): (("Infertile", 2), ("Died early", 1), ("Died late", 1), ("Pipped inside", 1)),
}
HANDS = ("left", "right")
BOXES = """() => {
  const box = (all) => [...all].map((one) => one.getBoundingClientRect());
  const bounds = (all) => ({
    top: Math.min(...all.map((one) => one.top)), bottom: Math.max(...all.map((one) => one.bottom)),
    left: Math.min(...all.map((one) => one.left)), right: Math.max(...all.map((one) => one.right)), n: all.length,
  });
  const of = (selector) => bounds(box(document.querySelectorAll(selector)));
  return {
    eggs: of('.egg-strip .egg, .egg-strip span'), count: of('.big-count'), keys: of('.keys button'),
    beside: of('.extra button'), undo: of('.undo'), above: of('.counting > .top'),
  };
}"""


def sight(page: Page) -> dict[str, dict[str, float]]:
    return dict(page.evaluate(BOXES))


def assert_answers_stay(page: Page) -> dict[str, dict[str, float]]:
    """Count, undo, answers and what is beside them are on the first screenful, and do not lie over one another."""
    found = sight(page)
    assert found["keys"]["n"] == 7
    for part in ("count", "undo"):
        assert found["above"]["top"] <= found[part]["top"] < found[part]["bottom"] <= found["above"]["bottom"]
    assert found["above"]["bottom"] <= found["keys"]["top"]
    assert found["keys"]["bottom"] <= found["beside"]["top"]
    assert found["beside"]["bottom"] <= 844
    assert page.evaluate("document.documentElement.scrollHeight") <= 844
    assert_large_keys(page)
    return found


def assert_eggs_in_sight(page: Page) -> None:
    """All eggs and what is said of them lie between the count and the answers, and nothing has to be scrolled."""
    found = assert_answers_stay(page)
    assert found["count"]["bottom"] <= found["eggs"]["top"]
    assert found["eggs"]["bottom"] <= found["above"]["bottom"]
    assert 0 <= found["eggs"]["left"] < found["eggs"]["right"] <= 390


def by_hand(page: Page, hand: str) -> None:
    page.evaluate("(hand) => { document.documentElement.dataset.hand = hand }", hand)


def test_a_tray_of_eggs_and_all_answers_are_in_sight(running: Served, new_phone: Callable[..., Phone]) -> None:
    page = new_phone().open(running.url)
    page.evaluate("localStorage['broodline-awake'] = 'no'")
    address = set_away(page, running.url, [("Rowan", 24), ("Hazel", 80)])
    for (what, day), answers in ANSWERED.items():
        at_day(page, day)
        page.goto(f"{address}/tally/{what}")
        page.locator(".keys").wait_for()
        assert_eggs_in_sight(page)
        kept = len(rows_held(page)) + sum(times for _, times in answers)
        for words, times in answers:
            tap(page, words, times)
        wait_until(lambda kept=kept: len(rows_held(page)) == kept)
        if what == "candle":  # the cold tray is warned of
            at_day(page, day + 25 / 60 / 24)
            page.clock.run_for(21_000)
            page.get_by_text("Out for 25 minutes").wait_for()
        for hand in HANDS:
            by_hand(page, hand)
            assert_eggs_in_sight(page)
        choose_tab(page, "Hazel")
        page.get_by_role("tab", name="Hazel", selected=True).wait_for()
        before = assert_answers_stay(page)
        assert before["eggs"]["bottom"] > before["above"]["bottom"]
        page.locator(".counting > .top").evaluate("(above) => above.scrollTo(0, above.scrollHeight)")
        after = assert_answers_stay(page)
        assert after["eggs"]["bottom"] <= after["above"]["bottom"]
        assert {part: after[part] for part in ("keys", "beside")} == {part: before[part] for part in ("keys", "beside")}
