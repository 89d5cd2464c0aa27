"""A season against those before it: within a species, and each family against itself, never one against another's.

The seasons before are taken together where their own counts agree; where they differ among themselves by more than
chance, one more that differs says nothing, and no difference is claimed. A difference is said only where an exact test
shows it; of families, with Holm's correction for looking at several.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from broodline.book.own_words import OwnWords
from broodline.reports.season_compared import species_words
from broodline.reports.season_lots import SeasonLot
from broodline.reports.season_outcome import group_json, outcome_of
from broodline.trade.comparisons import holm, is_uneven, pair_test
from broodline.trade.proportions import Rate, difference_newcombe, rate_of

SHOWN_BELOW = 0.05


@dataclass(frozen=True, slots=True)
class _Against:
    """Hatch of set now and in the seasons before together. p: before any correction. uneven: those before differ."""

    now: Rate
    before: Rate
    p: float
    uneven: bool

    def as_json(self, p: float) -> dict[str, Any]:
        """p: as corrected."""
        apart = difference_newcombe(self.now.k, self.now.n, self.before.k, self.before.n)
        return {
            "now": self.now.as_json(),
            "before": self.before.as_json(),
            "difference": apart.difference,
            "low": apart.low,
            "high": apart.high,
            "p": p,
            "uneven": self.uneven,
            "shown": p <= SHOWN_BELOW and not self.uneven,
        }


def against_earlier(
    now: Mapping[str, Sequence[SeasonLot]],
    before: Mapping[int, Sequence[SeasonLot]],
    species_of: Mapping[str, str],
    names: Mapping[str, str],
    own: OwnWords,
    now_ms: int,
) -> list[dict[str, Any]]:
    """[{species, species_name, years, now, before, difference, low, high, p, uneven, shown, families, words}].

    now, before: lots that are over, of the season by family, of those before by season. species_of, names: by family.
    years: [{year, set, ...rates}] of the species. families: [{family, name, now, ..., shown}] of those with eggs over
    both now and before. A species with no eggs before is left out; one with none now has neither test nor families.
    """
    found = []
    every = _by_family(before, names)
    for species in sorted({species_of[family] for family in names if every[family]}):
        families = [family for family in names if species_of[family] == species]
        here = [lot for family in families for lot in now.get(family, ())]
        years = {year: [lot for family in families for lot in every[family].get(year, ())] for year in before}
        own_years = [{"year": year, **group_json(lots, now_ms)} for year, lots in years.items() if lots]
        named = {"species": species, "species_name": species_words(species)}
        row: dict[str, Any] = {**named, "years": own_years, "families": []}
        whole = _against(here, years, now_ms)
        if whole is not None:
            row |= whole.as_json(whole.p)
            row["families"] = _families([one for one in families if every[one]], now, every, names, now_ms)
            row["words"] = _words(row, own)
        found.append(row)
    return found


def _by_family(
    before: Mapping[int, Sequence[SeasonLot]], families: Iterable[str]
) -> dict[str, dict[int, list[SeasonLot]]]:
    """Family -> season -> its lots; a season without any is left out."""
    found: dict[str, dict[int, list[SeasonLot]]] = {family: {} for family in families}
    for year, lots in before.items():
        for lot in lots:
            if (own := found.get(lot.lot.family or "")) is not None:
                own.setdefault(year, []).append(lot)
    return found


def _families(
    families: Sequence[str],
    now: Mapping[str, Sequence[SeasonLot]],
    every: Mapping[str, Mapping[int, Sequence[SeasonLot]]],
    names: Mapping[str, str],
    now_ms: int,
) -> list[dict[str, Any]]:
    by_family = {family: _against(now.get(family, ()), every[family], now_ms) for family in families}
    both = [(family, one) for family, one in by_family.items() if one is not None]
    both.sort(key=lambda pair: (names[pair[0]], pair[0]))
    adjusted = holm([one.p for _, one in both])
    return [
        {"family": family, "name": names[family], **one.as_json(p)}
        for (family, one), p in zip(both, adjusted, strict=True)
    ]


def _against(now: Sequence[SeasonLot], before: Mapping[int, Sequence[SeasonLot]], now_ms: int) -> _Against | None:
    """None where there are no eggs on one side."""
    here = outcome_of(now, now_ms).hatch_of_set
    years = [rate for lots in before.values() if (rate := outcome_of(lots, now_ms).hatch_of_set).n > 0]
    then = rate_of(sum(one.k for one in years), sum(one.n for one in years))
    if here.n == 0 or then.n == 0:
        return None
    uneven = is_uneven([(one.k, one.n) for one in years])
    return _Against(here, then, pair_test(here.k, here.n, then.k, then.n), uneven)


def _words(row: Mapping[str, Any], own: OwnWords) -> str:
    """What holds within the families, each against its own seasons before."""
    families = row["families"]
    shown = [one for one in families if one["shown"]]
    uneven = [one["name"] for one in families if one["uneven"]]
    said = [_shown_words(one) for one in shown]
    rest = len(families) - len(shown) - len(uneven)
    if not shown and not uneven:
        said.append(f"No difference shown between any {own.family} and its own seasons before.")
    elif rest:
        said.append("No difference shown for the others.")
    if uneven:
        said.append(f"The seasons before differ among themselves for {', '.join(uneven)}: nothing is said of this one.")
    if shown:
        said.append("These counts cannot say why: hens, cock, machine and keeping of the eggs change with the season.")
    return " ".join(said)


def _shown_words(one: Mapping[str, Any]) -> str:
    way = "fewer" if one["difference"] < 0 else "more"
    points = [100 * abs(one[end]) for end in ("difference", "low", "high")]
    low, high = sorted(points[1:])
    return f"{one['name']}: {points[0]:.0f} points {way} than in its seasons before (likely {low:.0f} to {high:.0f})."
