"""How much of a difference in weight is passed on, where it was read about: species and age.

>>> heritability("chicken", 60).value, heritability("chicken", 84), heritability("emu", 60)
(0.56, None, None)
"""

from broodline.trade.sources import Cell, cell, read_table


def heritability(species: str, age_days: int) -> Cell | None:
    """Of body weight at about that age; None where no figure was read for an age near it."""
    table = read_table("breeding")
    reach: float = cell(table["heritability_reach"]).value
    rows = table["heritability"].get(species, [])
    near = [row for row in rows if abs(age_days - row["age_days"]) <= reach * row["age_days"]]
    found = min(near, key=lambda row: abs(age_days - row["age_days"]), default=None)
    return None if found is None else cell(found["weight"])
