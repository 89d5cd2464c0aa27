"""Figures worked out from others are worked out again here, from the published cells they rest on."""

from itertools import product

import pytest

from tests.server.trade.second_reading import packaged

DAYS_IN_HATCHER = 3
"""The Texas A&M table's period includes three days in the hatcher (chicken 21 and 18, turkey 28 and 25)."""


def published(path: str) -> float:
    """A published figure; of a range its earlier or lower end."""
    value = packaged()[path].value
    return float(value[0] if isinstance(value, list) else value)


def whole(species: str, number: int = 0) -> float:
    """The earlier end of a published period."""
    return published(f"species/species/{species}/period_days/published/{number}")


def died_with_two_copies() -> float:
    """Of the chicks of two carriers, the share that takes the gene from both."""
    chicks = list(product("Cc", repeat=2))
    return chicks.count(("C", "C")) / len(chicks)


def middle(*paths: str) -> float:
    """Between the ends of all figures at these paths."""
    values = [packaged()[path].value for path in paths]
    ends = [end for value in values for end in (value if isinstance(value, list) else [value])]
    return (min(ends) + max(ends)) / 2


QUAIL = [f"weight_loss/species/coturnix/published/{number}" for number in range(2)]
AGAIN = {
    "breakout/lethal/ear tuft/share": died_with_two_copies(),
    "species/species/rhea/lockdown_day": whole("rhea") - DAYS_IN_HATCHER,
    "weight_loss/species/chicken/by_day": published("species/species/chicken/lockdown_day/published/0"),
    "weight_loss/species/muscovy/by_day": whole("muscovy"),
    "weight_loss/species/goose/by_day": whole("goose"),
    "weight_loss/species/coturnix/target": round(middle(*QUAIL)),
    "weight_loss/species/coturnix/by_day": published("species/species/coturnix/lockdown_day/published/0"),
    "weight_loss/species/emu/target": middle("weight_loss/species/emu/published/0"),
    "weight_loss/species/emu/by_day": whole("emu", 1),
    "weight_loss/species/rhea/by_day": whole("rhea", 1),
    "weight_loss/species/african_grey/by_day": whole("african_grey"),
    "weight_loss/species/budgerigar/by_day": whole("budgerigar"),
    "weight_loss/species/cockatiel/by_day": whole("cockatiel"),
}


@pytest.mark.parametrize(("path", "figure"), AGAIN.items())
def test_a_derived_figure_is_what_its_parts_give(path: str, figure: float) -> None:
    assert packaged()[path].value == pytest.approx(figure)
    assert packaged()[path].why


def test_every_derived_figure_is_worked_out_again() -> None:
    assert {path for path, cell in packaged().items() if cell.status == "derived"} == set(AGAIN)


@pytest.mark.parametrize("species", ["chicken", "turkey", "duck", "goose", "ostrich"])
def test_the_table_keeps_three_days_for_the_hatcher(species: str) -> None:
    assert whole(species) - published(f"species/species/{species}/lockdown_day/published/0") == DAYS_IN_HATCHER
