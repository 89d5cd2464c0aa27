"""How Lighthouse judges the first load, and two screens of a paired phone: `python -m tests.bench.lighthouse`.

Lighthouse slows processor and network down by its own model of a middling phone. The package is installed into a
temporary folder and goes with it. Each page is judged several times, in turn. Lighthouse takes the time that other work
on the machine takes from the page for work of the page, so performance never comes out too well: the best run stands,
and all are shown. What Lighthouse faults by name it found in any run.
"""

import json
import os
import subprocess
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

from tests.bench.npm_packages import NODE, install
from tests.browser.hands import on_server, wait_until_it_works_offline
from tests.browser.phones import ARGS, CHROMIUM, Phone
from tests.browser.serving import Served

LIGHTHOUSE = "lighthouse@13.5.0"
RUNS, TRIES = 5, 3
LEAST = {"performance": 95, "accessibility": 100, "best-practices": 100}
FIGURES = {"first-contentful-paint": "first paint", "largest-contentful-paint": "largest paint"}
FIGURES |= {"total-blocking-time": "blocked", "cumulative-layout-shift": "shift"}


@dataclass(frozen=True, slots=True)
class Page:
    """A page as it is met. profile: the browser that has met it before; None: each time a new one."""

    name: str
    url: str
    profile: Path | None = None
    found: list[Mapping[str, Any]] = field(default_factory=list)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        packages = install(place / "packages", LIGHTHOUSE)
        if packages is None:
            return
        alone, demo = Served(place / "alone"), Served(place / "demo")
        try:
            alone.start()
            demo.start(demo=True)
            phone = place / "phone"
            keep_the_book_on(phone, demo.url)
            pages = [
                Page("/ of a phone that is not paired, first load", f"{alone.url}/"),
                Page("Due of a paired phone", f"{demo.url}/due", phone),
                Page("Season of a paired phone", f"{demo.url}/season", phone),
                Page("Due while the book is read in, first load", f"{demo.url}/due"),
            ]
            for _ in range(RUNS):
                for page in pages:
                    page.found.append(judged(packages, page, place / "answer.json"))
        finally:
            alone.kill()
            demo.kill()
    print(f"Lighthouse, {RUNS} runs a page, {os.getloadavg()[0]:.1f} at work on {os.cpu_count()} CPUs")
    for page in pages:
        tell(page)


def keep_the_book_on(profile: Path, url: str) -> None:
    """A browser that was paired with the demo, has read its book, and works without a server."""
    with sync_playwright() as driver:
        phone = Phone(driver, profile)
        page = phone.open(f"{url}/due")
        on_server(page)
        wait_until_it_works_offline(page)
        on_server(page)
        phone.close()


def judged(packages: Path, page: Page, answer: Path) -> Mapping[str, Any]:
    """What one run of Lighthouse over a page found."""
    flags = ["--headless=new", *ARGS]
    if page.profile is not None:
        flags.append(f"--user-data-dir={page.profile}")
    words = [page.url, "--quiet", "--output=json", f"--output-path={answer}", f"--only-categories={','.join(LEAST)}"]
    words += [f"--chrome-flags={' '.join(flags)}", *(["--disable-storage-reset"] if page.profile else [])]
    for _ in range(TRIES):  # on a busy machine it loses its trace now and then, and asks to be run again
        done = subprocess.run(
            [NODE / "node", packages / "node_modules/lighthouse/cli/index.js", *words],
            env={**os.environ, "CHROME_PATH": CHROMIUM},
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode == 0:
            break
    assert done.returncode == 0, done.stderr[-2000:]
    found: Mapping[str, Any] = json.loads(answer.read_text())
    assert found["finalDisplayedUrl"].startswith(page.url.rstrip("/")), found["finalDisplayedUrl"]
    return found


def tell(page: Page) -> None:
    print(f"  {page.name}")
    for category, least in LEAST.items():
        scores = sorted(round(100 * one["categories"][category]["score"]) for one in page.found)
        stands = scores[-1] if category == "performance" else scores[0]
        print(f"    {category}: {stands} of {scores} (target at least {least})")
    told = []
    for audit, words in FIGURES.items():
        least_of = min(one["audits"][audit]["numericValue"] for one in page.found)
        told.append(f"{words} {least_of:.3f}" if words == "shift" else f"{words} {least_of:.0f} ms")
    print(f"    {', '.join(told)}")
    for fault in sorted({fault for one in page.found for fault in faults(one)}):
        print(f"    found: {fault}")


def faults(answer: Mapping[str, Any]) -> list[str]:
    """What cost points outside performance, by the names of Lighthouse's audits."""
    refs = [ref for name in LEAST if name != "performance" for ref in answer["categories"][name]["auditRefs"]]
    audits = [answer["audits"][ref["id"]] for ref in refs if ref["weight"]]
    return [f"{one['id']}: {one['title']}" for one in audits if one["score"] is not None and one["score"] < 1]


if __name__ == "__main__":
    main()
