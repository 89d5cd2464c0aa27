"""Phones: Chromium with a profile on disk, that can be killed like a phone whose battery dies."""

import os
import shutil
import signal
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Page, Playwright

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
ARGS = ["--no-sandbox", "--disable-dev-shm-usage"]
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}


class Phone:
    """One installed app on one profile. `kill` ends every process of it at once, unasked."""

    def __init__(self, playwright: Playwright, profile: Path, viewport: dict[str, int] | None = None) -> None:
        self.playwright = playwright
        self.profile = profile
        self.viewport = viewport or PHONE
        self.context: BrowserContext | None = None

    def open(self, url: str, args: Sequence[str] = (), **more: Any) -> Page:
        touch = self.viewport["width"] < 600
        self.context = self.playwright.chromium.launch_persistent_context(
            str(self.profile),
            executable_path=CHROMIUM,
            headless=True,
            args=[*ARGS, *args],
            viewport=self.viewport,  # type: ignore[arg-type]
            has_touch=touch,
            is_mobile=touch,
            device_scale_factor=2,
            **{"locale": "en-GB", "timezone_id": "Europe/Dublin", **more},
        )
        page = self.context.pages[0] if self.context.pages else self.context.new_page()
        page.set_default_timeout(15_000)
        page.goto(url)
        return page

    def close(self) -> None:
        if self.context is not None:
            self.context.close()
            self.context = None

    def kill(self) -> None:
        """SIGKILL to the browser and every child of it."""
        ended = _tree(self.profile)
        assert ended, "no browser process found"
        for pid in ended:
            try:
                os.kill(pid, signal.SIGKILL)
            except ProcessLookupError:
                continue
        time.sleep(0.3)
        try:
            self.close()
        except Exception:
            self.context = None


def _tree(profile: Path) -> list[int]:
    parents: dict[int, int] = {}
    roots: set[int] = set()
    for folder in Path("/proc").iterdir():
        if not folder.name.isdigit():
            continue
        try:
            words = (folder / "cmdline").read_bytes().split(b"\0")
            stat = (folder / "stat").read_text().rpartition(")")[2].split()
        except OSError:
            continue
        pid = int(folder.name)
        parents[pid] = int(stat[1])
        if f"--user-data-dir={profile}".encode() in words:
            roots.add(pid)
    found = set(roots)
    grown = True
    while grown:
        grown = False
        for pid, parent in parents.items():
            if parent in found and pid not in found:
                found.add(pid)
                grown = True
    return sorted(found)
