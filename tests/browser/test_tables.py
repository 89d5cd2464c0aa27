"""A keeper's spreadsheet brought into the book from the app: tried, its columns chosen, taken in, taken back."""

import json
import re

from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import name_the_place, on_server, pair, tap
from tests.browser.phones import DESK, PHONE
from tests.server.exchange.test_sheets_as_kept import COUNTS, several

HATCHES = """Put in,Whose,How many,Came out,Moon
2025-03-01,Rowan,24,15,full
2025-03-01,Rowan,ten,3,
"""


def exported(page, url):
    answer = page.request.get(f"{url}/api/v1/exports/book.jsonl")
    return [json.loads(line) for line in answer.text().splitlines()]


def answered(page):
    expect(page.get_by_text(re.compile("Asking the server|The server is at it"))).to_have_count(0)


def sheet_by_sheet(page, url, file):
    """A workbook: each sheet says what it was taken for, one is chosen, one set aside, and its days are seen."""
    page.get_by_label("Choose a file").set_input_files(file)
    expect(page.get_by_role("heading", name="Lines: 1 row, read as families")).to_be_visible()
    expect(page.get_by_label("What “Counts 2025” holds")).to_have_value("none")
    page.get_by_label("What “Counts 2025” holds").select_option("hatches")
    counts = page.locator("section", has=page.get_by_role("heading", name="Counts 2025: 1 row, read as past hatches"))
    expect(counts).to_be_visible()
    page.get_by_label("What “Birds fed” holds").select_option("none")
    expect(page.get_by_role("heading", name="1 sheet not read")).to_be_visible()
    for field, heading in COUNTS.items():
        label = {"set_on": "day set", "eggs": "eggs set"}.get(field, field)
        counts.get_by_label(label, exact=True).select_option(heading)
        expect(counts.get_by_label(label, exact=True)).to_have_value(heading)
        answered(page)
    read = counts.get_by_role("row", name=re.compile("^2 Rowan"))
    expect(read).to_contain_text(re.compile("3 April 2025|April 3, 2025"))
    page.get_by_label("How “Counts 2025” writes its days").select_option("mdy")
    expect(read).to_contain_text(re.compile("4 March 2025|March 4, 2025"))
    for size in (PHONE, DESK):
        page.set_viewport_size(size)
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= size["width"], (size, wide)
        assert_sound(page)
    page.set_viewport_size(PHONE)
    before = len(exported(page, url))
    tap(page, "Take the good rows in")
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile(r"^\d+ entr(y|ies) added$"))
    new = exported(page, url)[before:]
    assert [entry["body"]["set_at"][:10] for entry in new if entry["kind"] == "set"] == ["2025-03-04"]
    assert not [entry for entry in new if entry["kind"] == "bird"]


def test_a_table_is_tried_its_columns_chosen_taken_in_and_taken_back(running, new_phone, tmp_path):
    page = new_phone().open(running.url)
    pair(page, running.url, running.code(), "Desk")
    page.goto(f"{running.url}/welcome")
    name_the_place(page, ["Rowan"])
    on_server(page)
    file = tmp_path / "hatches.csv"
    file.write_text(HATCHES)
    page.goto(f"{running.url}/phone/tables")
    page.get_by_label("Choose a file").set_input_files(file)
    page.get_by_label("What “hatches” holds").select_option("hatches")
    for field, heading in (
        ("day set", "Put in"),
        ("family", "Whose"),
        ("eggs set", "How many"),
        ("hatched", "Came out"),
    ):
        page.get_by_label(field, exact=True).select_option(heading)
        expect(page.get_by_label(field, exact=True)).to_have_value(heading)
        expect(page.get_by_text("Asking the server")).to_have_count(0)
    expect(page.get_by_text("hatches, row 3, eggs set:")).to_be_visible()
    assert_sound(page)
    before = len(exported(page, running.url))

    def slowly(route):
        page.wait_for_timeout(2500)
        route.continue_()

    page.route("**/imports/sheet", slowly)
    tap(page, "Take the good rows in")
    expect(page.get_by_text(re.compile(r"The server is at it, \d s so far"))).to_be_visible()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile(r"^\d+ entr(y|ies) added$"))  # not "would be"
    after = exported(page, running.url)
    assert [entry["body"]["lots"][0]["n"] for entry in after if entry["kind"] == "set"] == [24]
    tap(page, "Take all of it back")
    expect(page.get_by_role("heading", level=1)).to_contain_text("taken back")
    undone = exported(page, running.url)
    assert len(undone) - len(after) == len(after) - before
    assert all(entry["void"] for entry in undone[len(after) :])
    (tmp_path / "mine.xlsx").write_bytes(several())
    page.unroute("**/imports/sheet")
    sheet_by_sheet(page, running.url, tmp_path / "mine.xlsx")
