"""Which of the living birds breed: those that stand in pens, not all that are alive.

A cockerel kept for the pot gives nothing to the next generation, so that counting him would promise too slow a loss of
variety.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from broodline.reports.flock_pedigree import FlockBird
from broodline.reports.pens import Pens, Stay
from broodline.trade.counted import many

Counted = Literal["pens", "last_pens", "living"]
SEASON_DAYS = 365


@dataclass(frozen=True, slots=True)
class Breeders:
    """birds: ids. counted: of the pens that stand, of those of the last year, or all living for want of a pen."""

    birds: frozenset[str]
    cocks: int
    hens: int
    counted: Counted


def breeders_of(pens: Pens, birds: Iterable[FlockBird], today: str) -> Breeders:
    """Of the living birds of one breed. A pen counts where both sexes of them stand in it. today: a local day."""
    living = {bird.id: bird.sex for bird in birds}
    here = {name for name in living if pens.was_here(name, today)}
    year_ago = (date.fromisoformat(today) - timedelta(days=SEASON_DAYS)).isoformat()
    recent = [stay for stay in pens.stays if stay.since <= today and (stay.until is None or stay.until >= year_ago)]
    ways: tuple[tuple[Counted, list[Stay]], ...] = (
        ("pens", [stay for stay in recent if stay.stands_on(today)]),
        ("last_pens", recent),
    )
    for counted, stays in ways:
        found = frozenset(bird for stay in stays for bird in _penned(stay, here))
        if found:
            return _counted(found, living, counted)
    return _counted(frozenset(living), living, "living")


def breeding_words(breeders: Breeders, size: float) -> str:
    """Who is counted as breeding, and what they are worth."""
    birds = f"{many(breeders.cocks, 'cock')} and {many(breeders.hens, 'hen')}"
    told = {
        "pens": f"{birds} stand in the pens",
        "last_pens": f"No pen stands now; {birds} stood in those of the last year",
        "living": f"No pen is written down, so that all {birds} are taken to breed",
    }[breeders.counted]
    return f"{told}: worth {size:.1f} breeders (effective size)." if size else f"{told}."


def other_breeds(kinds: Sequence[str], breed: str | None, what: str) -> list[str]:
    """Birds that are left out since they are of another breed, in words; none where all are of one. kinds: of each.

    >>> other_breeds(["Fen Buff", "Fen Buff", "Brook Grey"], "Fen Buff", "bird")
    ['1 bird of another breed (Brook Grey) is left out here.']
    """
    others = [kind for kind in kinds if kind != breed]
    if not others:
        return []
    names = sorted(set(others))
    of = "another breed" if len(names) == 1 else "other breeds"
    is_are = "is" if len(others) == 1 else "are"
    return [f"{many(len(others), what)} of {of} ({', '.join(names)}) {is_are} left out here."]


def _penned(stay: Stay, here: set[str]) -> set[str]:
    """The birds of a pen that are here; none where cock or hen is missing."""
    sires, dams = (set(side) & here for side in (stay.sires, stay.dams))
    return sires | dams if sires and dams else set()


def _counted(found: frozenset[str], living: Mapping[str, str], counted: Counted) -> Breeders:
    cocks, hens = (sum(living[bird] == sex for bird in found) for sex in ("male", "female"))
    return Breeders(found, cocks, hens, counted)
