"""The scenario told once, on a day from which no clock changed since its first entry."""

import pytest

from tests.seed.told import NO_CHANGE_OF_CLOCKS, Told


@pytest.fixture(scope="session")
def told() -> Told:
    return Told(NO_CHANGE_OF_CLOCKS)
