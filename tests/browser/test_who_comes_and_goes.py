"""Who comes, who goes, what is given and what an authority orders, with no server; the book is read afterwards."""

import re
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.audit import SOUND, assert_sound, audit
from tests.browser.away import at_day, back_home, carried_away, set_away
from tests.browser.hands import follow, pick, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served


def bodies(served: Served, kind: str) -> list[dict[str, Any]]:
    return [one["body"] for one in served.entries() if one["kind"] == kind and not one["void"]]


def rows(page: Page) -> list[list[str]]:
    """The table's rows, cell by cell."""
    return [row.locator("th, td").all_inner_texts() for row in page.locator("tbody tr").all()]


def a_bird_and_chicks_come(page: Page, url: str) -> None:
    page.goto(f"{url}/birds/came")
    page.get_by_label("From whom").fill("Fen End")
    pick(page, "Female")
    page.get_by_role("textbox", name="Name", exact=True).fill("Meg")
    page.get_by_label("Colour").select_option("yellow")
    page.get_by_role("textbox", name="Number").fill("9")
    page.get_by_label("Kept apart until").fill("2026-04-01")
    tap(page, "Write the bird down")
    expect(page.get_by_text("Written down.")).to_be_visible()
    pick(page, "Chicks, as a batch")
    page.get_by_role("textbox", name="How many").fill("5")
    page.get_by_label("Hatched on, if known").fill("2026-03-01")
    assert_sound(page)
    tap(page, "Write down 5 chicks")
    expect(page.get_by_text("Written down.")).to_be_visible()


def she_is_treated(page: Page, url: str) -> None:
    page.goto(f"{url}/birds")
    follow(page, "Meg")
    expect(page.get_by_role("heading", level=1)).to_have_text("Meg: hen")
    expect(page.get_by_text("kept apart until 1 Apr")).to_be_visible()
    follow(page, "Write down a treatment")
    page.get_by_label("Product").fill("Wormer")
    page.get_by_label("Given or prescribed by").fill("Dr Hale")
    page.get_by_label("Eggs not for eating until").fill("2026-03-20")
    page.get_by_label("Meat not for eating until").fill("2026-03-02")
    expect(page.get_by_text("A day lies before the first day of the treatment.")).to_be_visible()
    page.get_by_label("Meat not for eating until").fill("2026-03-15")
    assert_sound(page)
    tap(page, "Save the treatment")
    expect(page.get_by_role("heading", level=1)).to_have_text("Eggs not for eating until 20 Mar")
    held = page.get_by_text("Eggs of Meg not for eating until 20 Mar, after Wormer.")
    page.goto(f"{url}/eggs")
    expect(held).to_be_visible()
    at_day(page, 20)
    page.goto(f"{url}/eggs")
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    expect(held).to_have_count(0)


def birds_are_to_be_kept_in(page: Page, url: str) -> None:
    page.goto(f"{url}/birds/orders")
    tap(page, "Write down an order")
    page.get_by_label("What it says, in short").fill("Housing order of the county vet")
    tap(page, "Save the order")
    expect(page.get_by_role("heading", level=1)).to_have_text("1 order is in force")
    assert rows(page)[0][1:] == ["6", "0", "0", "0", "0", "0", ""], "Meg and five chicks"
    assert_sound(page)
    page.goto(f"{url}/birds/came")
    expect(page.get_by_text("Ask the authority before any bird comes or goes")).to_be_visible()


def she_goes_missing(page: Page, url: str) -> None:
    page.goto(f"{url}/birds")
    follow(page, "Meg")
    tap(page, "It leaves, or died")
    expect(page.get_by_text("An order is in force since 21 Mar")).to_be_visible()
    pick(page, "Missing")
    page.get_by_label("Cause").select_option("Fox")
    assert_sound(page)
    tap(page, "1 bird: missing")
    expect(page.get_by_text("Missing since 21 Mar.")).to_be_visible()


def test_who_comes_who_goes_and_what_an_inspector_is_shown(served: Served, new_phone: Callable[..., Phone]) -> None:
    page, url = carried_away(served, new_phone, "day"), served.url
    set_away(page, url, [("Rowan", 6)])
    at_day(page, 9)
    a_bird_and_chicks_come(page, url)
    she_is_treated(page, url)
    birds_are_to_be_kept_in(page, url)
    she_goes_missing(page, url)
    page.goto(f"{url}/birds/record")
    expect(page.get_by_role("heading", level=1)).to_have_text("6 came, 0 left, 0 died, 1 missing")
    assert rows(page) == [
        ["10 Mar", "Came, bought", "Meg\n\nfrom Fen End"],
        ["10 Mar", "Came, bought", "5 birds, Rowan\n\nfrom Fen End"],
        ["10 Mar", "Treated", "Meg\n\nby Dr Hale\n\nWormer"],
        ["21 Mar", "Missing", "Meg\n\nFox"],
    ]
    assert audit(page) == {"axe": [], **SOUND}
    page.goto(f"{url}/birds/orders")
    expect(page.get_by_role("heading", level=1)).to_have_text("1 order is in force")
    assert rows(page)[0][1:] == ["5", "0", "0", "0", "0", "1", ""]
    page.get_by_role("button", name=re.compile("^It was lifted today")).tap()
    expect(page.get_by_text("Housing order of the county vet").last).to_be_visible()

    back_home(page, served)
    [came, chicks] = bodies(served, "came")
    assert (came["how"], came["from"], came["apart_until"]) == ("bought", "Fen End", "2026-04-01")
    assert (chicks["n"], chicks["stage"], chicks["hatched_on"]) == (5, "brooding", "2026-03-01")
    [treated] = bodies(served, "treated")
    assert (treated["no_eggs_until"], treated["no_meat_until"]) == ("2026-03-20", "2026-03-15")
    [left] = bodies(served, "left")
    assert (left["bird"], left["how"], left["cause"]) == (came["bird"], "lost", "predator_fox")
    brood = served.run("report", "brood", chicks["lot"], "--on", "2026-03-22")
    assert (brood["age_days"], brood["stages"], brood["parents"]["pairs"]) == (21, {"brooding": 5}, [])
    assert served.run("check")["problems"] == []
