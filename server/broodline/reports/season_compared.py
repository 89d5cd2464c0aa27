"""A season's families held against each other, those of one species only: a duck's egg is no rival of a hen's."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from broodline.book.bodies_rooms import Keeper
from broodline.book.own_words import OwnWords
from broodline.book.standing import Setting
from broodline.reports.season_adjusted import Adjusted
from broodline.reports.verdict import Compared, overall_verdict, verdict_text
from broodline.trade.comparisons import holm, overall_test, pair_test
from broodline.trade.proportions import difference_newcombe
from broodline.trade.shrinkage import Shrinkage, best_probability, shrink
from broodline.trade.species import species_named


@dataclass(frozen=True, slots=True)
class Comparison:
    """Families of one species with eggs in settings that are over; shrinkage and chances in the same order."""

    species: str
    compared: tuple[Compared, ...]
    p: float | None
    shrinkage: Shrinkage | None
    chances: tuple[float, ...]

    @property
    def spread(self) -> bool:
        """Whether the families differ by more than chance would explain."""
        return self.shrinkage is not None and self.shrinkage.alpha is not None

    def figures(self, family: str) -> dict[str, Any]:
        """{shrunk, best_probability} of a family; None throughout where it is not among these."""
        place = next((place for place, one in enumerate(self.compared) if one.id == family), None)
        shrunk = None if place is None or self.shrinkage is None else self.shrinkage.families[place]
        return {
            "shrunk": {name: None if shrunk is None else getattr(shrunk, name) for name in ("rate", "low", "high")},
            "best_probability": self.chances[place] if place is not None and self.chances else None,
        }


def compare(species: str, compared: Sequence[Compared]) -> Comparison:
    """The families of one species; with less than two there is no test."""
    counts = [(one.k, one.n) for one in compared]
    shrinkage = shrink(counts)
    chances: list[float] = []
    if shrinkage is not None and len(counts) > 1:
        chances = best_probability(counts, shrinkage.alpha, shrinkage.beta)
    return Comparison(species, tuple(compared), overall_test(counts), shrinkage, tuple(chances))


def compare_by_species(families: Sequence[tuple[str, Compared]]) -> list[Comparison]:
    """One comparison for each species, that with most eggs first. families: (species, counts)."""
    by_species: dict[str, list[Compared]] = {}
    for species, one in families:
        by_species.setdefault(species, []).append(one)
    found = [compare(species, ones) for species, ones in by_species.items()]
    return sorted(found, key=lambda one: (-sum(family.n for family in one.compared), one.species))


def pairs_of(comparison: Comparison) -> list[dict[str, Any]]:
    """Every two families: difference of hatch of set with Newcombe's interval, p by Boschloo adjusted by Holm."""
    both = list(combinations(comparison.compared, 2))
    adjusted = holm([pair_test(a.k, a.n, b.k, b.n) for a, b in both])
    rows = []
    for (a, b), p in zip(both, adjusted, strict=True):
        apart = difference_newcombe(a.k, a.n, b.k, b.n)
        rows.append(
            {
                "a": a.id,
                "b": b.id,
                "difference": apart.difference,
                "low": apart.low,
                "high": apart.high,
                "p_holm": p,
            }
        )
    return rows


def overall_json(comparisons: Sequence[Comparison], own: OwnWords) -> dict[str, Any]:
    """{p, verdict} of the species with most eggs."""
    p, spread = (comparisons[0].p, comparisons[0].spread) if comparisons else (None, False)
    return {"p": p, "verdict": overall_verdict(p, spread, own)}


def verdict_by_species(
    settings: Sequence[Setting],
    comparisons: Sequence[Comparison],
    adjusted: Sequence[Adjusted | None],
    unknown: Sequence[int],
    keeper: Keeper,
) -> str:
    """The verdict of the season; with several species one after the other, each under its name.

    adjusted: of each. unknown: of each, how many chicks are of no known family.
    """
    if not comparisons:
        return verdict_text(settings, (), None, False, (), (), keeper)
    told = [
        verdict_text(
            settings,
            one.compared,
            one.p,
            one.spread,
            one.chances,
            pairs_of(one),
            keeper,
            None if beside is None else beside.words,
            chicks,
        )
        for one, beside, chicks in zip(comparisons, adjusted, unknown, strict=True)
    ]
    if len(told) == 1:
        return told[0]
    return " ".join(f"{species_words(one.species)}: {words}" for one, words in zip(comparisons, told, strict=True))


def species_words(code: str) -> str:
    """A species by its name; one that the tables do not know by its code."""
    species = species_named(code)
    return code if species is None else species.name
