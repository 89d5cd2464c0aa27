"""How long a hen may still lay eggs of a cock she was parted from.

>>> overlap("chicken").value, overlap("turkey").status
(21, 'memory')
>>> overlap("emu") is None
True
"""

from broodline.trade.sources import Cell, cell, read_table


def overlap(species: str) -> Cell | None:
    """Days after parting in which an earlier cock stays a candidate sire; None where nothing was read."""
    written = read_table("breeding")["semen_overlap_days"].get(species)
    return None if written is None else cell(written)
