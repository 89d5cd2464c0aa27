"""The battery dies right after a tap, or while the phone speaks with the server: what was shown as saved is there."""

import json
import time
from functools import partial

from playwright.sync_api import Page, expect

from tests.browser.hands import (
    add_family,
    in_hand,
    name_the_place,
    on_server,
    only_here,
    pair,
    rows_held,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.serving import wait_until
from tests.server.cli.commands import document

KILLS = 20
EGGS = 100
ANSWERS = ("Clear", "Live", "Blood ring")


def counts(page: Page) -> tuple[int, int]:
    """Eggs still in hand, and entries that are only on this phone."""
    page.locator(".big-count").wait_for()
    return in_hand(page), only_here(page)


def says_saved(page: Page, n: int) -> bool:
    return only_here(page) == n


def test_no_tap_shown_as_saved_is_lost(running, new_phone):
    phone = new_phone()
    page = phone.open(running.url)
    pair(page, running.url, running.code())
    page.goto(running.url)
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", EGGS)])
    wait_until_it_works_offline(page)
    expect(page.get_by_text("All on the server")).to_be_visible()
    phone.close()  # cookies are written down now; a browser killed within half a minute would forget the pairing
    running.kill()
    tally = f"{address}/tally/candle"

    page = phone.open(tally)
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    left, written = counts(page)
    assert (left, written) == (EGGS, 0)
    for kill in range(KILLS):
        for answer in ANSWERS[: 1 + kill % 3]:
            tap(page, answer)
            left, written = left - 1, written + 1
        wait_until(partial(says_saved, page, written), pause=0)
        phone.kill()
        page = phone.open(tally)
        assert counts(page) == (left, written), f"kill {kill + 1}"

    running.start()
    page.goto(running.url)
    expect(page.get_by_text("All on the server")).to_be_visible(timeout=30_000)
    kinds = [entry["kind"] for entry in running.entries()]
    assert kinds.count("looked") + kinds.count("moved") == written


PAGES = 2  # of 500 entries
PAUSES_S = (0.0, 0.05, 0.15)  # after the request: before its answer, while a page is kept, after


def is_kept(page: Page, name: str) -> bool:
    return any(name in row["text"] for row in rows_held(page))


def test_a_phone_killed_while_it_reads_and_sends_has_all_of_both_in_the_end(served, new_phone, tmp_path):
    """Failure 3: kills between push, pull, keeping a page and its cursor."""
    copy = tmp_path / "copy.jsonl"
    notes = [document(n, "x" * 200) for n in range(1, 500 * PAGES)]
    copy.write_text("".join(json.dumps(note) + "\n" for note in notes))
    served.run("import", str(copy))
    phone = new_phone()
    page = phone.open(served.url)
    pair(page, served.url, served.code())
    page.goto(f"{served.url}/welcome")
    name_the_place(page, ["Rowan"])
    set_eggs(page, [("Rowan", EGGS)])
    on_server(page, seconds=60)
    wait_until_it_works_offline(page)
    phone.close()  # cookies are written down now
    written = len(notes) + 4
    more = [document(n, "y" * 200) for n in range(10_000, 10_000 + 500 * PAGES)]
    for kill, pause in enumerate(PAUSES_S):
        part = more[kill :: len(PAUSES_S)]
        page = phone.open(f"{served.url}/families")
        add_family(page, f"Family {kill}")
        wait_until(partial(is_kept, page, f"Family {kill}"))
        copy.write_text("".join(json.dumps(note) + "\n" for note in part))
        served.run("import", str(copy))
        written += len(part) + 1
        with page.expect_request("**/api/v1/pull*"):
            page.evaluate("dispatchEvent(new Event('online'))")
        time.sleep(pause)
        phone.kill()
    page = phone.open(served.url)
    on_server(page, seconds=60)
    held = rows_held(page)
    stored = served.entries()
    assert len(stored) == written
    assert {row["id"] for row in held} == {entry["id"] for entry in stored}
    assert all(row["position"] for row in held)
