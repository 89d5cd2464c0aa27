"""A newcomer's first hour as README tells it, at the desk and with a phone in the hand.

The demo's season is looked at and printed on two sheets, one of its hatches on one line of days; then an own holding
begins: paired, named, three families and last year's counts brought from a spreadsheet, and a phone paired to it.
"""

import io
import re
from datetime import UTC, date, datetime
from pathlib import Path

import openpyxl
import pypdf
from playwright.sync_api import Page, expect

from broodline.reports.season import season_report
from broodline.web.report_routes import stamped
from tests.browser.audit import assert_sound
from tests.browser.hands import button, follow, on_server, pair
from tests.browser.phones import DESK
from tests.browser.serving import Served
from tests.twelve_families import NOW, twelve_families

FAMILIES = [("Rowan", "Marsh Speckle", "chicken", "R"), ("Hazel", "Marsh Speckle", "chicken", "H"),
            ("Sedge", "Brook Grey", "duck", "S")]  # fmt: skip
LAST_YEAR = datetime.now(UTC).year - 1
COUNTS = [("Rowan", 24, 3, 15), ("Hazel", 20, 2, 12), ("Rowan", 12, 1, 9)]
"""Family, eggs set, clear, hatched: Rowan 24 of 36, Hazel 12 of 20."""
COLOURS = """() => [...document.querySelectorAll('main *')].filter((one) => one.getClientRects().length > 0)
  .flatMap((one) => { const { color, fill, stroke, backgroundColor } = getComputedStyle(one);
    return [color, fill, stroke, backgroundColor]; })
  .filter((colour) => { const [r, g, b, a] = (colour.match(/[\\d.]+/g) ?? []).map(Number);
    return a !== 0 && r !== undefined && (r !== g || g !== b); })"""


def press(page: Page, words: str) -> None:
    button(page, words).click()


def go_on(page: Page, words: str) -> None:
    page.get_by_role("link", name=re.compile(rf"^{re.escape(words)}")).first.click()


def printed(page: Page, paper: str) -> list[str]:
    """The text of each sheet."""
    margin = dict.fromkeys(("top", "bottom", "left", "right"), "12mm")
    sheets = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper, margin=margin))).pages  # type: ignore[arg-type]
    return [sheet.extract_text() for sheet in sheets]


def assert_black_and_white(page: Page) -> None:
    page.emulate_media(media="print")
    assert page.evaluate(COLOURS) == []
    page.emulate_media(media="screen")


def spreadsheet(path: Path) -> Path:
    book = openpyxl.Workbook()
    first = book.active
    assert first is not None
    first.title = "Families"
    for row in [("Name", "Breed", "Species", "Letter"), *FAMILIES]:
        first.append(row)
    second = book.create_sheet("Hatches")
    second.append(("Date set", "Line", "Eggs set", "Infertile", "Hatched"))
    for at, (family, n, clear, hatched) in enumerate(COUNTS):
        second.append((date(LAST_YEAR, 6 + at // 2, 1), family, n, clear, hatched))
    book.save(path)
    return path


def test_the_demos_season_is_looked_at_and_printed(demo: Served, new_phone) -> None:
    page = new_phone(viewport=DESK).open(f"{demo.url}/due")
    on_server(page)
    go_on(page, "Season")
    expect(page.get_by_text("Dot: what was seen.")).to_be_visible()
    for said in (r"^Of \d+ eggs set \d+ hatched", r"^Hatched of those set: by egg age", r"from the seasons before",
                 r"^\d+ died in the shell", r"^\d+ chicks lost", r"^Half the chicks were out by day"):  # fmt: skip
        expect(page.get_by_role("heading", name=re.compile(said))).to_be_visible()
    assert_sound(page)
    for paper in ("A4", "Letter"):
        sheets = printed(page, paper)
        assert len(sheets) == 2, paper
        whole = "\n".join(sheets)
        assert all(told in whole for told in ("Alder", "To settle first", "By machine", str(LAST_YEAR)))
        assert "Print" not in whole
    assert_black_and_white(page)
    assert_the_paper_says_the_same(page, demo)

    page.get_by_role("row", name=re.compile("half out by day")).get_by_role("link").last.click()
    expect(page.get_by_role("heading", name="What stands out, where on the line it belongs")).to_be_visible()
    assert page.locator(".time-line .bracket").count() >= 2
    page.get_by_text("The line as a table").click()
    expect(page.get_by_role("rowheader", name="0.0", exact=True)).to_be_visible()
    assert_sound(page)
    assert_black_and_white(page)


def assert_the_paper_says_the_same(page: Page, demo: Served) -> None:
    """Every title, head, row and figure of the page stands on the paper, word for word."""
    paper = page.request.get(f"{demo.url}/api/v1/papers/season/{LAST_YEAR + 1}.pdf").body()
    written = " ".join(" ".join(sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(paper)).pages).split())
    said = page.locator(".season :is(h2, thead th, tbody th, td.seen span, .section-note, .rows b)").all_inner_texts()
    shown = [" ".join(one.split()) for one in said if one.strip() and one not in ("Pair by pair", "On paper")]
    assert len(shown) > 60
    assert [one for one in shown if one.replace(",", "") not in written.replace(",", "")] == []


def test_the_season_of_twelve_families_prints_on_two_sheets(demo: Served, new_phone) -> None:
    answer = {**stamped(season_report(twelve_families(), NOW.year, NOW), NOW, 1), "year": LAST_YEAR + 1}
    page = new_phone(viewport=DESK).open(f"{demo.url}/due")
    on_server(page)
    page.route("**/api/v1/reports/season/*", lambda route: route.fulfill(json=answer))
    go_on(page, "Season")
    expect(page.get_by_role("row", name=re.compile(r"^Water mint \(duck\)")).first).to_be_visible()
    for paper in ("A4", "Letter"):
        sheets = printed(page, paper)
        assert len(sheets) == 2, paper
        assert all(told in "\n".join(sheets) for told in ("Whitebeam", "Spindle", "And 1 more, in the book."))


def test_an_own_holding_begins_from_a_spreadsheet_and_a_phone_is_paired(
    served: Served, new_phone, tmp_path: Path
) -> None:
    desk = new_phone(viewport=DESK).open(f"{served.url}/pair")
    desk.get_by_label("Code").fill(served.code())
    desk.get_by_label("Name of this phone").fill("Desk")
    press(desk, "Pair")
    expect(desk).to_have_url(re.compile("/phone$"))
    go_on(desk, "Your first hour")
    expect(desk.get_by_role("heading", level=1)).to_have_text("Name your place and an incubator")
    assert_sound(desk)
    go_on(desk, "Name it")
    desk.get_by_label("Name of your place").fill("Thorn Lane")
    desk.get_by_label("Its name").fill("Loft box")
    press(desk, "Begin")
    expect(desk).to_have_url(re.compile("/rooms/set$"))

    desk.goto(f"{served.url}/help/start")
    go_on(desk, "Choose a file")
    expect(desk.get_by_role("heading", level=1)).to_have_text("Bring a spreadsheet into the book")
    desk.get_by_label("Choose a file").set_input_files(spreadsheet(tmp_path / "birds.xlsx"))
    expect(desk.get_by_role("heading", level=1)).to_have_text(re.compile("would be added"))
    press(desk, "Take the good rows in")
    expect(desk.get_by_role("heading", level=1)).to_have_text(re.compile(r"^\d+ entries added$"))
    desk.goto(f"{served.url}/season")
    button(desk, f"Earlier season, {LAST_YEAR}").click()
    expect(desk.get_by_role("row", name=re.compile(r"^Rowan.*24 of 36"))).to_be_visible()
    expect(desk.get_by_role("row", name=re.compile(r"^Hazel.*12 of 20"))).to_be_visible()

    desk.goto(f"{served.url}/help/start")
    go_on(desk, "Make a code")
    press(desk, "Make a code")
    code = desk.get_by_text(re.compile(r"^[0-9A-Z]{4}-[0-9A-Z]{4}$")).inner_text()
    phone = new_phone().open(served.url)
    pair(phone, served.url, code, "Loft phone")
    on_server(phone)
    follow(phone, "Families")
    for family, *_ in FAMILIES:
        expect(phone.get_by_role("heading", name=family, exact=True)).to_be_visible()
    assert {one["name"] for one in served.run("devices")["devices"]} == {"Desk", "Loft phone"}
