"""Papers and files that the server makes, taken from the app."""

import io
import json
import re
import zipfile

import openpyxl
from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import begin_with_a_setting, follow


def taken(page, name):
    with page.expect_download() as download:
        page.get_by_role("link", name=name).first.tap()
    return download.value.path().read_bytes()


def test_a_card_a_season_and_the_book_are_taken_along(running, new_phone):
    page = new_phone().open(running.url)
    begin_with_a_setting(page, running.url, running.code(), "Desk")
    page.goto(f"{running.url}/phone")
    follow(page, "Papers and files")
    expect(page.get_by_role("heading", level=1, name="Papers and files of this book")).to_be_visible()
    assert_sound(page)
    for name in ("Report: Season", "Cards:", "Card to count on:", "What is due, for whoever stays:", "What came, went"):
        assert taken(page, name).startswith(b"%PDF"), name
    book = openpyxl.load_workbook(io.BytesIO(taken(page, "Spreadsheet: The whole book")))
    assert [row[4] for row in book["Batches"].iter_rows(min_row=2, values_only=True)] != []
    lines = taken(page, "Every entry: The whole book")
    kinds = [json.loads(line)["kind"] for line in lines.splitlines()]
    assert {"keeper", "family", "set"} <= set(kinds)
    with zipfile.ZipFile(io.BytesIO(taken(page, "Tables for programs: The whole book"))) as packed:
        assert packed.read("book.jsonl") == lines

    def slowly(route):
        page.wait_for_timeout(2500)
        route.continue_()

    page.route("**/papers/season/*", slowly)
    with page.expect_download() as download:
        page.get_by_role("link", name="Report: Season").first.tap()
        expect(page.get_by_text(re.compile(r"Report: the server makes it, \d s so far"))).to_be_visible()
    assert download.value.suggested_filename.endswith(".pdf")
    expect(page.get_by_text("the server makes it")).to_have_count(0)
    page.route("**/papers/season/*", lambda route: route.abort())
    page.get_by_role("link", name="Report: Season").first.tap()
    expect(page.get_by_text("Report: The server did not answer.")).to_be_visible()
    assert_sound(page)

    page.get_by_label("From").first.fill("2030-01-02")
    expect(page.get_by_text("The last day lies before the first.")).to_be_visible()
    assert_sound(page)
