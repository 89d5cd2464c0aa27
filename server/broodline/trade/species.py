"""The kinds of poultry and game the tables know, by code.

>>> species_named("muscovy").period_days, species_named("muscovy").lockdown_day
((35, 37), 31)
>>> species_named("goose").period_published
(28, 34)
>>> species_named("phoenix") is None
True
>>> in_a_sentence("Guinea fowl"), in_a_sentence("Japanese quail")
('guinea fowl', 'Japanese quail')
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from broodline.trade.sources import Cell, cell, read_table

_NAMED_AFTER = ("African", "Japanese", "Muscovy")


@dataclass(frozen=True, slots=True)
class Species:
    """How long a species takes. Days are counted from set day 0.

    period_days: first and last day of the usual hatch, as chosen. period_published: the widest range that the
    sources read give. lockdown_day: turning stops. lockdown_published: its range. candle_days: when to candle.
    cells: the chosen figures with source and status, by topic.
    """

    code: str
    name: str
    period_days: tuple[int, int]
    period_published: tuple[int, int]
    lockdown_day: int
    lockdown_published: tuple[int, int]
    candle_days: tuple[int, ...]
    cells: Mapping[str, Cell]


def species_named(code: str) -> Species | None:
    """The species with this code, or None for one the tables do not know."""
    return SPECIES.get(code)


def in_a_sentence(name: str) -> str:
    """The name of a species within a sentence: what is named after a people or a land keeps its capital."""
    return name if name.startswith(_NAMED_AFTER) else name[:1].lower() + name[1:]


def _widest(topic: Mapping[str, Any], chosen: tuple[int, int]) -> tuple[int, int]:
    ranges = [cell(written).value for written in topic["published"]]
    return min([chosen[0], *(low for low, _ in ranges)]), max([chosen[1], *(high for _, high in ranges)])


def _species(code: str, row: Mapping[str, Any]) -> Species:
    chosen = {topic: cell(row[topic]) for topic in ("period_days", "lockdown_day", "candle_days")}
    low, high = chosen["period_days"].value
    lockdown = chosen["lockdown_day"].value
    return Species(
        code=code,
        name=row["name"],
        period_days=(low, high),
        period_published=_widest(row["period_days"], (low, high)),
        lockdown_day=lockdown,
        lockdown_published=_widest(row["lockdown_day"], (lockdown, lockdown)),
        candle_days=tuple(chosen["candle_days"].value),
        cells=MappingProxyType(chosen),
    )


_TABLE = read_table("species")

DARK_SHELL_DAY = int(cell(_TABLE["dark_shell_first_candle_day"]).value)
"""Day of incubation before which little is seen through a dark shell."""

SPECIES: Mapping[str, Species] = MappingProxyType(
    {code: _species(code, row) for code, row in _TABLE["species"].items()}
)
