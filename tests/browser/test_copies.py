"""The keeper's lifelines: a copy at any time, pairing again, a server set back to an older state, clocks far off."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.book_writer import entry_id
from tests.browser.hands import (
    candle_paired,
    in_hand,
    on_server,
    only_here,
    pair,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.serving import Served, wait_until

UNPAIRED = "The server no longer knows this phone."
YEAR_S = 365 * 24 * 3600


def save_copy(page: Page, url: str, to: Path) -> list[str]:
    """The lines of the copy that the phone saves."""
    page.goto(f"{url}/phone")
    with page.expect_download() as download:
        tap(page, "Save a copy")
    assert re.fullmatch(r"[\w-]+-\d{4}-\d\d-\d\d\.jsonl", download.value.suggested_filename)
    download.value.save_as(to)
    return to.read_text(encoding="utf-8").splitlines()


def lines_of(served: Served) -> set[str]:
    """Every entry of the server's book, as the bytes it keeps."""
    out = served.folder / "lines.jsonl"
    served.run("export", str(out))
    return set(out.read_text(encoding="utf-8").splitlines())


def device_of(served: Served) -> str:
    """The one device that is paired now."""
    [device] = [one["id"] for one in served.run("devices")["devices"] if not one.get("revoked_at")]
    return str(device)


def test_a_copy_holds_every_entry_and_its_import_adds_exactly_the_missing_ones(served, new_phone, tmp_path):
    page = new_phone().open(served.url)
    candle_paired(page, served.url, served.code(), 20)
    on_server(page)
    known = lines_of(served)
    served.kill()
    tap(page, "Clear", 2)
    tap(page, "Live")
    wait_until(lambda: only_here(page) == 3)
    lines = save_copy(page, served.url, tmp_path / "copy.jsonl")
    assert len(lines) == len(known) + 3
    assert known < set(lines)

    answer = served.run("import", str(tmp_path / "copy.jsonl"))
    assert (answer["added"], answer["known"], answer["bad"]) == (3, len(known), [])
    assert lines_of(served) == set(lines)
    served.start()
    page.reload()
    on_server(page)
    assert lines_of(served) == set(lines)  # the phone's own push found them there


def test_a_phone_with_something_only_on_it_is_not_unpaired(served, new_phone, tmp_path):
    page = new_phone().open(served.url)
    candle_paired(page, served.url, served.code(), 20)
    served.freeze()
    tap(page, "Clear")
    wait_until(lambda: only_here(page) == 1)
    page.goto(f"{served.url}/phone")
    tap(page, "Unpair this phone")
    expect(page.get_by_text(re.compile("^1 entry is only on this phone. Save a copy"))).to_be_visible()
    served.thaw()
    on_server(page)
    device_of(served)  # still paired
    tap(page, "Unpair this phone")
    expect(page.get_by_text("The server no longer knows this phone. The book stays on it.")).to_be_visible()
    with pytest.raises(ValueError, match="not enough values"):
        device_of(served)
    assert set(save_copy(page, served.url, tmp_path / "copy.jsonl")) == lines_of(served)


def test_a_revoked_phone_keeps_what_it_wrote_and_delivers_it_after_pairing_again(served, new_phone, tmp_path):
    page = new_phone().open(served.url)
    tally = candle_paired(page, served.url, served.code(), 60)
    served.run("devices", "revoke", device_of(served))
    tap(page, "Clear", 50)
    expect(page.get_by_text(UNPAIRED)).to_be_visible(timeout=30_000)
    page.reload()
    page.locator(".big-count").wait_for()
    assert (in_hand(page), only_here(page)) == (10, 50)
    lines = save_copy(page, served.url, tmp_path / "copy.jsonl")
    assert len(set(lines) - lines_of(served)) == 50
    pair(page, served.url, served.code(), "The same phone")
    on_server(page)
    assert lines_of(served) == set(lines)
    expect(page.get_by_text(UNPAIRED)).to_have_count(0)
    page.goto(tally)
    expect(page.locator(".big-count .figure")).to_have_text("10")


def test_two_phones_whose_clocks_are_off_by_years_count_the_same_eggs(served, new_phone):
    phones = [new_phone(), new_phone()]
    page = phones[0].open("about:blank")
    page.clock.install(time=page.evaluate("Date.now()") / 1000 + 9 * YEAR_S)
    page.goto(served.url)
    tally = candle_paired(page, served.url, served.code(), 20)
    on_server(page)
    other = phones[1].open("about:blank")
    other.clock.install(time=other.evaluate("Date.now()") / 1000 - 2 * YEAR_S)
    other.goto(served.url)
    pair(other, served.url, served.code("helper"), "Barn phone")
    other.goto(tally)
    other.locator(".big-count").wait_for()
    if other.get_by_role("button", name="Keep it on").count():
        tap(other, "Keep it on")
    tap(page, "Clear", 3)
    tap(other, "Blood ring", 2)
    for one in (page, other):
        expect(one.locator(".big-count .figure")).to_have_text("15", timeout=60_000)
    tap(page, "Undo")  # the phone ahead takes back its own; the one behind sees it
    for one in (page, other):
        expect(one.locator(".big-count .figure")).to_have_text("16", timeout=60_000)
        on_server(one, seconds=60)
    found = served.run("report", "setting", tally.split("/")[-3])
    [lot] = found["lots"]
    assert lot["stages"] == {"set": 16, "clear": 2, "blood_ring": 2}
    skews = {entry["device"]: entry["skew_ms"] for entry in served.entries() if entry["kind"] == "moved"}
    assert sorted(round(skew / 1000 / YEAR_S) for skew in skews.values()) == [-9, 2]


def test_a_server_set_back_to_an_older_state_is_healed_by_the_phone_with_kinds_it_does_not_know(
    served, new_phone, tmp_path
):
    page = new_phone().open(served.url)
    candle_paired(page, served.url, served.code(), 20)
    served.run("backup", str(tmp_path / "older.db"))
    newer: dict[str, Any] = {
        "id": entry_id(7),
        "v": 1,
        "kind": "moon_phase",
        "device": "phone-of-tomorrow",
        "at": "2026-03-08T19:40:12.345Z",
        "zone": "Europe/Dublin",
        "skew_ms": None,
        "amends": None,
        "void": False,
        "body": {"phase": "waxing", "10": 0.5, "9": [1, {"ß": "Pollo-ño 🥚"}]},
        "mood": {"z": None, "a": True},
    }
    (tmp_path / "newer.jsonl").write_text(json.dumps(newer) + "\n", encoding="utf-8")
    assert served.run("import", str(tmp_path / "newer.jsonl"))["added"] == 1
    [line] = [line for line in lines_of(served) if "moon_phase" in line]
    tap(page, "Clear", 2)
    page.goto(f"{served.url}/book")
    expect(page.get_by_text(re.compile("^1 entry comes from a newer app"))).to_be_visible(timeout=40_000)
    on_server(page)
    whole = lines_of(served)
    wait_until_it_works_offline(page)
    served.kill()
    served.run("restore", str(tmp_path / "older.db"))
    assert line not in lines_of(served)
    served.start()
    page.reload()
    wait_until(lambda: lines_of(served) == whole, seconds=40)
    on_server(page)
    assert line in save_copy(page, served.url, tmp_path / "copy.jsonl")
    assert served.run("check") is not None
