"""The stages of an egg or chick and the moves allowed between them, read from trade/tables/stages.json."""

from broodline.trade.sources import read_table

_TABLE = read_table("stages")
_GROUPS: dict[str, list[str]] = _TABLE["groups"]

START = "set"
EGG_STAGES = tuple(_GROUPS["egg"])
OUT_STAGES = tuple(_GROUPS["egg_out"])
OPENED_STAGES = tuple(_GROUPS["opened"])
CHICK_STAGES = (*_GROUPS["chick"], *_GROUPS["chick_out"])
MISSING = "unaccounted"
NOT_WRITTEN = "not written"  # cause of a move out of the counts where nobody wrote what became of the chicks
STAGES = tuple(stage for group in _GROUPS.values() for stage in group)
ALLOWED = frozenset((source, target) for source, targets in _TABLE["moves"].items() for target in targets)
