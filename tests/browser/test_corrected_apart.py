"""Two phones put one family's name right, both without a server: one name stands on both, and both are told."""

import re

from playwright.sync_api import Page, expect

from tests.browser.hands import add_family, ask_now, name_the_place, on_server, pair, tap, wait_until_it_works_offline

TOLD = "This was corrected twice at once; the other correction counts."


def rename(page: Page, old: str, new: str) -> None:
    page.get_by_role("button", name=f"Change {old}").click()
    page.get_by_label("Name", exact=True).fill(new)
    tap(page, "Save the family")
    expect(page.get_by_role("heading", name=new)).to_be_visible()


def test_two_corrections_made_apart_leave_one_name_and_are_told(served, new_phone):
    kitchen, barn = new_phone().open(served.url), new_phone().open(served.url)
    pair(kitchen, served.url, served.code(), "Kitchen phone")
    kitchen.goto(served.url)
    name_the_place(kitchen, ["Rowan"])
    on_server(kitchen)
    pair(barn, served.url, served.code("helper"), "Barn phone")
    on_server(barn)
    for page in (kitchen, barn):
        wait_until_it_works_offline(page)
        page.goto(f"{served.url}/families")
        expect(page.get_by_role("heading", name="Rowan")).to_be_visible()
    served.stop()
    rename(kitchen, "Rowan", "Rowan old line")
    rename(barn, "Rowan", "Rowan of the hill")
    add_family(barn, "Hazel")

    served.start()
    for page in (kitchen, barn, kitchen):
        ask_now(page)
        on_server(page)
    expect(kitchen.get_by_role("heading", name="Hazel")).to_be_visible()
    names = [page.get_by_role("heading", name=re.compile("^Rowan")).all_inner_texts() for page in (kitchen, barn)]
    assert names[0] == names[1]
    assert names[0] in (["Rowan old line"], ["Rowan of the hill"])
    for page in (kitchen, barn):
        page.goto(f"{served.url}/book")
        expect(page.get_by_text(TOLD)).to_have_count(1)

    kitchen.goto(f"{served.url}/families")
    rename(kitchen, names[0][0], "Rowan")
    on_server(kitchen)
    ask_now(barn)
    barn.goto(f"{served.url}/families")
    expect(barn.get_by_role("heading", name="Rowan", exact=True)).to_be_visible()
    families = [entry for entry in served.entries() if entry["kind"] == "family"]
    assert len(families) == 5  # nothing that was written is gone
