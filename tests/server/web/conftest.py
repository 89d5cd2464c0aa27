"""An app over a book of its own, and browsers that talk to it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import pytest
from starlette.testclient import TestClient

from broodline.jobs.push_line import public_way
from broodline.settings import Settings
from broodline.sync.pairing import invite
from broodline.web import pwa_files
from broodline.web.app import create_app, open_desk
from broodline.web.desk import Desk

PORT = 8471
OWN = f"http://127.0.0.1:{PORT}"
BUILT_FILES = {
    "index.html": "<!doctype html><title>first page</title>",
    "sw.js": "self.addEventListener('install', () => {})",
    "manifest.webmanifest": "{}",
    "assets/main-3f2a.js": "export {}",
    "assets/main-3f2a.css": "body {}",
    "icons/icon-192.png": "picture",
    ".stamp": "hash of the sources",
    "notes.map": "{}",
}


@dataclass
class Server:
    """A desk, its app, and what tests ask of them."""

    desk: Desk

    def __post_init__(self) -> None:
        self.app = create_app(self.desk)

    def browser(self, peer: str = "127.0.0.1", url: str = OWN, origin: str | None = OWN) -> TestClient:
        """A browser that has no cookie yet."""
        return TestClient(
            self.app,
            base_url=url,
            client=(peer, 50_000),
            headers={} if origin is None else {"origin": origin},
            raise_server_exceptions=False,
        )

    def code(self, role: str = "keeper") -> str:
        shelf = self.desk.writer.shelf
        return invite(shelf.devices, shelf.holdings.current().id, role, self.desk.random_bytes).code

    def paired(self, role: str = "keeper", name: str = "phone") -> TestClient:
        """A browser that was paired in this role."""
        browser = self.browser()
        answer = browser.post("/api/v1/pair", json={"code": self.code(role), "name": name})
        assert answer.status_code == 200, answer.text
        return browser


@contextmanager
def serving(data_dir, clock, chance, find_way=public_way, **settings) -> Iterator[Server]:
    desk = open_desk(Settings(data_dir, port=PORT, **settings), clock, chance, find_way)
    try:
        yield Server(desk)
    finally:
        desk.close()


@pytest.fixture(autouse=True)
def built_app(tmp_path, monkeypatch):
    """A built app of a few files, so that these tests do not depend on a build."""
    built = tmp_path / "built app"
    for name, text in BUILT_FILES.items():
        path = built / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    monkeypatch.setattr(pwa_files, "BUILT", built)
    return built


@pytest.fixture
def server(tmp_path, clock, chance):
    with serving(tmp_path / "book", clock, chance) as running:
        yield running


@pytest.fixture
def demo_server(tmp_path, clock, chance):
    with serving(tmp_path / "demo", clock, chance, demo=True) as running:
        yield running
