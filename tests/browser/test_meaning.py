"""What a setting may mean, in the keeper's hand: from the server, then from its last answer with the server gone."""

import json
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import expect

from tests.book_writer import START, BookWriter
from tests.browser.audit import SOUND, audit
from tests.browser.away import THEMES
from tests.browser.hands import follow, pair, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served


def told_book() -> tuple[BookWriter, str, str]:
    """Rowan and Birch, 30 eggs each, 9 days old; many dead early in both, a spell too warm; and a second setting."""
    book = BookWriter()
    book.keeper()
    rowan, birch, place = book.family("Rowan"), book.family("Birch"), book.incubator()
    lots = [book.lot(), book.lot()]
    rows = [
        {"lot": lot, "family": family, "n": 30, "laid_from": "2026-02-20"}
        for lot, family in zip(lots, (rowan, birch), strict=True)
    ]
    body = {"place": place, "species": "chicken", "set_at": START.isoformat().replace("+00:00", "Z"), "lots": rows}
    setting = book.write("set", body, at=START)
    other = book.set_eggs(place, [(book.lot(), rowan, 6)], set_at=START + timedelta(days=40))
    for hours, dry_c in ((1, 37.5), (5, 40.5), (9, 37.5)):
        book.write("air", {"place": place, "dry_c": dry_c}, at=START + timedelta(hours=hours))
    for lot in lots:
        book.move(lot, "set", "clear", 4, at=START + timedelta(days=7))
        book.move(lot, "set", "blood_ring", 5, at=START + timedelta(days=7))
        book.move(lot, "clear", "infertile", 4, at=START + timedelta(days=22))
        for hours, n in ((500, 6), (504, 10), (508, 5)):
            book.move(lot, "set", "hatched", n, at=START + timedelta(hours=hours))
    return book, setting, other


def test_what_it_may_mean_is_read_with_the_server_and_without(
    served: Served, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    book, setting, other = told_book()
    file = tmp_path / "book.jsonl"
    file.write_text("".join(json.dumps(one) + "\n" for one in book.documents))
    served.run("import", str(file))
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    page.goto(f"{served.url}/setting/{setting}")
    follow(page, "What it may mean")
    expect(page.get_by_role("heading", level=1)).to_have_text("Many dead in the first days")
    for said in (
        "42 of 60 eggs hatched (70 %",
        "In every family (Rowan 5, Birch 5): look first at what they shared.",
        "too warm for",
        "inbreeding",
        "Amber and red are our judgement",
        "Rowan's eggs were up to 9 days old when set.",
        "says nothing of a rare breed",
        "Opened eggs point somewhere; they do not give a definite diagnosis.",
    ):
        expect(page.get_by_text(said).first).to_be_visible()
    for summary in page.get_by_text("Where this was read").all():
        summary.tap()
    for said in ("97 to 102 °F acceptable", "30 min at 105 °F harm many embryos", "read on a copy of the source"):
        expect(page.get_by_text(said).first).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}
    page.goto(f"{served.url}/season")
    for year in range(datetime.now(UTC).year - 1, START.year - 1, -1):
        tap(page, f"Earlier season, {year}")
    expect(page.get_by_text("Died in the shell, in settings that are over")).to_be_visible()
    expect(page.get_by_role("row", name="Birch 5 0 0 0 0 0")).to_be_visible()
    expect(page.get_by_text("Commercial flocks lose on average 0.5 points of hatch")).to_be_visible()
    assert audit(page) == {"axe": [], **SOUND}
    page.goto(f"{served.url}/setting/{setting}/meaning")
    expect(page.get_by_role("heading", level=1)).to_have_text("Many dead in the first days")
    served.kill()
    for theme in THEMES:
        page.evaluate("theme => { localStorage['broodline-theme'] = theme }", theme)
        page.reload()
        expect(page.get_by_text("The server cannot be reached. This is its answer of")).to_be_visible()
        expect(page.get_by_role("heading", level=1)).to_have_text("Many dead in the first days")
        assert audit(page) == {"axe": [], **SOUND}
    page.goto(f"{served.url}/setting/{other}/meaning")
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("No answer from the server yet"))
    expect(page.get_by_role("button", name="Ask again")).to_be_visible()
