"""What the server's tests share: a clock that is set by hand, chance that can be foretold, an opened book."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import pytest

from broodline.store.shelf import open_shelf


@dataclass
class HandClock:
    """Stands still until it is moved on."""

    now: datetime = datetime(2026, 3, 8, 12, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def ms(self) -> int:
        return int(self.now.timestamp() * 1000)

    def go_on(self, **by: float) -> None:
        self.now += timedelta(**by)


@dataclass
class Counted:
    """Random bytes that are never random and never the same."""

    given: int = field(default=0)

    def __call__(self, size: int) -> bytes:
        self.given += 1
        return self.given.to_bytes(size, "big")


@pytest.fixture
def clock():
    return HandClock()


@pytest.fixture
def chance():
    return Counted()


@pytest.fixture
def shelf(tmp_path, clock, chance):
    with open_shelf(tmp_path / "book", now_ms=clock.ms, random_bytes=chance) as opened:
        yield opened
