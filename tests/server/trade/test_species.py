"""Species periods against published tables.

Texas A&M B-6092 species table (read on a copy): chicken lockdown 18, hatch 21; turkey 25, 28; Muscovy 31-33, 35-37;
Japanese quail 15, 17-18; ostrich 39, 42.
"""

import pytest

from broodline.trade.sources import read_table
from broodline.trade.species import SPECIES, species_named


@pytest.mark.parametrize(
    ("code", "lockdown", "hatch"),
    [
        ("chicken", (18, 18), (21, 21)),
        ("turkey", (25, 25), (28, 28)),
        ("muscovy", (31, 33), (35, 37)),
        ("coturnix", (15, 15), (17, 18)),
        ("ostrich", (39, 39), (42, 42)),
    ],
)
def test_published_days(code: str, lockdown: tuple[int, int], hatch: tuple[int, int]) -> None:
    known = SPECIES[code]
    assert known.period_days == hatch
    assert known.lockdown_published == lockdown
    assert known.lockdown_day == lockdown[0]


def test_all_rows_of_the_full_table_are_there() -> None:
    assert len(SPECIES) == 23
    assert set(SPECIES) == set(read_table("setpoints")["species"])
    assert species_named("chicken") is SPECIES["chicken"]
    assert species_named("phoenix") is None


def test_ranges_where_sources_disagree_are_kept() -> None:
    """Ranges named as disagreements between the sources read: goose 28-34, emu 46-56, rhea 36-44, Muscovy 33-37."""
    widest = {code: SPECIES[code].period_published for code in ("goose", "emu", "rhea", "muscovy", "peafowl")}
    assert widest == {
        "goose": (28, 34),
        "emu": (46, 56),
        "rhea": (36, 44),
        "muscovy": (33, 37),
        "peafowl": (28, 30),
    }
    assert SPECIES["bobwhite"].lockdown_published == (20, 21)
    assert SPECIES["pigeon"].lockdown_published == (14, 15)


def test_order_of_days_within_each_species() -> None:
    for known in SPECIES.values():
        low, high = known.period_days
        assert 0 < known.candle_days[0] <= known.candle_days[-1] < known.lockdown_day < low <= high
        assert known.cells["period_days"].value == [low, high]
        assert known.cells["lockdown_day"].status in ("mirror", "derived")
