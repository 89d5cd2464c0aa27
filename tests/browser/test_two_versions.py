"""An old and a new version of the app side by side: nothing half typed is lost unasked, no tap goes into the void."""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Page, expect

from broodline.book.wire import canonical_bytes
from tests.browser.hands import candle_paired, in_hand, name_the_place, on_server, only_here, set_eggs, tap
from tests.browser.serving import Served, wait_until
from tests.faults.keeper_model import write_entry
from tests.faults.phone_model import PhoneStorage

PWA = Path(__file__).parents[2] / "pwa"
CONFIG = ["--config", "../tests/browser/next_app.config.mjs"]
READY = "A newer Broodline is ready."
LOOKED_AT = "document.dispatchEvent(new Event('visibilitychange'))"
WAITING = "navigator.serviceWorker.getRegistration().then((one) => one?.waiting?.state ?? null)"
VERSION = "indexedDB.databases().then((all) => all.find((one) => one.name.startsWith('broodline:')).version)"
PUT_INTO_THE_BOOK = """(rows) => new Promise((done, fail) => {
  indexedDB.databases().then((all) => {
    const { name } = all.find((one) => one.name.startsWith('broodline:'));
    indexedDB.open(name).onsuccess = (event) => {
      const made = event.target.result.transaction('entries', 'readwrite');
      for (const row of rows) made.objectStore('entries').put(row);
      made.oncomplete = () => { event.target.result.close(); done(); };
      made.onerror = () => fail(made.error);
    };
  });
})"""
AT_SEA = "Object.keys(localStorage).filter((key) => key.startsWith('broodline.lifeboat')).length"


@pytest.fixture(scope="module")
def next_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A build of the next version, with a higher version of the phone's database."""
    built = tmp_path_factory.mktemp("next") / "app"
    beside = str(Path(sys.executable).parent)
    path = os.pathsep.join([beside, os.environ["PATH"]])
    node = shutil.which("node", path=path)
    assert node is not None
    subprocess.run(
        [node, "node_modules/vite/bin/vite.js", "build", *CONFIG, "--outDir", str(built)],
        cwd=PWA,
        env={**os.environ, "PATH": path},
        check=True,
        capture_output=True,
    )
    return built


@pytest.fixture
def old_app(running: Served, next_app: Path) -> Iterator[Served]:
    """The server with the app of today; `start(next_app)` gives the next one."""
    yield running
    running.kill()


def scripts(page: Page) -> list[str]:
    return list(page.evaluate("[...document.scripts].map((one) => one.src)"))


def wait_for_newer(page: Page) -> None:
    """The app looks for a newer one whenever it is looked at; the worker then fetches all of it."""
    page.evaluate(LOOKED_AT)
    expect(page.get_by_text(READY)).to_be_visible(timeout=30_000)


def test_a_newer_app_waits_for_the_keepers_yes_and_warns_of_what_is_half_typed(old_app, next_app, new_phone):
    page = new_phone().open(old_app.url)
    candle_paired(page, old_app.url, old_app.code(), 12)
    old_app.kill()
    old_app.start(next_app)
    follow_in_app(page, f"{old_app.url}/families")
    tap(page, "Add a family")
    page.get_by_label("Breed").fill("Marsh Speckle")
    before = scripts(page)
    wait_for_newer(page)
    assert page.evaluate(WAITING) == "installed"
    page.wait_for_timeout(500)
    assert scripts(page) == before  # nothing changed by itself
    assert page.get_by_label("Breed").input_value() == "Marsh Speckle"

    loaded: list[str] = []
    page.on("domcontentloaded", lambda shown: loaded.append(shown.url))
    tap(page, "Change over")
    expect(page.get_by_text("What you typed here is not saved yet.")).to_be_visible()
    assert (loaded, page.get_by_label("Breed").input_value()) == ([], "Marsh Speckle")
    page.get_by_label("Name", exact=True).fill("Hazel")
    tap(page, "Save the family")
    change_over(page, "Change over all the same")
    expect(page.get_by_text("Hazel").first).to_be_visible()
    assert scripts(page) != before
    page.wait_for_timeout(1000)
    assert len(loaded) == 1
    assert page.evaluate(VERSION) == 3
    expect(page.get_by_text(READY)).to_have_count(0)


def change_over(page: Page, words: str = "Change over") -> None:
    with page.expect_event("domcontentloaded"):
        tap(page, words)


def follow_in_app(page: Page, address: str) -> None:
    page.evaluate("(to) => { history.pushState(null, '', to); dispatchEvent(new PopStateEvent('popstate')) }", address)


def test_an_old_tab_is_told_to_change_over_and_its_taps_are_in_the_book_afterwards(old_app, next_app, new_phone):
    phone = new_phone()
    old = phone.open(old_app.url)
    address = candle_paired(old, old_app.url, old_app.code(), 30)
    tap(old, "Clear", 2)
    on_server(old)
    old_app.kill()
    old_app.start(next_app)
    assert phone.context is not None
    new = phone.context.new_page()
    new.goto(address)
    wait_for_newer(new)
    change_over(new)
    expect(new.locator(".big-count .figure")).to_have_text("28")
    assert new.evaluate(VERSION) == 3

    old.bring_to_front()
    expect(old.get_by_text(READY)).to_be_visible(timeout=30_000)
    left = in_hand(old)
    tap(old, "Clear", 3)
    assert in_hand(old) == left - 3  # kept on the screen
    expect(old.get_by_text(re.compile("^3 taps are on the screen but not saved yet"))).to_be_visible()
    assert only_here(old) == 0
    wait_until(lambda: old.evaluate(AT_SEA) == 3)  # each goes there once its own save has failed
    assert in_hand(new) == 28
    change_over(old)
    expect(old.get_by_text(READY)).to_have_count(0)
    expect(old.locator(".big-count .figure")).to_have_text(str(left - 3))
    on_server(old)
    assert old.evaluate(AT_SEA) == 0
    new.bring_to_front()
    expect(new.locator(".big-count .figure")).to_have_text("25")
    assert sum(entry["kind"] == "moved" for entry in old_app.entries()) == 5


def test_an_old_app_that_meets_a_newer_book_says_so_and_wipes_nothing(old_app, new_phone, tmp_path):
    """As where a phone brings an old app back: IndexedDB then opens with VersionError."""
    phone = new_phone()
    page = phone.open(old_app.url)
    address = candle_paired(page, old_app.url, old_app.code(), 12)
    page.evaluate("""() => new Promise((done) => {
      indexedDB.databases().then((all) => {
        const { name } = all.find((one) => one.name.startsWith('broodline:'));
        indexedDB.open(name, 9).onsuccess = (event) => { event.target.result.close(); done(); };
      });
    })""")
    page.goto(address)
    expect(page.get_by_text("A newer Broodline has this book open.")).to_be_visible()
    with page.expect_download() as copy:  # what cannot be opened can still be saved
        tap(page, "Save a copy")
    copy.value.save_as(tmp_path / "copy.jsonl")
    lines = set((tmp_path / "copy.jsonl").read_text(encoding="utf-8").split("\n")) - {""}
    assert {json.loads(line)["id"] for line in lines} >= {entry["id"] for entry in old_app.entries()}
    assert page.evaluate(VERSION) == 9
    assert (
        page.evaluate("""() => new Promise((done) => {
      indexedDB.databases().then((all) => {
        const { name } = all.find((one) => one.name.startsWith('broodline:'));
        indexedDB.open(name).onsuccess = (event) => {
          const count = event.target.result.transaction('entries').objectStore('entries').count();
          count.onsuccess = () => done(count.result);
        };
      });
    })""")
        >= 4
    )


def test_a_phone_that_was_away_for_half_a_year_brings_all_it_wrote_and_is_told_of_the_newer_app(
    old_app, next_app, new_phone
):
    """Failures 7 and 8: 3,000 entries of an old app, among them kinds nobody knows and one that no server takes."""
    page = new_phone().open(old_app.url)
    address = candle_paired(page, old_app.url, old_app.code(), 12)
    known = {entry["id"] for entry in old_app.entries()}
    old_app.kill()
    written, odd = half_a_year(entries=3000)
    page.evaluate(PUT_INTO_THE_BOOK, [{"id": i, "text": text, "position": None, "waiting": 1} for i, text in written])
    page.goto(address)
    expect(page.get_by_text("3000 only on this phone")).to_be_visible()
    old_app.start(next_app)
    wait_for_newer(page)
    expect(page.get_by_text("1 only on this phone")).to_be_visible(timeout=60_000)
    stored = {entry["id"]: canonical_bytes(entry).decode() for entry in old_app.entries()}
    assert stored.keys() - known == {i for i, _ in written} - {odd}
    assert all(stored[i] == text for i, text in written if i != odd)
    page.goto(f"{old_app.url}/phone")
    expect(page.get_by_text(re.compile("^The server did not accept 1 entry; they stay on this phone"))).to_be_visible()
    expect(page.get_by_text(READY)).to_be_visible()


def half_a_year(entries: int) -> tuple[list[tuple[str, str]], str]:
    """(id, canonical text) of that many entries over 180 days, and the id of the one that is too large."""
    rng, written, odd = Random(7), [], ""
    for at in range(entries):
        ms = 1_764_000_000_000 + at * (180 * 86_400_000 // entries)
        storage = PhoneStorage("home")
        made = json.loads(write_entry(rng, storage, "phone-of-old", ms)[1])
        if len(canonical_bytes(made)) > 8192 or at == entries // 2:
            made["body"] = {"text": "x" * (9000 if at == entries // 2 else 100)}
        odd = made["id"] if at == entries // 2 else odd
        written.append((made["id"], canonical_bytes(made).decode()))
    return written, odd


def test_a_screen_whose_script_is_gone_says_so_while_counting_goes_on(old_app, new_phone):
    """A page of an old build, whose files the server has no more and the browser never kept."""
    phone = new_phone()
    page = phone.open("about:blank")
    page.context.route("**/assets/server-pages-*.js", lambda route: route.fulfill(status=404))
    address = candle_paired_without_worker(page, old_app)
    tap(page, "Clear")
    left = in_hand(page)
    follow_in_app(page, f"{old_app.url}/phone/tables")
    expect(page.get_by_role("heading", name="This part of the app is not on this phone yet")).to_be_visible()
    page.go_back()
    assert in_hand(page) == left
    tap(page, "Clear")
    assert in_hand(page) == left - 1
    page.context.unroute_all(behavior="ignoreErrors")
    follow_in_app(page, f"{old_app.url}/phone/tables")
    expect(page.get_by_role("heading", name="This part of the app is not on this phone yet")).to_have_count(0)
    page.goto(address)
    page.locator(".big-count").wait_for()
    assert in_hand(page) == left - 1


def candle_paired_without_worker(page: Page, served: Served) -> str:
    """As `candle_paired`, for an app whose files cannot all be kept, so that no worker comes."""
    page.goto(served.url)
    name_the_place(page, ["Rowan"])
    address = f"{set_eggs(page, [('Rowan', 12)])}/tally/candle"
    page.goto(address)
    page.locator(".big-count").wait_for()
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    return address
