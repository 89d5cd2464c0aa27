"""Heritability of body weight as it was read (abstracts: Kenya 2013; Aggrey and Cheng 1994; Rizzi et al.)."""

import pytest

from broodline.trade.heritability import heritability


@pytest.mark.parametrize(
    ("species", "age", "share"),
    [
        ("chicken", 0, 0.17), ("chicken", 56, 0.56), ("chicken", 70, 0.56), ("chicken", 105, 0.28),
        ("chicken", 175, 0.28), ("coturnix", 14, 0.31), ("coturnix", 28, 0.44), ("pheasant", 120, 0.3),
    ],
)  # fmt: skip
def test_at_ages_read_about(species: str, age: int, share: float) -> None:
    found = heritability(species, age)
    assert found is not None
    assert (found.value, found.status) == (share, "seen")


@pytest.mark.parametrize(("species", "age"), [("chicken", 1), ("chicken", 84), ("chicken", 176), ("duck", 56)])
def test_nothing_is_told_of_other_ages_and_birds(species: str, age: int) -> None:
    assert heritability(species, age) is None
