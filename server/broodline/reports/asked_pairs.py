"""Birds a keeper names for a plan of pens: those to be used, pairs to go together, pairs never to meet."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from broodline.book.problems import Problem
from broodline.reports.flock_pedigree import FlockBird

Pair = tuple[str, str]
BETWEEN, AFTER = ":", ","


@dataclass(frozen=True, slots=True)
class AskedPairs:
    """By ids, cock first. problems: what was named and is not among the birds to pair."""

    never: frozenset[Pair]
    together: frozenset[Pair]
    must: frozenset[str]
    problems: tuple[Problem, ...]


def names_of(text: str) -> tuple[frozenset[str], frozenset[Pair]]:
    """Single names, and pairs, of a list such as "a,b:c": a bird, and two that are named together.

    >>> names_of("a,b:c")
    (frozenset({'a'}), frozenset({('b', 'c')}))
    """
    parts = [[name.strip() for name in part.split(BETWEEN, 1)] for part in text.split(AFTER)]
    singles = frozenset(part[0] for part in parts if len(part) == 1 and part[0])
    return singles, frozenset((part[0], part[1]) for part in parts if len(part) > 1)


def asked_pairs(
    never: Iterable[Pair],
    together: Iterable[Pair],
    must: Iterable[str],
    cocks: Sequence[FlockBird],
    hens: Sequence[FlockBird],
) -> AskedPairs:
    """The birds meant, each named by its id or by what it is known by, in any letters; pairs either way round."""
    problems: list[Problem] = []
    named = [*cocks, *hens]
    males = {bird.id for bird in cocks}

    def ids(names: Iterable[str]) -> Iterator[str]:
        for name in names:
            meant = [one.id for one in named if one.id == name] or [
                one.id for one in named if one.label.casefold() == name.casefold()
            ]
            if len(meant) == 1:
                yield meant[0]
            else:
                problems.append(_not_one(name, len(meant)))

    def pairs(given: Iterable[Pair]) -> Iterator[Pair]:
        for one, other in sorted(given):
            both = list(ids((one, other)))
            if len(both) < 2:
                continue
            if (both[0] in males) == (both[1] in males):
                problems.append(_not_a_pair(one, other))
            else:
                yield (both[0], both[1]) if both[0] in males else (both[1], both[0])

    return AskedPairs(
        frozenset(pairs(never)), frozenset(pairs(together)), frozenset(ids(sorted(must))), tuple(problems)
    )


def _not_one(name: str, n: int) -> Problem:
    if n == 0:
        remedy = "Name a bird that is here and sexed, by its ring or name as the list of birds shows it."
        return Problem("no_such_bird", None, f"No bird to pair is called {name or 'nothing'}.", remedy)
    return Problem("no_such_bird", None, f"{n} birds to pair are called {name}.", "Name the bird by its id.")


def _not_a_pair(one: str, other: str) -> Problem:
    return Problem(
        "no_such_pair", None, f"{one} and {other} are not a cock and a hen.", "Name one cock and one hen of a pair."
    )
