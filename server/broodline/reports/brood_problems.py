"""What does not add up about the chicks of a lot, and what to mind where lots share a place: said, never blocked."""

from collections import defaultdict
from collections.abc import Iterator

from broodline.book.bodies_eggs import Counted, Looked, Moved
from broodline.book.bodies_flock import Came, Marked, Weighed
from broodline.book.flock_checks import all_problems
from broodline.book.problems import Problem
from broodline.book.standing import Head, Lot, Standing
from broodline.book.tied import tied_to
from broodline.book.together import ages_apart, alike_pairs
from broodline.book.whereabouts import broods


def brood_problems(standing: Standing, lot: Lot, now_ms: int) -> tuple[Problem, ...]:
    """The book's problems with entries about this lot, and about those it is tied to where their counts cannot be; then
    what to mind in the places where its chicks are."""
    tied = tied_to(standing, lot)
    lots = {lot.id} if tied.adds_up else {one.id for one in tied.lots}
    every = all_problems(standing)
    odd = {standing.root_of.get(one.entry, one.entry) for one in every if one.entry}
    kinds = ("moved", "counted", "looked", "marked", "weighed", "came")
    own = {
        head.root
        for kind in kinds
        for head in standing.heads.get(kind, ())
        if head.root in odd and _concerns(head, lots)
    }
    told = [one for one in every if one.entry and standing.root_of.get(one.entry, one.entry) in own]
    others = _sharing(standing).get(lot.id, set())
    alike = {other for one, other in alike_pairs(standing, (lot.id, *sorted(others))) if one == lot.id}
    return (*told, *_together(standing, lot, now_ms, others, alike))


def sharing_problems(standing: Standing, now_ms: int) -> Iterator[Problem]:
    """What to mind of every lot whose chicks share a place with others."""
    sharing = _sharing(standing)
    alike: dict[str, set[str]] = defaultdict(set)
    for one, other in alike_pairs(standing, sorted(name for name, others in sharing.items() if others)):
        alike[one].add(other)
        alike[other].add(one)
    for name, others in sharing.items():
        yield from _together(standing, standing.lots[name], now_ms, others, alike[name] & others)


def _sharing(standing: Standing) -> dict[str, set[str]]:
    """Lot -> the other lots in its places."""
    by_place: dict[str, set[str]] = defaultdict(set)
    for one in broods(standing):
        if one.place is not None:
            by_place[one.place].update(one.lots)
    found: dict[str, set[str]] = defaultdict(set)
    for lots in by_place.values():
        for name in lots:
            found[name] |= lots - {name}
    return found


def _together(standing: Standing, lot: Lot, now_ms: int, others: set[str], alike: set[str]) -> Iterator[Problem]:
    """Other lots in the same place: marked alike, not marked, or of another age."""
    if alike:
        yield _marks_alike(_name(standing, lot), _names(standing, sorted(alike)))
    if any(ages_apart(standing, (lot.id, other), now_ms) for other in others):
        yield _ages_together(_name(standing, lot))


def _marks_alike(family: str, other: str) -> Problem:
    return Problem(
        "marks_alike",
        None,
        f"{family} shares a place with {other}, and their marks do not tell them apart.",
        "Mark the chicks, or keep the batches in places of their own until they are marked.",
    )


def _ages_together(family: str) -> Problem:
    return Problem(
        "ages_together",
        None,
        f"{family} shares a place with chicks a week or more older or younger.",
        "Watch the small ones: they need more heat and are pushed from the feed. Part them where you can.",
    )


def _concerns(head: Head, lots: set[str]) -> bool:
    match head.body:
        case Moved(moves=moves):
            return any(not lots.isdisjoint({move.lot, *(move.among or ())}) for move in moves)
        case Counted(lot=name) | Looked(lot=name) | Marked(lot=name) | Weighed(lot=name) | Came(lot=name):
            return name in lots
        case _:
            return False


def _name(standing: Standing, lot: Lot) -> str:
    family = standing.families.get(lot.family or "")
    return family.name if family is not None else "?"


def _names(standing: Standing, lots: list[str]) -> str:
    return " / ".join(sorted({_name(standing, standing.lots[lot]) for lot in lots}))
