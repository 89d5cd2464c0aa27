"""How long an earlier cock stays a candidate: Lippincott's three weeks, and what is from memory."""

import pytest

from broodline.trade.semen import overlap


@pytest.mark.parametrize(
    ("species", "days", "status"),
    [("chicken", 21, "mirror"), ("duck", 14, "memory"), ("coturnix", 14, "memory"), ("turkey", 70, "memory")],
)
def test_days_by_species(species: str, days: int, status: str) -> None:
    found = overlap(species)
    assert found is not None
    assert (found.value, found.unit, found.status) == (days, "day", status)


def test_a_species_nobody_read_about() -> None:
    assert overlap("rhea") is None
