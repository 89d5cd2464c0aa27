"""Next season in the keeper's hand: kinship, forebears, pens by plan and by hand, birds to keep, eggs to set.

The book is the demo's: three generations, what is not sure as a chance, birds of unknown parents beside them.
"""

import re
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from playwright.sync_api import Page, Playwright, ViewportSize, expect

from broodline.exchange.seed import seed_entries, story_day
from seed_scenario.generate import TEMPLATE
from tests.browser.audit import SOUND, audit, audit_large
from tests.browser.hands import pair, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served


@pytest.fixture(scope="module")
def page(playwright: Playwright, house: Served, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The demo's book on the file's server, and on a phone."""
    template = TEMPLATE.read_bytes()
    entries = seed_entries(template, story_day(template, datetime.now(UTC)))
    folder = tmp_path_factory.mktemp("demo")
    (folder / "demo.jsonl").write_bytes(b"".join(entry.canonical + b"\n" for entry in entries))
    house.run("import", str(folder / "demo.jsonl"))
    house.start()
    phone = Phone(playwright, folder / "phone")
    page = phone.open(house.url)
    pair(page, house.url, house.code())
    wait_until_it_works_offline(page)
    yield page
    phone.close()


def headline(page: Page, words: str) -> None:
    """The answer's own; working it out takes a while on a busy machine."""
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile(words), timeout=20_000)


def planned(page: Page) -> list[str]:
    """The birds of each pen of the plan, as its link names them."""
    links = page.get_by_role("link", name=re.compile("^Put this pen together: "))
    return [link.rpartition("birds=")[2] for link in links.evaluate_all("(all) => all.map((one) => one.href)")]


def test_from_the_state_of_the_flock_to_eggs_to_set(page: Page, running: Served) -> None:
    url = running.url
    page.goto(f"{url}/families")
    page.get_by_role("link", name="Birds and their kinship").click()
    headline(page, r"^Marsh Speckle: gene diversity \d+ %$")
    unknown = page.get_by_role("row").filter(has_text="white B1M")
    expect(unknown).to_contain_text("unknown")
    expect(unknown).not_to_contain_text("0 %")
    assert audit(page) == {"axe": [], **SOUND}
    expect(page.get_by_text(re.compile(r"One more cock in each family: \d+(\.\d)? %\.")).first).to_be_visible()
    expect(page.get_by_text("One unrelated bird borrowed takes the mean kinship from").first).to_be_visible()

    page.get_by_role("link", name="red R51").first.click()
    headline(page, r"^red R51: inbreeding \d+(\.\d)? %, \d")
    tree = page.get_by_role("region", name="Forebears of red R51")
    expect(tree.get_by_role("link", name="red R1M", exact=True)).to_be_visible()
    # One of six hens, and the old cock or the one that was over the fence behind one of them.
    expect(tree.get_by_role("link", name="red R1F 17 %")).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}
    assert audit_large(page) == {"axe": [], **SOUND}
    with page.expect_download() as fetched:
        page.get_by_role("link", name="Certificate and parents: red R51").click()
    assert fetched.value.path().read_bytes().startswith(b"%PDF-")

    page.get_by_role("link", name="The bird itself").click()
    with page.expect_download() as fetched:
        page.get_by_role("link", name="Papers to go along: red R51").click()
    assert fetched.value.path().read_bytes().startswith(b"PK")
    page.get_by_text("Forebears as a tree").click()
    tree = page.get_by_role("region", name="Forebears of red R51")
    expect(tree.get_by_role("link", name="red R1F 17 %")).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}

    page.goto(f"{url}/pairing")
    headline(
        page,
        r"^These pens: \d+(\.\d)? % inbreeding in their chicks, \d+(\.\d)? % as they stand today$",
    )
    expect(page.get_by_text("Mated at random it would be")).to_be_visible()
    expect(page.get_by_text("Left out, as forebears are not known")).to_have_count(0)
    # Pens and moves of males are one plan, unless the keeper would rather have the least kin.
    follow = page.get_by_role("switch", name="The pens follow the year's moves of males")
    expect(follow).to_be_checked()
    expect(page.get_by_text("The pens follow these moves.")).to_be_visible()
    expect(page.get_by_text("every cock and every hen is taken to count alike")).to_be_visible()
    follow.click()
    expect(page.get_by_text("do not follow these moves: do the one or the other")).to_be_visible()
    expect(follow).not_to_be_checked()
    follow.click()
    expect(page.get_by_text("The pens follow these moves.")).to_be_visible()
    tap(page, "Change by hand")
    told = page.get_by_text(re.compile("^By hand"))
    before = told.inner_text()
    assert before.count(re.findall(r"[\d.]+ %", before)[0]) == 2, "it begins as the plan"
    page.get_by_label("red R52 goes to").select_option("Pen 1")
    expect(told).not_to_have_text(before)
    tap(page, "Back to the plan")
    expect(told).to_have_text(before)
    # The server's own figure of the pens as they stand today stands in the headline.
    today = re.findall(r", ([\d.]+ %) as they stand", page.get_by_role("heading", level=1).inner_text())
    tap(page, "Start from today's pens")
    expect(told).to_have_text(re.compile(f"^By hand {re.escape(today[0])}[ ;]"))
    over = page.locator(".over-limit").first
    expect(over).to_be_visible()
    expect(over).to_have_text(re.compile(r"^(under )?\d+ %$"))

    page.get_by_text("Name birds to be used, pairs to go together, pairs never to meet").click()
    paper = page.get_by_role("link", name="Pens to move birds by: Pens for next season")
    address = paper.get_attribute("href") or ""
    pen = page.get_by_role("link", name=re.compile("^Put this pen together: ")).first
    # Each pen is of the family of its hens, not of the first by name.
    links = page.get_by_role("link", name=re.compile("^Put this pen together: "))
    assert len(set(links.evaluate_all("(all) => all.map((one) => new URL(one.href).searchParams.get('family'))"))) == 4
    cock, hen = (pen.get_attribute("href") or "").partition("birds=")[2].split(",")[:2]
    page.get_by_label("Cock", exact=True).select_option(value=cock)
    page.get_by_label("Hen", exact=True).select_option(value=hen)
    tap(page, "Ask for it")
    expect(page.get_by_text("Named for this plan: 1")).to_be_visible()
    expect(page.get_by_text("Ruled out in this plan.")).to_be_visible()
    assert f"never={cock}%3A{hen}" in (paper.get_attribute("href") or "")
    assert "never" not in address
    assert not any({cock, hen} <= {*one.split(",")} for one in planned(page))
    assert audit(page) == {"axe": [], **SOUND}

    # Back on the desk by the app's own links, what was asked for there stands as it was left.
    page.get_by_role("link", name="Families", exact=True).first.click()
    expect(page.get_by_role("heading", level=1)).not_to_contain_text("These pens")
    page.go_back()
    expect(page.get_by_text("Named for this plan: 1")).to_be_visible()
    expect(page.get_by_role("heading", name=re.compile(r"^Pen 1, \w+'s hens: .* of \w+$")).first).to_be_visible()

    page.goto(f"{url}/families/keep")
    headline(page, r"^Keep 4 cockerels and \d+ pullets of \d+ young birds$")
    expect(page.get_by_text("carries on").first).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}

    page.goto(f"{url}/plan")
    headline(page, r"^Set \d+ eggs for 4 pullets and 2 cockerels of each family: \d+ %$")
    expect(page.get_by_text(re.compile(r"^Alder: \d+ eggs, \d+ %"))).to_be_visible()
    expect(page.get_by_role("img", name=re.compile("settings? from"))).to_be_visible()
    first = page.get_by_role("heading", level=1).inner_text()
    page.get_by_role("button", name="One more").first.click()
    expect(page.get_by_role("heading", level=1)).not_to_have_text(first)
    assert audit(page) == {"axe": [], **SOUND}
    assert audit_large(page) == {"axe": [], **SOUND}


def test_the_pages_of_next_season_on_a_narrow_phone_in_the_dark(page: Page, running: Served) -> None:
    """With their answers there; test_every_screen looks at them in all themes and at the desk."""
    page.set_viewport_size(ViewportSize(width=320, height=640))
    page.evaluate("localStorage['broodline-theme'] = 'hatch-room'")
    for path in ("families/kin", "families/keep", "pairing", "plan"):
        page.goto(f"{running.url}/{path}")
        expect(page.get_by_text(re.compile("^As worked out"))).to_be_visible()
        assert audit(page) == {"axe": [], **SOUND}, path


def test_without_the_server_its_last_answer_stands_with_its_date(page: Page, running: Served) -> None:
    page.goto(f"{running.url}/families/keep")
    headline(page, "^Keep 4 cockerels")
    page.goto(f"{running.url}/pairing")
    headline(page, "^These pens")
    running.stop()
    page.goto(f"{running.url}/pairing")
    headline(page, "^These pens")
    expect(page.get_by_text("The server cannot be reached; this is its answer of")).to_be_visible()
    tap(page, "Change by hand")
    expect(page.get_by_text(re.compile("^By hand"))).to_be_visible()
    expect(page.get_by_text("Pens to move birds by: the server makes this, and cannot be reached now.")).to_be_visible()
    page.goto(f"{running.url}/families/keep")
    headline(page, "^Keep 4 cockerels")
