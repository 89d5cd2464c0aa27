"""From a brood to ten kept birds with no server, as a keeper taps it; the server's reports are asked afterwards.

Rowan: 14 eggs set on 1 March 2026, 12 hatched on day 21, moved to the brooder, weighed at nine weeks, chosen: six hens
and four cocks kept, one sold, one culled.
"""

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.audit import SOUND, assert_sound, audit
from tests.browser.away import at_day, back_home, carried_away, set_away
from tests.browser.hands import button, follow, pick, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served

WEIGHTS = [820, 790, 905, 760, 1010, 870, 845, 615, 930, 880]
"""Mean 842.5, standard deviation 107.296, CV 12.7 %, within 758.25 and 926.75: 7 of 10 (Python's statistics)."""


@pytest.fixture
def page(served: Served, new_phone: Callable[..., Phone]) -> Page:
    return carried_away(served, new_phone, "day")


def brood_away(page: Page, url: str) -> None:
    """Twelve chicks out of fourteen eggs, and in the brooder, by the phone's clock."""
    address = set_away(page, url, [("Rowan", 14)])
    at_day(page, 21.2)
    page.goto(f"{address}/tally/hatch")
    tap(page, "Hatched", 12)
    page.goto(f"{address}/hatching")
    button(page, "Move 12 chicks").tap()


def weigh(page: Page, *grams: int) -> None:
    for mass in grams:
        page.get_by_label("Weight, g").fill(str(mass))
        tap(page, "Next")


def keep(page: Page, sex: str, colour: str, first: str, many: int) -> None:
    pick(page, sex)
    page.get_by_label("Colour").select_option(colour)
    page.get_by_role("textbox", name="Number").fill(first)
    tap(page, "One more", many - 1)
    tap(page, f"Keep {many} {sex.lower()}{'s' * (many > 1)}")
    expect(page.get_by_text(f"{many} birds kept." if many > 1 else "1 bird kept.")).to_be_visible()


def lines(page: Page) -> dict[str, str]:
    """The figures under the scales, by what they are."""
    rows = page.locator("ul.lines > li").all()
    return dict(row.locator("span, b").all_inner_texts()[:2] for row in rows)


def test_from_a_brood_to_ten_kept_birds(page: Page, served: Served) -> None:
    url = served.url
    brood_away(page, url)
    at_day(page, 84)
    page.goto(f"{url}/families")
    follow(page, "Birds and weights")
    expect(page.get_by_role("heading", level=1)).to_have_text("No bird is known by itself yet")
    expect(page.get_by_text("Rowan: 12 chicks")).to_be_visible()

    follow(page, "Weigh them")
    weigh(page, *WEIGHTS)
    assert page.locator(".big-count .figure").inner_text() == "10"
    assert lines(page) == {"Mean": "843 g", "Spread (CV)": "12.7 %", "Within 10 % of the mean": "7 of 10"}
    tap(page, "Take back")
    assert page.locator(".big-count .figure").inner_text() == "9"
    weigh(page, WEIGHTS[-1])
    assert_sound(page)

    page.goto(f"{url}/birds")
    follow(page, "Choose")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rowan: 12 chicks to choose from")
    keep(page, "Hen", "red", "101", 6)
    keep(page, "Cock", "red", "201", 4)
    expect(page.get_by_role("heading", level=1)).to_have_text("Rowan: 2 chicks to choose from")
    page.get_by_role("textbox", name="Number").fill("104")
    expect(page.get_by_text("Rowan wears this number today.")).to_be_visible()
    assert_sound(page)
    pick(page, "Sell or give")
    page.get_by_label("To whom").fill("A. Reed, Fen End")
    tap(page, "1 sold or given")
    expect(page.get_by_text("1 written down: sold or given.")).to_be_visible()
    pick(page, "Cull")
    expect(page.get_by_text("Culling needs training.")).to_be_visible()
    page.get_by_label("Cause").select_option("Legs")
    tap(page, "1 culled")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rowan: all are chosen")
    assert audit(page) == {"axe": [], **SOUND}

    page.goto(f"{url}/birds")
    expect(page.get_by_role("heading", level=1)).to_have_text("10 birds here: 4 cocks, 6 hens")
    page.goto(f"{url}/birds/weigh")
    page.get_by_label("Mark or number").fill("101")
    expect(page.get_by_text("On the scales: red 101")).to_be_visible()
    weigh(page, 700)
    page.get_by_label("Mark or number").fill("102")
    weigh(page, 1000)
    page.get_by_label("Mark or number").fill("103")
    weigh(page, 1050)
    page.goto(f"{url}/birds")
    page.get_by_label("Find by mark or name").fill("101")
    follow(page, "red 101")
    expect(page.get_by_role("heading", level=1)).to_have_text("red 101: hen, 63 days old")
    expect(page.get_by_text("700 g")).to_be_visible()
    assert_sound(page)

    back_home(page, served)
    assert_reports(served)
    assert_growth_is_shown(page, served)


def assert_reports(served: Served) -> None:
    lot = served.entries()[[one["kind"] for one in served.entries()].index("set")]["body"]["lots"][0]["lot"]
    brood = served.run("report", "brood", lot, "--on", "2026-05-24")
    assert brood["stages"] == {"culled": 1, "flock": 10, "parted": 1, "set": 2}
    assert brood["alive"] == 10
    assert (brood["first_week"]["k"], brood["first_week"]["n"]) == (0, 12)
    assert [point["died"] for point in brood["survival"]["points"] if point["died"]] == []
    assert brood["problems"] == []
    growth = served.run("report", "growth", "--on", "2026-05-24")
    groups = {(one["sex"], one["n"]): one for one in growth["groups"]}
    assert set(groups) == {("unknown", 10), ("female", 3)}
    assert groups["unknown", 10]["mean_g"] == pytest.approx(842.5)
    assert groups["unknown", 10]["cv_pct"] == pytest.approx(12.7355, abs=5e-4)
    assert groups["unknown", 10]["within_10_pct"] == 70
    assert [(one["label"], one["rank"], one["slow"]) for one in growth["birds"]] == [
        ("red 103", 1, False),
        ("red 102", 2, False),
        ("red 101", 3, True),
    ]
    birds = {one["label"]: one for one in served.run("report", "family")["birds"]}
    assert [label for label, one in birds.items() if one["sex"] == "male"] == [
        "red 201",
        "red 202",
        "red 203",
        "red 204",
    ]
    assert len(birds) == 10


def assert_growth_is_shown(page: Page, served: Served) -> None:
    """The server's answer, with its date, also once the server is away again."""
    page.goto(f"{served.url}/birds/growth")
    expect(page.get_by_role("heading", level=1)).to_have_text("1 bird lags behind its own batch")
    expect(page.get_by_text("No growth curve. Weighed at 1 age; a curve needs at least 5.").first).to_be_visible()
    expect(page.get_by_text("700 g, 76 % of the mean of 3")).to_be_visible()
    served.stop()
    page.reload()
    expect(page.get_by_text("The server cannot be asked now.")).to_be_visible()
    expect(page.get_by_text("700 g, 76 % of the mean of 3")).to_be_visible()
    assert_sound(page)


def test_what_cannot_be_is_kept_and_told(page: Page, served: Served) -> None:
    """A day-old of 4 kg, one number on two birds, more chicks gone than there are."""
    url = served.url
    brood_away(page, url)
    page.goto(f"{url}/birds/weigh")
    weigh(page, 41, 4000, 39)
    expect(page.get_by_text("4000 g is not the weight of a bird 0 days old.")).to_be_visible()
    assert lines(page)["Mean"] == "40.0 g"
    at_day(page, 84)
    page.goto(f"{url}/birds")
    follow(page, "Choose")
    keep(page, "Hen", "blue", "7", 1)
    keep(page, "Hen", "blue", "7", 1)
    page.goto(f"{url}/book")
    expect(page.get_by_role("heading", level=1)).to_have_text("2 things to settle")
    expect(page.get_by_text("4000 g at 0 days is not the weight of a bird of that age")).to_be_visible()
    expect(page.get_by_text("The band ring blue left 7 is worn by two living birds.")).to_be_visible()
    page.get_by_role("button", name=re.compile("Rowan: 12 hatched")).tap()
    page.get_by_role("button", name=re.compile("^Take back: .*1 hatched")).first.tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("3 things to settle")
    expect(page.get_by_text(re.compile("^Rowan: 1 more went out of .* than were there")).first).to_be_visible()
    back_home(page, served)
    found: list[dict[str, Any]] = served.run("check")["problems"]
    assert sorted(one["code"] for one in found) == ["band_twice", "below_zero", "weight_odd"]
    page.get_by_role("button", name=re.compile("^Take back: One of Rowan weighed: 4000 g")).first.tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("2 things to settle")
