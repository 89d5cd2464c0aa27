"""The phone's storage fails under a tally: nothing on the screen is lost, and nothing is called saved that is not."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from tests.browser.hands import add_family, follow, in_hand, name_the_place, only_here, set_eggs, tap
from tests.browser.phones import Phone
from tests.browser.serving import Served, wait_until
from tests.browser.storage_faults import befall, opened, put_faults_in

EGGS = 200
NOT_SAVED = re.compile(r"^1 tap is on the screen but not saved yet")
AT_SEA = "Object.keys(localStorage).filter((key) => key.startsWith('broodline.lifeboat')).length"
SAVED = """async () => {
  const found = await indexedDB.databases();
  const { name } = found.find((one) => one.name.startsWith('broodline:'));
  const db = await new Promise((done) => {
    indexedDB.open(name).onsuccess = (event) => done(event.target.result);
  });
  const n = await new Promise((done) => {
    db.transaction('entries').objectStore('entries').count().onsuccess = (event) => done(event.target.result);
  });
  db.close();
  if (globalThis.faults) faults.opened -= 1;  // this look is not the app's
  return n;
}"""


@pytest.fixture(scope="module")
def phone(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """A phone that is not paired, with faults that can be put into its storage."""
    phone = Phone(playwright, tmp_path_factory.mktemp("phone"))
    yield phone
    phone.close()


@pytest.fixture(scope="module")
def setting(phone: Phone, house: Served) -> str:
    """The address of one setting of many eggs."""
    house.start()
    page = phone.open("about:blank")
    assert phone.context is not None
    put_faults_in(phone.context)
    page.goto(house.url)
    name_the_place(page, ["Rowan"])
    return set_eggs(page, [("Rowan", EGGS)])


@pytest.fixture
def tally(phone: Phone, setting: str) -> Page:
    """The tally opened anew, with a storage that works, everything saved."""
    assert phone.context is not None
    page = phone.context.pages[0]
    page.goto(f"{setting}/tally/candle")
    page.locator(".big-count").wait_for()
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    wait_until(lambda: page.evaluate(SAVED) == only_here(page))
    return page


def is_kept_over_a_new_start(page: Page, left: int) -> None:
    page.reload()
    page.locator(".big-count").wait_for()
    assert in_hand(page) == left


def test_a_write_aborted_at_its_end_is_not_called_saved_and_is_saved_later(tally):
    left, saved = in_hand(tally), tally.evaluate(SAVED)
    befall(tally, "abort")
    tap(tally, "Clear")
    expect(tally.get_by_text(NOT_SAVED)).to_be_visible()
    assert in_hand(tally) == left - 1
    assert tally.evaluate(SAVED) == saved
    assert tally.evaluate(AT_SEA) == 1
    befall(tally, None)
    expect(tally.get_by_text(NOT_SAVED)).to_have_count(0, timeout=6000)
    assert tally.evaluate(SAVED) == saved + 1
    assert tally.evaluate(AT_SEA) == 0
    is_kept_over_a_new_start(tally, left - 1)


def test_a_write_that_hangs_is_called_not_saved_after_three_seconds(tally):
    left, saved = in_hand(tally), tally.evaluate(SAVED)
    befall(tally, "hang")
    tap(tally, "Clear")
    expect(tally.get_by_text("The phone is slow to save.")).to_have_count(0)
    assert in_hand(tally) == left - 1
    expect(tally.get_by_text(NOT_SAVED)).to_be_visible(timeout=6000)
    assert tally.evaluate(AT_SEA) == 1
    befall(tally, None)
    expect(tally.get_by_text(NOT_SAVED)).to_have_count(0, timeout=12_000)
    assert tally.evaluate(SAVED) == saved + 1
    is_kept_over_a_new_start(tally, left - 1)


@pytest.mark.parametrize("name", ["UnknownError", "InvalidStateError"])
def test_a_handle_that_died_in_the_background_heals_within_one_reopening(tally, name):
    left, saved, before = in_hand(tally), tally.evaluate(SAVED), opened(tally)
    befall(tally, name, times=1)
    tap(tally, "Clear")
    wait_until(lambda: tally.evaluate(SAVED) == saved + 1, seconds=2.5)  # before the retry of a failed save
    assert tally.evaluate("faults.met") == 1
    assert opened(tally) == before + 1
    expect(tally.get_by_text(NOT_SAVED)).to_have_count(0)
    is_kept_over_a_new_start(tally, left - 1)


def test_a_full_phone_shows_its_book_says_so_and_takes_what_was_written_once_there_is_room(setting, house, new_phone):
    phone = new_phone()
    page = phone.open(house.url)
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", 12)])
    saved = page.evaluate(SAVED)
    phone.close()  # a running Chromium reckons for half a minute with the room it saw last
    page = phone.open("about:blank")
    disk = page.context.new_cdp_session(page)
    disk.send("Storage.overrideQuotaForOrigin", {"origin": house.url, "quotaSize": 1})
    page.goto(f"{address}/tally/candle")
    expect(page.get_by_role("heading", name="Do not count yet: it would not be kept")).to_be_visible()
    page.goto(f"{house.url}/families")
    expect(page.get_by_text("The phone has no room left to save.")).to_be_visible()
    expect(page.get_by_text("Rowan").first).to_be_visible()  # what was saved can be read
    add_family(page, "Hazel")
    expect(page.get_by_text(NOT_SAVED)).to_be_visible(timeout=6000)
    expect(page.get_by_text(re.compile("Free some space")).first).to_be_visible()
    expect(page.get_by_text("Hazel").first).to_be_visible()
    assert page.evaluate(SAVED) == saved
    disk.send("Storage.overrideQuotaForOrigin", {"origin": house.url})
    wait_until(lambda: page.evaluate(SAVED) == saved + 1)
    expect(page.get_by_text(NOT_SAVED)).to_have_count(0)


def test_no_tally_begins_where_nothing_can_be_kept(tally, setting):
    left = in_hand(tally)
    befall(tally, "refuse")
    tally.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(tally.get_by_text("This browser does not let the app save.")).to_be_visible()
    assert in_hand(tally) == left  # the open one goes on
    follow(tally, f"{only_here(tally)} only on this phone")
    tally.go_back()
    expect(tally.get_by_role("heading", name="Do not count yet: it would not be kept")).to_be_visible()
    expect(tally.get_by_text(re.compile("A private window keeps nothing")).first).to_be_visible()
    befall(tally, None)
    tap(tally, "Try again")
    expect(tally.locator(".big-count .figure")).to_have_text(str(left))


def test_what_was_only_in_the_lifeboat_is_there_after_the_battery_died(setting, house, new_phone):
    phone = new_phone()
    page = phone.open("about:blank")
    assert phone.context is not None
    put_faults_in(phone.context)
    page.goto(house.url)
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", 12)])
    page.goto(f"{address}/tally/candle")
    saved = page.evaluate(SAVED)
    befall(page, "abort")
    tap(page, "Clear", 2)
    wait_until(lambda: page.evaluate(AT_SEA) == 2)
    wait_until_local_storage_is_on_disk(phone.profile)
    phone.kill()
    page = phone.open(f"{address}/tally/candle")
    page.locator(".big-count").wait_for()
    assert in_hand(page) == 10
    assert page.evaluate(SAVED) == saved + 2
    assert page.evaluate(AT_SEA) == 0


def wait_until_local_storage_is_on_disk(profile: Path) -> None:
    """Chromium writes localStorage behind the page's back, within seconds; a killed one may have forgotten the last."""
    logs = profile / "Default" / "Local Storage" / "leveldb"
    wait_until(
        lambda: sum(log.read_bytes().count(b"broodline.lifeboat") for log in logs.glob("*.log")) >= 2, seconds=60
    )


def test_a_tap_just_before_the_page_goes_is_not_lost(tally):
    """The save is held up, so that it is certain to be under way when the page is loaded anew."""
    left, saved = in_hand(tally), tally.evaluate(SAVED)
    befall(tally, "hang")
    tap(tally, "Clear")
    is_kept_over_a_new_start(tally, left - 1)
    assert tally.evaluate(SAVED) == saved + 1
    assert tally.evaluate(AT_SEA) == 0


def test_the_browser_is_asked_to_keep_the_book_after_the_first_save_and_its_answer_is_shown(setting, house, new_phone):
    phone = new_phone()
    page = phone.open("about:blank")
    assert phone.context is not None
    phone.context.add_init_script("""
      globalThis.asked = 0;
      StorageManager.prototype.persist = async () => { globalThis.asked += 1; return true; };
      StorageManager.prototype.persisted = async () => globalThis.asked > 0;
    """)
    page.goto(house.url)
    page.get_by_label("Name of your place").wait_for()
    assert page.evaluate("asked") == 0
    name_the_place(page, ["Rowan"])
    wait_until(lambda: page.evaluate("asked") == 1)
    set_eggs(page, [("Rowan", 12)])
    follow(page, "4 only on this phone")
    expect(page.get_by_text("The phone has promised to keep this book.")).to_be_visible()
    expect(
        page.get_by_text(re.compile(r"^It takes [\d.]+ MB here; the browser allows up to [\d.,]+ [GM]B"))
    ).to_be_visible()
    assert page.evaluate("asked") == 1
