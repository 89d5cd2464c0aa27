"""Candling, lockdown, hatch and opening in the hatch room's own themes, with no server, as a keeper taps it.

Counts were worked out by hand, beside each; the setting's report is asked afterwards.
"""

import re
from datetime import datetime

from playwright.sync_api import Page, expect

from tests.browser.hands import (
    DAY_MS,
    button,
    choose_tab,
    follow,
    in_hand,
    name_the_place,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)

SET_MS = int(datetime.fromisoformat("2026-03-01T09:00:00Z").timestamp() * 1000)


def at_day(page: Page, day: float) -> None:
    page.clock.set_system_time((SET_MS + day * DAY_MS) / 1000)


def begin(served, phone, batches: list[tuple[str, int]]) -> tuple[Page, str]:
    """A paired phone with a fresh setting, in a shed without signal."""
    page = phone.open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    served.stop()  # first, or the phone may still learn how far its clock is off
    page.clock.install(time=SET_MS / 1000)
    page.goto(f"{served.url}/welcome")
    name_the_place(page, [family for family, _ in batches])
    return page, set_eggs(page, batches)


def choose(page: Page, *answers: str) -> None:
    """On the page of this phone."""
    for answer in answers:
        page.get_by_role("radio", name=answer, exact=True).tap()


def else_(page: Page, *words: str) -> None:
    tap(page, "Something else")
    for word in words:
        tap(page, word)


def assert_large_keys(page: Page) -> None:
    page.locator(".keys").wait_for()
    sizes = page.locator(".keys button").evaluate_all(
        "(keys) => keys.map((key) => key.getBoundingClientRect()).map(({ width, height }) => [width, height])"
    )
    assert len(sizes) >= 6
    assert min(min(size) for size in sizes) >= 72, sizes


def assert_eggs_in_sight(page: Page) -> None:
    """The answers do not lie over the eggs, and all of them are on the first screenful."""
    above, keys = page.locator(".counting > .top").bounding_box(), page.locator(".keys").bounding_box()
    assert above
    assert keys
    assert above["y"] + above["height"] <= keys["y"]
    assert keys["y"] + keys["height"] <= 844


def report(served, page: Page, address: str) -> dict:
    """What the server makes of it, once all of it is there."""
    served.start()
    page.goto(f"{served.url}/book")
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=40_000)
    return dict(served.run("report", "setting", address.rpartition("/")[2]))


def rate(found: dict, name: str) -> tuple[int, int]:
    return found[name]["k"], found[name]["n"]


def test_candling_in_red_light(served, new_phone):
    """Rowan 12: 9 live, 1 clear (another was put back), 1 blood ring, 1 dead that was not sure at first.

    Hazel 8: 1 missing by count, 6 live; the one left over is the clear egg whose sign nobody could read.
    """
    page, address = begin(served, new_phone(), [("Rowan", 12), ("Hazel", 8)])
    page.goto(f"{served.url}/phone")
    choose(page, "Hatch room", "Red")
    at_day(page, 7.1)
    page.goto(f"{address}/tally/candle")
    assert page.evaluate("document.documentElement.dataset.theme") == "hatch-room"
    tap(page, "Keep it on")
    assert_large_keys(page)
    tap(page, "Clear", 2)
    tap(page, "Blood ring")
    tap(page, "Undo")
    tap(page, "Blood ring")
    tap(page, "Not sure")
    tap(page, "Live", 3)
    assert in_hand(page) == 5
    else_(page)
    follow(page, "How to")
    expect(page.get_by_role("heading", name="Candling: one egg, one look, one tap")).to_be_visible()
    follow(page, "Back to the count")
    assert in_hand(page) == 5
    else_(page, "Put an egg back", "One of 2 clear, back in")
    assert in_hand(page) == 6
    tap(page, "The rest are live")
    expect(page.get_by_role("heading", name="All of this batch is judged.")).to_be_visible()
    expect(page.get_by_role("img", name=re.compile("^Fertile: 10 of 11, true rate 62 to 98 %"))).to_be_visible()
    tap(page, "Look again at 1 not sure")
    assert in_hand(page) == 1
    tap(page, "Dead in shell")
    page.get_by_text("Why?").tap()
    expect(page.get_by_text("11 of 12").last).to_be_visible()
    tap(page, "Next: Hazel")
    else_(page, "Count again")
    tap(page, "One fewer")
    tap(page, "That is the count")
    expect(page.get_by_text("You counted 7; the book says 8.")).to_be_visible()
    tap(page, "1 egg missing: write that down")
    tap(page, "Live", 2)
    choose_tab(page, "Not known")
    tap(page, "Clear")
    choose_tab(page, "Hazel")
    assert in_hand(page) == 4
    else_(page, "Batch by batch")
    expect(page.get_by_text("and up to 1 more clear: the family was not known")).to_have_count(2)
    tap(page, "Back")
    at_day(page, 7.1 + 25 / 60 / 24)
    page.clock.run_for(21_000)
    expect(page.get_by_text("Out for 25 minutes")).to_be_visible()
    tap(page, "The rest are live")
    expect(page.get_by_role("heading", name="Every egg is judged.")).to_be_visible()

    found = report(served, page, address)
    rowan, hazel = sorted(found["lots"], key=lambda lot: -lot["n"])
    assert rowan["stages"] == {"set": 9, "clear": 1, "blood_ring": 1, "quitter": 1}
    assert hazel["stages"] == {"set": 7, "unaccounted": 1}
    assert found["total"]["stages"] == {"set": 15, "clear": 2, "blood_ring": 1, "quitter": 1, "unaccounted": 1}
    assert (rate(rowan, "fertility"), rate(hazel, "fertility")) == ((11, 12), (6, 6))
    assert found["problems"] == []


def test_from_lockdown_to_opening_in_amber_light_with_the_left_hand(served, new_phone):
    """Rowan 10: 1 clear, 7 hatched of 9 fertile (1 weak, 1 helped), 1 dead midway on day 10, 1 at internal pip.

    Hazel 6: 4 hatched, typed from paper; 2 dead late.
    """
    page, address = begin(served, new_phone(), [("Rowan", 10), ("Hazel", 6)])
    page.goto(f"{served.url}/phone")
    choose(page, "Hatch room", "Amber", "Left")
    at_day(page, 18)
    page.goto(f"{address}/tally/lockdown")
    assert page.evaluate("({ ...document.documentElement.dataset })") == {
        "theme": "hatch-room",
        "tone": "amber",
        "hand": "left",
        "letters": "usual",
    }
    tap(page, "No")
    clear, ring = [button(page, words).bounding_box() for words in ("Clear", "Blood ring")]
    assert clear
    assert ring
    assert clear["x"] > ring["x"]
    tap(page, "Clear")
    tap(page, "Into the hatcher", 3)
    tap(page, "The rest go in")
    tap(page, "Next: Hazel")
    tap(page, "The rest go in")
    tap(page, "Lockdown done")
    at_day(page, 20.9)
    page.goto(f"{address}/tally/hatch")
    assert_large_keys(page)
    tap(page, "Nothing new")
    at_day(page, 21.3)
    page.goto(f"{address}/tally/hatch")
    tap(page, "When: now")
    choose(page, "Earlier today")
    tap(page, "That is when")
    tap(page, "Hatched", 5)
    tap(page, "Hatched, weak")
    tap(page, "Helped out")
    tap(page, "Pipped")
    expect(page.get_by_text("keep the lid shut")).to_be_visible()
    tap(page, "The rest did not hatch")
    tap(page, "Next: Hazel")
    tap(page, "Type a count")
    page.get_by_role("textbox", name="Hatched", exact=True).fill("4")
    tap(page, "Write these down")
    assert in_hand(page) == 2
    tap(page, "The rest did not hatch")
    page.goto(f"{address}/tally/open")
    expect(page.get_by_text(re.compile("wait until it is 24"))).to_be_visible()
    assert_eggs_in_sight(page)
    at_day(page, 23)
    page.goto(f"{address}/tally/open")
    expect(page.get_by_text("Candle and listen first")).to_be_visible()
    tap(page, "Which is it?")
    tap(page, "One more", 10)
    expect(page.get_by_text("Day 10: Died midway.")).to_be_visible()
    tap(page, "Died midway, about day 10")
    tap(page, "Which is it?")
    tap(page, "Pipped inside")
    tap(page, "The rest are infertile")
    tap(page, "Next: Hazel")
    tap(page, "Type a count")
    page.get_by_role("textbox", name="Died late", exact=True).fill("2")
    tap(page, "Write these down")
    expect(page.get_by_role("heading", name="Every egg is opened.")).to_be_visible()

    found = report(served, page, address)
    rowan, hazel = sorted(found["lots"], key=lambda lot: -lot["n"])
    assert [rate(rowan, name) for name in ("fertility", "hatch_of_fertile", "hatch_of_set")] == [
        (9, 10),
        (7, 9),
        (7, 10),
    ]
    assert [rate(hazel, name) for name in ("fertility", "hatch_of_fertile")] == [(6, 6), (4, 6)]
    deaths = {"early": 0, "mid": 0, "late": 0, "internal_pip": 0, "external_pip": 0, "unopened": 0}
    assert rowan["deaths"] == {**deaths, "mid": 1, "internal_pip": 1}
    assert hazel["deaths"] == {**deaths, "late": 2}
    assert found["problems"] == []
    moved = [entry for entry in served.entries() if entry["kind"] == "moved"]
    assert [entry["body"].get("day") for entry in moved if entry["body"].get("why") == "opened"] == [
        10,
        None,
        None,
        None,
    ]
    hatches = [entry["at"] for entry in moved if entry["body"].get("why") == "hatch"]
    assert {datetime.fromisoformat(at).timestamp() * 1000 for at in hatches} == {SET_MS + 21.3 * DAY_MS - 3_600_000}
