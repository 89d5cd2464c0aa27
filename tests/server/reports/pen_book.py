"""A book with a family, its pen and a setting, for tests of parents and pedigrees."""

from datetime import UTC, datetime
from typing import Any

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.reports.parents_of import Parents, parents_of_lot
from broodline.reports.pens import pens_of
from tests.book_writer import BookWriter

SET_AT = datetime(2026, 4, 10, 9, 0, tzinfo=UTC)


class PenBook(BookWriter):
    """Writes pens and eggs of them."""

    def __init__(self, species: str = "chicken") -> None:
        super().__init__()
        self.keeper()
        self.species = species
        self.rowan = self.family("Rowan", species)
        self.box = self.incubator()

    def bird(self, sex: str, **more: Any) -> str:
        return self.write("bird", {"sex": sex, **more})

    def birds(self, sex: str, n: int, **more: Any) -> list[str]:
        return [self.bird(sex, family=self.rowan, **more) for _ in range(n)]

    def pen(self, sires: list[Any], dams: list[Any], since: str, until: str | None = None, **more: Any) -> str:
        """sires, dams: birds, or (bird, share)."""
        body = {"family": self.rowan, "since": since, "sires": _shares(sires), "dams": _shares(dams), **more}
        return self.write("penned", body if until is None else {**body, "until": until})

    def eggs(self, laid_from: str | None = None, laid_to: str | None = None, **more: Any) -> str:
        """One lot of twelve eggs of the family, set on 10 April; its id."""
        lot = self.lot()
        laid = {key: day for key, day in (("laid_from", laid_from), ("laid_to", laid_to)) if day is not None}
        lots = [{"lot": lot, "family": self.rowan, "n": 12, **laid, **more}]
        body = {"place": self.box, "species": self.species, "set_at": "2026-04-10T09:00:00Z", "lots": lots}
        self.write("set", body, at=SET_AT)
        return lot

    def standing(self) -> Standing:
        return fold(self.entries())

    def parents(self, lot: str) -> Parents:
        standing = self.standing()
        return parents_of_lot(standing, standing.lots[lot], pens_of(standing), [])


def chances(parents: Parents, side: int) -> dict[str | None, float]:
    """Of the cocks (side 0) or the hens (1)."""
    found: dict[str | None, float] = {}
    for pair in parents.pairs:
        bird = (pair.sire, pair.dam)[side]
        found[bird] = found.get(bird, 0.0) + pair.chance
    return found


def _shares(birds: list[Any]) -> list[dict[str, Any]]:
    return [{"bird": bird} if isinstance(bird, str) else {"bird": bird[0], "share": bird[1]} for bird in birds]
