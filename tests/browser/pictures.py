"""The README's pictures: `make pictures`. The demo as told on one fixed day, in a browser whose clock stands there.

Written to seed_scenario/pictures as WebP; the same app gives the same pictures on any day.
"""

import base64
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, Page, expect, sync_playwright

from broodline.cli.demo import prepare
from broodline.settings import Settings
from broodline.web.app import create_app, open_desk
from seed_scenario.generate import HERE
from tests.browser.hands import on_server
from tests.browser.phones import ARGS, CHROMIUM, PHONE
from tests.browser.serving import free_port, wait_until
from tests.seed.told import Told

TODAY = date(2026, 5, 20)
NOW = datetime(TODAY.year, TODAY.month, TODAY.day, 9, 30, tzinfo=UTC)
PICTURES = HERE / "pictures"
DESK = {"width": 1280, "height": 960}
MOST_BYTES, QUALITIES = 60_000, (80, 65, 50, 35, 20)
ON_THE_PHONE = {
    "due": "due",
    "rooms": "rooms",
    "marking": "mark/{first_hatch_rowan}",
    "tally": "setting/{at_candling}/tally/candle",  # last: from here on the hatch room's light is on
}
AT_THE_DESK = {"season": "season", "setting": "setting/{first_hatch}", "pens": "pairing", "plan": "plan"}


def main() -> None:
    """Take all pictures anew."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, served(Path(folder) / "demo") as url, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=ARGS)
        for screens, size in ((ON_THE_PHONE, PHONE), (AT_THE_DESK, DESK)):
            take_all(browser, url, screens, size)
        browser.close()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The demo of the fixed day, by a server whose clock stands too."""
    prepare(folder, NOW)
    port = free_port()
    desk = open_desk(Settings(folder, port=port, demo=True), clock=lambda: NOW)
    server = uvicorn.Server(uvicorn.Config(create_app(desk), port=port, log_level="warning", ws="none"))
    running = threading.Thread(target=server.run)
    running.start()
    wait_until(lambda: server.started)
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    running.join()


def take_all(browser: Browser, url: str, screens: dict[str, str], size: dict[str, int]) -> None:
    phone = size == PHONE
    context = browser.new_context(
        viewport=size,  # type: ignore[arg-type]
        device_scale_factor=2 if phone else 1,
        has_touch=phone,
        is_mobile=phone,
        locale="en-GB",
        timezone_id="Europe/Dublin",
        reduced_motion="reduce",
    )
    context.clock.set_fixed_time(NOW)
    page = context.new_page()
    page.goto(f"{url}/due")
    on_server(page)
    page.evaluate("Object.assign(localStorage, { 'broodline-awake': 'no', 'broodline-webs': 'yes' })")
    ids = Told(TODAY).ids
    for name, path in screens.items():
        if name == "tally":
            page.evaluate("localStorage['broodline-theme'] = 'hatch-room'")
        page.goto(f"{url}/{path.format(**ids)}")
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        page.wait_for_load_state("networkidle")  # what the server works out has come
        if name == "marking":
            page.get_by_text("Tap a web to punch it").evaluate("(words) => words.scrollIntoView()")
        print(f"{name}.webp: {take(page, PICTURES / f'{name}.webp'):,} bytes", file=sys.stderr)
    context.close()


def take(page: Page, to: Path) -> int:
    """The picture of what is in sight, as good as its bytes allow; gives how many it has."""
    session = page.context.new_cdp_session(page)
    for quality in QUALITIES:
        told = session.send("Page.captureScreenshot", {"format": "webp", "quality": quality})
        content = base64.b64decode(told["data"])
        if len(content) <= MOST_BYTES:
            break
    to.write_bytes(content)
    return len(content)


if __name__ == "__main__":
    main()
