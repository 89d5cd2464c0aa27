"""A server of its own and phones of its own for every test in a real browser."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, sync_playwright

from tests.browser.phones import Phone
from tests.browser.serving import Served


@pytest.fixture(scope="module")
def playwright() -> Iterator[Playwright]:
    """One driver a file, ended with it: while it lives, no other test of this process can run an event loop."""
    with sync_playwright() as driver:
        yield driver


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    server = Served(tmp_path / "book")
    server.start()
    yield server
    server.kill()


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One server for all tests of a file: starting it takes longer than most of them. See `running`."""
    server = Served(tmp_path_factory.mktemp("house") / "book")
    yield server
    server.kill()


@pytest.fixture
def running(house: Served) -> Served:
    """The file's server, started anew where the test before stopped it. Its book holds what those tests wrote."""
    if house.process is None:
        house.start()
    return house


@pytest.fixture
def new_phone(playwright: Playwright, tmp_path: Path) -> Iterator[Callable[..., Phone]]:
    made: list[Phone] = []

    def make(**more: dict[str, int]) -> Phone:
        phone = Phone(playwright, tmp_path / f"phone-{len(made)}", **more)
        made.append(phone)
        return phone

    yield make
    for phone in made:
        phone.close()
