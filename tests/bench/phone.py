"""How fast the phone is, in Chromium slowed down six times, offline, with a long book: `python -m tests.bench.phone`.

A start is from asking for the page until the tally shows its count; a tap is visible in the first frame that shows the
new count, and saved once the top line counts it among what is on this phone. Other work on the machine slows all of
this down: how many wait for its processors stands beside the figures, and what a tap takes of the page's own thread.
`python -m tests.bench.phone pull 200000` measures how long a phone takes to read so long a book in.
"""

import os
import statistics
import sys
import tempfile
import time
from math import ceil
from pathlib import Path
from typing import Any

from playwright.sync_api import CDPSession, Page, expect, sync_playwright

from tests.bench.large_book import large_book
from tests.browser.hands import on_server, pair, set_eggs, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served

SLOWER = 6
SIZES = (5_000, 20_000)
STARTS, TAPS = 5, 100
SUM_KEPT_S = 20  # a phone keeps what a long book adds up to once nothing came for ten seconds
START_TARGET_MS, VISIBLE_TARGET_MS, SAVED_TARGET_MS = 1500, 100, 150

READ_SO_FAR = """() => new Promise((done) => {
  const position = (cursor) => Number(String(cursor ?? '').split('.')[1] ?? 0);
  indexedDB.databases().then((all) => {
    const names = all.map((one) => one.name).filter((one) => one.startsWith('broodline:'));
    const read = names.map((name) => new Promise((told) => {
      indexedDB.open(name).onsuccess = ({ target: { result: book } }) => {
        book.transaction('marks').objectStore('marks').get('cursor').onsuccess = (event) => {
          book.close();
          told(position(event.target.result));
        };
      };
    }));
    Promise.all(read).then((found) => done(Math.max(0, ...found)));
  });
})"""

TAPPED = """(times) => new Promise((done) => {
  const button = [...document.querySelectorAll('button')].find((one) => one.textContent.startsWith('Clear'));
  const figure = document.querySelector('.big-count .figure');
  const line = document.querySelector('.connection [role=status]');
  const found = [];
  const change = (node, told) => {
    const before = node.textContent;
    const watch = new MutationObserver(() => {
      if (node.textContent === before) return;
      watch.disconnect();
      told();
    });
    watch.observe(node, { characterData: true, childList: true, subtree: true });
  };
  const next = () => {
    if (found.length === times) return done(found);
    const begun = performance.now();
    const one = {};
    const settled = () => {
      if (one.visible === undefined || one.saved === undefined) return;
      found.push(one);
      setTimeout(next, 50);
    };
    change(figure, () => requestAnimationFrame(() => setTimeout(() => {
      one.visible = performance.now() - begun;
      settled();
    })));
    change(line, () => { one.saved = performance.now() - begun; settled(); });
    button.click();
  };
  next();
})"""


def main(sizes: list[int]) -> None:
    expect.set_options(timeout=60_000)
    with sync_playwright() as driver:
        for n in sizes:
            with tempfile.TemporaryDirectory() as place:
                measure(driver, Path(place), n)


def measure(driver: Any, place: Path, n: int) -> None:
    served, phone = Served(place / "book"), Phone(driver, place / "phone")
    source = place / "book.jsonl"
    source.write_bytes(b"".join(line + b"\n" for line in large_book(n)))
    served.run("import", str(source))
    served.start()
    try:
        load = f"{os.getloadavg()[0]:.1f} at work on {os.cpu_count()} CPUs"
        print(f"{n} entries, Chromium slowed down {SLOWER} times, {load}")
        tally = read_in(served, phone)
        served.kill()
        told("offline start until the tally shows its count", starts(phone, tally), START_TARGET_MS)
        page = opened_slowly(phone, tally)
        session = page.context.new_cdp_session(page)
        session.send("Performance.enable", {"timeDomain": "threadTicks"})
        before_ms = thread_ms(session)
        taps = page.evaluate(TAPPED, TAPS)
        print(f"  the page's thread for a tap, with its save: {(thread_ms(session) - before_ms) / TAPS:.0f} ms")
        told("tap until it is visible", [one["visible"] for one in taps], VISIBLE_TARGET_MS)
        told("tap until it is saved", [one["saved"] for one in taps], SAVED_TARGET_MS)
        heap = page.context.new_cdp_session(page).send("Runtime.getHeapUsage")["usedSize"]
        print(f"  memory of the page's script: {heap / 1e6:.0f} MB")
    finally:
        phone.close()
        served.kill()


def read_in(served: Served, phone: Phone) -> str:
    """The whole book on the phone, and a new setting of many eggs; gives the address of its tally."""
    page = phone.open(served.url)
    begun = time.monotonic()
    pair(page, served.url, served.code())
    on_server(page, seconds=300)
    print(f"  read in, not slowed down: {time.monotonic() - begun:.1f} s")
    page.goto(f"{served.url}/rooms/set")
    page.get_by_role("combobox", name="Family", exact=True).first.wait_for()
    family = page.get_by_role("combobox", name="Family", exact=True).first.locator("option").first.inner_text()
    tally = f"{set_eggs(page, [(family, 2 * TAPS)])}/tally/candle"
    page.goto(tally)
    if page.get_by_role("button", name="Keep it on").count():
        tap(page, "Keep it on")
    wait_until_it_works_offline(page)
    on_server(page)
    time.sleep(SUM_KEPT_S)
    phone.close()
    return tally


def thread_ms(session: CDPSession) -> float:
    """What the page's main thread has worked so far, in time of its own: waiting for a processor is not in it."""
    found = session.send("Performance.getMetrics")["metrics"]
    return 1000 * float(next(one["value"] for one in found if one["name"] == "TaskDuration"))


def pull(n: int) -> None:
    """How long a phone takes to read a long book in, at full speed, and what its script then holds."""
    with tempfile.TemporaryDirectory() as place, sync_playwright() as driver:
        served, phone = Served(Path(place) / "book"), Phone(driver, Path(place) / "phone")
        source = Path(place) / "book.jsonl"
        source.write_bytes(b"".join(line + b"\n" for line in large_book(n)))
        served.run("import", str(source))
        served.start()
        try:
            page = phone.open(served.url)
            expect.set_options(timeout=60_000)
            begun = time.monotonic()
            pair(page, served.url, served.code())
            while page.evaluate(READ_SO_FAR) < n:
                page.wait_for_timeout(500)
            took_s = time.monotonic() - begun
            on_server(page, seconds=300)
            heap = page.context.new_cdp_session(page).send("Runtime.getHeapUsage")["usedSize"]
            print(f"{n} entries read in: {took_s:.0f} s, {n / took_s:.0f} a second; script holds {heap / 1e6:.0f} MB")
        finally:
            phone.close()
            served.kill()


def starts(phone: Phone, tally: str) -> list[float]:
    """Each in a browser that was just started, as after the phone put the app away."""
    found = []
    for _ in range(STARTS):
        page = opened_slowly(phone, tally)
        found.append(float(page.evaluate("shown.at")))
        phone.close()
    return found


def opened_slowly(phone: Phone, tally: str) -> Page:
    page = phone.open("about:blank")
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.context.add_init_script("""
      globalThis.shown = {};
      const found = () => {
        const figure = document.querySelector('.big-count .figure');
        if (figure) shown.at = performance.now(); else requestAnimationFrame(found);
      };
      found();
    """)
    page.goto(tally)
    page.locator(".big-count .figure").wait_for(timeout=60_000)
    page.wait_for_function("shown.at !== undefined")
    return page


def told(what: str, found: list[float], target_ms: int) -> None:
    ordered = sorted(found)
    p99 = ordered[ceil(0.99 * len(ordered)) - 1]
    print(f"  {what}: median {statistics.median(ordered):.0f} ms, p99 {p99:.0f} ms (target at most {target_ms})")


if __name__ == "__main__":
    if sys.argv[1:2] == ["pull"]:
        pull(int(sys.argv[2]))
    else:
        main([int(word) for word in sys.argv[1:]] or list(SIZES))
