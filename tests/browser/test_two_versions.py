"""An old and a new version of the app side by side: nothing half typed is lost unasked, no tap goes into the void."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.hands import candle_paired, in_hand, on_server, only_here, tap
from tests.browser.serving import Served

PWA = Path(__file__).parents[2] / "pwa"
CONFIG = ["--config", "../tests/browser/next_app.config.mjs"]
READY = "A newer Broodline is ready."
LOOKED_AT = "document.dispatchEvent(new Event('visibilitychange'))"
WAITING = "navigator.serviceWorker.getRegistration().then((one) => one?.waiting?.state ?? null)"
VERSION = "indexedDB.databases().then((all) => all.find((one) => one.name.startsWith('broodline:')).version)"
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
    """The app looks for a newer one whenever it is looked at."""
    page.evaluate(LOOKED_AT)
    expect(page.get_by_text(READY)).to_be_visible()


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
    assert page.evaluate(VERSION) == 2
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
    assert new.evaluate(VERSION) == 2

    old.bring_to_front()
    expect(old.get_by_text(READY)).to_be_visible()
    left = in_hand(old)
    tap(old, "Clear", 3)
    assert in_hand(old) == left - 3  # kept on the screen
    expect(old.get_by_text(re.compile("^3 taps are on the screen but not saved yet"))).to_be_visible()
    assert only_here(old) == 0
    assert old.evaluate(AT_SEA) == 3
    assert in_hand(new) == 28
    change_over(old)
    expect(old.get_by_text(READY)).to_have_count(0)
    expect(old.locator(".big-count .figure")).to_have_text(str(left - 3))
    on_server(old)
    assert old.evaluate(AT_SEA) == 0
    new.bring_to_front()
    expect(new.locator(".big-count .figure")).to_have_text("25")
    assert sum(entry["kind"] == "moved" for entry in old_app.entries()) == 5


def test_an_old_app_that_meets_a_newer_book_says_so_and_wipes_nothing(old_app, next_app, new_phone):
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
