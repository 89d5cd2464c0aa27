"""Cells from what bodies hold: days, moments, ids of one thing joined, names, tags and shares in words."""

from collections.abc import Iterable
from contextlib import suppress
from datetime import date, datetime

from broodline.book.birds import bird_id, birds_of
from broodline.book.bodies_flock import Tag
from broodline.book.body import BirdShare
from broodline.book.moments import day_of_text, instant
from broodline.book.standing import Standing
from broodline.exchange.sheet import Cell, Column

Rows = list[tuple[Cell, ...]]

ENTRY = Column("entry_id", "string", "Entry (id)")
BATCH = Column("batch_id", "string", "Batch (id)")
AT = Column("at", "datetime", "At", "UTC")
WEBS = "webs by the bird's own side, seen from behind"


class Names:
    """Ids and names of one book, looked up once."""

    def __init__(self, standing: Standing) -> None:
        self._standing = standing
        self._birds = {bird: one.label for bird, one in birds_of(standing, None).items()}

    def root(self, name: str | None) -> str | None:
        """The identity that an id of a tree means."""
        return None if name is None else self._standing.root_of.get(name, name)

    def family(self, name: str | None) -> str | None:
        """The family's name, None where it is not in the book."""
        known = self._standing.families.get(self.root(name) or "")
        return None if known is None else known.name

    def place(self, name: str | None) -> str | None:
        """The place's name, None where it is not in the book."""
        known = self._standing.places.get(self.root(name) or "")
        return None if known is None else known.name

    def bird(self, name: str | None) -> str | None:
        """What the bird is known by, None where it is not in the book."""
        return None if name is None else self._birds.get(bird_id(self._standing, name))

    def bird_id(self, name: str | None) -> str | None:
        """The identity of a bird, all its ids joined."""
        return None if name is None else bird_id(self._standing, name)

    def bird_cells(self, name: str | None) -> tuple[str | None, str | None]:
        """The cells under `ids` of a bird."""
        return self.bird_id(name), self.bird(name)

    def family_cells(self, name: str | None) -> tuple[str | None, str | None]:
        """The cells under `ids` of a family."""
        return self.root(name), self.family(name)

    def place_cells(self, name: str | None) -> tuple[str | None, str | None]:
        """The cells under `ids` of a place."""
        return self.root(name), self.place(name)

    def shares(self, birds: Iterable[BirdShare] | None) -> str | None:
        """Birds with their chance in percent: "Oisin 70 %; Fionn 30 %"."""
        told = []
        for one in birds or ():
            label = self.bird(one.bird) or one.bird
            told.append(label if one.share is None else f"{label} {one.share * 100:g} %")
        return "; ".join(told) or None


def day(text: str | None) -> date | None:
    """A day as entries write it, or the day a moment of theirs begins with (UTC)."""
    if text is not None:
        with suppress(ValueError):
            return day_of_text(text[:10])
    return None


def moment(ms: int | None) -> datetime | None:
    """A moment in UTC, whole seconds."""
    return None if ms is None else instant(ms).replace(microsecond=0)


def tag_words(tag: Tag | None) -> str | None:
    """A ring, wing tag or chip in words: "ring, left, blue 123"."""
    if tag is None:
        return None
    return " ".join(filter(None, (tag.kind, tag.leg, tag.colour, tag.text)))


def ids(name: str, of: str) -> tuple[Column, Column]:
    """Two columns for one thing: its id, to join sheets by, and its name, to read."""
    return Column(f"{name}_id", "string", f"{of} (id)"), Column(name, "string", of)
