"""Sheets about the holding itself: its clock, units and words, its key of marks, and which traits are never paired."""

from broodline.book.standing import Standing
from broodline.exchange.cells import ENTRY, Rows
from broodline.exchange.sheet import Column, Sheet

_HOLDING = (
    ENTRY,
    Column("holding", "string", "Holding"),
    Column("zone", "string", "Time zone"),
    Column("altitude_m", "number", "Altitude", "m"),
    Column("temperature", "string", "Shows °C or °F"),
    Column("mass", "string", "Shows g or oz"),
    Column("season_starts", "integer", "Season starts in month"),
    Column("region", "string", "Region"),
    Column("word_for_family", "string", "Own word for a family"),
    Column("word_for_setting", "string", "Own word for a setting"),
)
_MARK_KEY = (
    Column("pattern", "string", "Toe webs punched"),
    Column("meaning", "string", "Means"),
)
_NEVER = (
    Column("trait", "string", "Never pair"),
    Column("with_trait", "string", "With"),
    Column("why", "string", "Why"),
)


def holding_sheets(standing: Standing) -> list[Sheet]:
    """What the keeper said of the holding; empty where nobody said it."""
    keeper = standing.keeper
    entry = max((head.id for head in standing.heads.get("keeper", ())), default=None)
    words = keeper.words or {}
    own = (
        entry,
        keeper.holding,
        keeper.zone,
        keeper.altitude_m,
        keeper.temperature,
        keeper.mass,
        keeper.season_starts,
        keeper.region,
        words.get("family"),
        words.get("hatch"),
    )
    key: Rows = [(pattern, meaning) for pattern, meaning in (keeper.mark_key or {}).items()]
    never: Rows = [(one, other, why) for one, other, why in keeper.never_pair or ()]
    return [
        Sheet("holding", "Holding", _HOLDING, [] if entry is None else [own], "entry_id"),
        Sheet("mark_key", "Key of marks", _MARK_KEY, key),
        Sheet("never_paired", "Never paired", _NEVER, never),
    ]
