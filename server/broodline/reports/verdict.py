"""What may be said about a season's families, in plain words: what was seen, never whose fault it is.

Order of thought: first whether the counts separate the families at all; only then who hatched most; then what cannot be
told apart from the family; at last how many eggs would settle it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from broodline.book.bodies_rooms import Keeper
from broodline.book.moments import instant
from broodline.book.own_words import OwnWords, own_words
from broodline.book.standing import Setting
from broodline.book.told_days import day_told
from broodline.reports.chance import in_words
from broodline.trade.calendar import local_date
from broodline.trade.comparisons import eggs_needed
from broodline.trade.counted import many
from broodline.trade.proportions import rate_of

SEPARATES_BELOW = 0.05
AGES_DIFFER_DAYS = 3
MOST_PAIRS = 6
"""So many pairs are named; all of them stand in the table."""


@dataclass(frozen=True, slots=True)
class Compared:
    """A family with k of n eggs hatched in settings that are over.

    age_days: mean age of its eggs when set, None where not known of all. bought_in: share of them that was.
    open: by how many more chicks of unknown family k may be short.
    """

    id: str
    name: str
    k: int
    n: int
    settings: tuple[Setting, ...]
    age_days: float | None = None
    bought_in: float = 0.0
    open: int = 0

    @property
    def share(self) -> float:
        return self.k / self.n


def overall_verdict(p: float | None, spread: bool, own: OwnWords) -> str:
    """The overall test in words. p: of the test, None with fewer than two families. spread: shrinkage found some."""
    if p is None:
        return "there is nothing to compare yet"
    if p > SEPARATES_BELOW or not spread:
        return f"these eggs do not separate the {own.families}"
    return f"these eggs separate the {own.families}"


def verdict_text(
    settings: Sequence[Setting],
    compared: Sequence[Compared],
    p: float | None,
    spread: bool,
    chances: Sequence[float],
    pairs: Sequence[Mapping[str, Any]],
    keeper: Keeper,
    adjusted: str | None = None,
    unknown: int = 0,
) -> str:
    """The verdict of a season, a few sentences, in the keeper's own words. chances and compared go together.

    pairs: as in the report.

    adjusted: what the comparison with settings held alike found, in words. unknown: chicks of no known family.
    """
    own = own_words(keeper)
    if not settings:
        return "No eggs were set in this season."
    if not compared:
        return f"Nothing can be compared yet: every {own.setting} of this season still runs, or its counts do not fit."
    if p is None:
        only = compared[0]
        return (
            f"Only {only.name} has {own.settings} that are over, so there is nothing to compare: {_hatched(only)} "
            "hatched." + _of_no_known(unknown, own)
        )
    ranked = sorted(compared, key=lambda one: (-one.share, one.name, one.id))
    most, least = ranked[0], ranked[-1]
    said = [
        _separated(compared, chances, pairs, p, own) if p <= SEPARATES_BELOW and spread else _alike(compared, p, own)
    ]
    said[0] += _of_no_known(unknown, own)
    said += [adjusted] if adjusted else []
    said += _bound_to_setting(_only_in_one_setting(compared), keeper, own)
    said += _bound_to_age(compared, own)
    said += _bound_to_journey(compared, own)
    needed = eggs_needed(most.share, least.share)
    # Beside many families two may have had enough eggs between themselves, and all together still do not differ.
    if not (p <= SEPARATES_BELOW and spread) and needed is not None and needed > min(most.n, least.n):
        said.append(
            f"If {most.name} and {least.name} really differ as much as here, about {needed} eggs of each would "
            "be needed to show it."
        )
    return " ".join(said)


def _alike(compared: Sequence[Compared], p: float, own: OwnWords) -> str:
    ranked = sorted(compared, key=lambda one: (-one.share, one.name, one.id))
    k, n = sum(one.k for one in compared), sum(one.n for one in compared)
    if ranked[0].share == ranked[-1].share:
        return f"These eggs do not separate the {own.families}. The same share of each hatched, {_percent(k / n)}."
    return (
        f"These eggs do not separate the {own.families}. Most of {ranked[0].name}'s hatched, {_hatched(ranked[0])}, "
        f"fewest of {ranked[-1].name}'s, {_hatched(ranked[-1])}. Had all {own.families}' eggs hatched alike, at "
        f"{_percent(k / n)}, chance alone would set them so far apart in {in_words(p)} such seasons."
    )


def _separated(
    compared: Sequence[Compared],
    chances: Sequence[float],
    pairs: Sequence[Mapping[str, Any]],
    p: float,
    own: OwnWords,
) -> str:
    ranked = sorted(compared, key=lambda one: (-one.share, one.name, one.id))
    most, least = ranked[0], ranked[-1]
    names = {one.id: one.name for one in compared}
    by_chance = sorted(zip(chances, compared, strict=True), key=lambda pair: (-pair[0], pair[1].name, pair[1].id))
    best = ", ".join(f"{one.name} {_percent(chance)}" for chance, one in by_chance[:3])
    apart = [f"{names[pair['a']]} and {names[pair['b']]}" for pair in pairs if pair["p_holm"] <= SEPARATES_BELOW]
    if len(apart) > MOST_PAIRS:
        apart = [*apart[:MOST_PAIRS], f"{len(apart) - MOST_PAIRS} more"]
    said = (
        f"The {own.families}' eggs hatched differently: fewest of {least.name}'s, {_hatched(least)}, most of "
        f"{most.name}'s, {_hatched(most)}. Had all hatched alike, chance would set them so far apart in "
        f"{in_words(p)} such seasons. Chance of having the highest rate: {best}."
    )
    if apart:
        said += f" Apart from each other, pair by pair: {', '.join(apart)}."
    return said + (
        f" These counts cannot say why: cock, hens, age of the eggs and {own.setting} come together with the "
        f"{own.family}."
    )


def _only_in_one_setting(compared: Sequence[Compared]) -> list[Compared]:
    """Families seen in one setting only, in a season that has others."""
    everywhere = {setting.id for one in compared for setting in one.settings}
    return [one for one in compared if len(one.settings) == 1 and len(everywhere) > 1]


def _bound_to_setting(bound: Sequence[Compared], keeper: Keeper, own: OwnWords) -> list[str]:
    """One sentence for all of them, setting by setting."""
    by_setting: dict[tuple[int, str], list[str]] = {}
    for one in bound:
        by_setting.setdefault((one.settings[0].set_at_ms, one.settings[0].id), []).append(one.name)
    told: list[str] = []
    for (at_ms, _), names in sorted(by_setting.items()):
        day = day_told(local_date(instant(at_ms), keeper.zone), keeper.region)
        what = "in one only" if told else f"had eggs in one {own.setting} only"
        told.append(f"{_listed(names)} {what}, that of {day}")
    if not told:
        return []
    return [f"{'; '.join(told)}. Whether the {own.family} or the {own.setting} made a difference cannot be told."]


def _bound_to_age(compared: Sequence[Compared], own: OwnWords) -> list[str]:
    """Families whose eggs were much older or fresher than the rest: what goes together cannot be told apart."""
    told = []
    for one in compared:
        others = [other for other in compared if other is not one]
        ages = [other.age_days for other in others if other.age_days is not None]
        if one.age_days is None or len(ages) < len(others):
            continue
        rest = sum((other.age_days or 0.0) * other.n for other in others) / sum(other.n for other in others)
        if abs(one.age_days - rest) >= AGES_DIFFER_DAYS:
            older = "older" if one.age_days > rest else "fresher"
            told.append(
                f"{one.name}'s eggs were {older} when set, {one.age_days:.0f} days on average, the others' {rest:.0f}"
            )
    if not told:
        return []
    if len(compared) == 2:  # what one was older by, the other was fresher by
        told = told[:1]
    return [f"{'; '.join(told)}: what is a {own.family}'s and what is the eggs' age cannot be told."]


def _bound_to_journey(compared: Sequence[Compared], own: OwnWords) -> list[str]:
    """The one family whose eggs were bought in."""
    bought = [one for one in compared if one.bought_in == 1]
    if len(bought) != 1 or any(one.bought_in > 0 for one in compared if one is not bought[0]):
        return []
    return [
        f"{bought[0].name}'s eggs were bought in, the others' were not: what is the {own.family}'s and what the "
        "journey did cannot be told."
    ]


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _of_no_known(unknown: int, own: OwnWords) -> str:
    if not unknown:
        return ""
    return f" {many(unknown, 'chick')} of unknown {own.family} hatched besides, and no {own.family} counts them."


def _hatched(one: Compared) -> str:
    rate = rate_of(one.k, one.n)
    more = f"; up to {one.open} more" if one.open else ""
    between = f"{_percent(rate.low or 0)} to {_percent(rate.high or 0)}"
    return f"{one.k} of {one.n} ({_percent(one.share)}, likely {between}{more})"


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"
