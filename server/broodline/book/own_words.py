"""The keeper's own words for a breeding group and for eggs set together. Mirrored in pwa/src/book/own-words.ts."""

from dataclasses import dataclass

from broodline.book.bodies_rooms import Keeper

_FAMILIES = {"family": "families", "line": "lines", "strain": "strains"}
_SETTINGS = {"setting": "settings", "hatch": "hatches"}


@dataclass(frozen=True, slots=True)
class OwnWords:
    """One and many of both, in small letters."""

    family: str = "family"
    families: str = "families"
    setting: str = "setting"
    settings: str = "settings"

    def told(self, text: str) -> str:
        """A text of a table, with {own_family} and {own_families} filled in.

        >>> OwnWords("line", "lines").told("Keep the {own_families} apart.")
        'Keep the lines apart.'
        """
        return text.replace("{own_family}", self.family).replace("{own_families}", self.families)


def own_words(keeper: Keeper) -> OwnWords:
    """What the keeper chose; anything unknown reads as the trade's usual word."""
    chosen = keeper.words or {}
    family = chosen.get("family", "family") if chosen.get("family") in _FAMILIES else "family"
    setting = chosen.get("hatch", "setting") if chosen.get("hatch") in _SETTINGS else "setting"
    return OwnWords(family, _FAMILIES[family], setting, _SETTINGS[setting])
