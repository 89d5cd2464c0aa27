"""A server of its own and phones of its own for every test in a real browser."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, expect, sync_playwright

from tests.browser.hands import candle_paired
from tests.browser.phones import Phone
from tests.browser.serving import Served

expect.set_options(timeout=15_000)  # machines are slow at times; what comes is seen as soon as it is there


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


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[Served]:
    """The invented holding, served; whoever comes from this machine is signed in."""
    server = Served(tmp_path / "demo")
    server.start(demo=True)
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


@pytest.fixture(scope="module")
def paired(
    request: pytest.FixtureRequest, playwright: Playwright, house: Served, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Phone]:
    """A phone at a candling of as many EGGS as its file says; all it wrote is on the server."""
    house.start()
    phone = Phone(playwright, tmp_path_factory.mktemp("phone"))
    page = phone.open(house.url)
    candle_paired(page, house.url, house.code(), request.module.EGGS)
    yield phone
    phone.close()


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
