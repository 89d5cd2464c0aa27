"""The one door to a pedigree: who may have begotten whom, in an order that has parents before their chicks.

A bird's parents are pairs (cock, hen, chance); a cock or hen that is not known is None and stands for a fresh founder,
unrelated to every other. What cannot be is a finding, and the rest stays usable: a hen as sire, a parent hatched after
its chick, chances over one, a bird that is its own ancestor.

>>> found = pedigree_of([Recorded("chick", pairs=independent({"cock": 1.0}, {"red": 0.5, "white": 0.5}))])
>>> found.birds, found.completeness["chick"], found.completeness["cock"]
(('chick', 'cock', 'red', 'white'), 1.0, 0.0)
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from itertools import groupby
from typing import Literal, NamedTuple

from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

Code = Literal["sire_is_hen", "dam_is_cock", "parent_younger", "chances_over_one", "own_ancestor"]
_SURE = 1e-9


class Pair(NamedTuple):
    """A cock and a hen that may be the parents, with the chance that they are; None for one that is not known."""

    sire: str | None
    dam: str | None
    chance: float


@dataclass(frozen=True, slots=True)
class Recorded:
    """A bird as it was written down. clutch: eggs of one hen, whichever she was, share a name here."""

    bird: str
    sex: Literal["male", "female", "unknown"] = "unknown"
    hatched_on: str | None = None
    pairs: tuple[Pair, ...] = ()
    clutch: str | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """What cannot be: a code, the bird, and the parent it concerns or None."""

    code: Code
    bird: str
    parent: str | None


class Node(NamedTuple):
    """A bird, or the one unnamed hen of a clutch (bird None: she is one of the dams of her pairs).

    pairs: (position of the sire or -1, position of the dam or -1, chance), chances summing to one.
    """

    bird: str | None
    pairs: tuple[tuple[int, int, float], ...]


@dataclass(frozen=True, slots=True)
class Pedigree:
    """nodes: parents before chicks. position: bird -> its node. completeness: bird -> equivalent generations known."""

    nodes: tuple[Node, ...]
    position: Mapping[str, int]
    completeness: Mapping[str, float]
    findings: tuple[Finding, ...]

    @property
    def birds(self) -> tuple[str, ...]:
        """All birds, in the order of their names."""
        return tuple(sorted(self.position))


def independent(sires: Mapping[str, float], dams: Mapping[str, float]) -> tuple[Pair, ...]:
    """Pairs of candidate cocks and hens that say nothing of each other; what is left to one is not known.

    >>> independent({"cock": 0.75}, {})
    (Pair(sire='cock', dam=None, chance=0.75), Pair(sire=None, dam=None, chance=0.25))
    """
    return tuple(
        Pair(sire, dam, p * q) for sire, p in _with_unknown(sires) for dam, q in _with_unknown(dams) if p * q > 0
    )


def pedigree_of(recorded: Iterable[Recorded]) -> Pedigree:
    """The pedigree of birds, each recorded once; a parent that has no record is a founder."""
    by_bird = {one.bird: one for one in recorded}
    for one in tuple(by_bird.values()):
        for name in _named(one.pairs):
            by_bird.setdefault(name, Recorded(name))
    findings: list[Finding] = []
    pairs = {bird: _possible(by_bird[bird], by_bird, findings) for bird in sorted(by_bird)}
    _break_circles(pairs, findings)
    return _ordered(pairs, _latent(by_bird, pairs), findings)


def places_behind(nodes: Sequence[Node], places: Iterable[int]) -> set[int]:
    """The places from which those at some places descend, themselves included."""
    found: set[int] = set()
    waiting = list(places)
    while waiting:
        place = waiting.pop()
        if place not in found:
            found.add(place)
            waiting.extend(parent for pair in nodes[place].pairs for parent in pair[:2] if parent >= 0)
    return found


def forebears_of(pedigree: Pedigree, places: Iterable[int]) -> tuple[list[Node], dict[int, int]]:
    """The nodes from which those at some places descend, themselves included, and where each of them now stands."""
    order = sorted(places_behind(pedigree.nodes, places))
    moved = {place: at for at, place in enumerate(order)} | {-1: -1}
    nodes = [
        Node(bird, tuple((moved[sire], moved[dam], chance) for sire, dam, chance in pairs))
        for bird, pairs in (pedigree.nodes[place] for place in order)
    ]
    return nodes, moved


def _with_unknown(shares: Mapping[str, float]) -> list[tuple[str | None, float]]:
    rest = 1 - sum(shares.values())
    return [*shares.items(), *([(None, rest)] if rest > _SURE else [])]


def _named(pairs: Iterable[Pair]) -> list[str]:
    return [name for pair in pairs for name in (pair.sire, pair.dam) if name is not None]


def _possible(one: Recorded, by_bird: Mapping[str, Recorded], findings: list[Finding]) -> tuple[Pair, ...]:
    """The pairs that can be, with chances that sum to one."""
    pairs = one.pairs
    total = sum(pair.chance for pair in pairs)
    if total > 1 + 1e-6:
        findings.append(Finding("chances_over_one", one.bird, None))
    pairs = (*pairs, Pair(None, None, 1 - total)) if total < 1 - _SURE else pairs
    refused: dict[str, set[str]] = {"sire": set(), "dam": set()}
    for pair in pairs:
        for side, name in (("sire", pair.sire), ("dam", pair.dam)):
            if name is not None and (code := _contradiction(one, by_bird[name], side)) is not None:
                refused[side].add(name)
                if (finding := Finding(code, one.bird, name)) not in findings:
                    findings.append(finding)
    pairs = _without(pairs, 0, refused["sire"])
    pairs = _without(pairs, 1, refused["dam"])
    return _scaled(pairs)


def _contradiction(chick: Recorded, parent: Recorded, side: str) -> Code | None:
    if side == "sire" and parent.sex == "female":
        return "sire_is_hen"
    if side == "dam" and parent.sex == "male":
        return "dam_is_cock"
    younger = chick.hatched_on and parent.hatched_on and parent.hatched_on[:10] >= chick.hatched_on[:10]
    return "parent_younger" if younger else None


def _without(pairs: Sequence[Pair], side: int, names: set[str]) -> tuple[Pair, ...]:
    """Without impossible parents: their chance goes to the others; where no other is, the parent is not known."""
    kept = tuple(pair for pair in pairs if pair[side] not in names)
    if kept:
        return kept
    return tuple(
        Pair(None, pair.dam, pair.chance) if side == 0 else Pair(pair.sire, None, pair.chance) for pair in pairs
    )


def _scaled(pairs: Iterable[Pair]) -> tuple[Pair, ...]:
    """Doubled pairs added up, and all scaled so that they sum to one."""
    chances: dict[tuple[str | None, str | None], float] = {}
    for sire, dam, chance in pairs:
        chances[sire, dam] = chances.get((sire, dam), 0.0) + chance
    total = sum(chances.values())
    return tuple(Pair(sire, dam, chance / total) for (sire, dam), chance in chances.items() if chance > 0)


def _break_circles(pairs: dict[str, tuple[Pair, ...]], findings: list[Finding]) -> None:
    """Parents that would make a bird its own ancestor are taken as not known."""
    order = {bird: place for place, bird in enumerate(pairs)}
    links = [(order[bird], order[parent]) for bird, of in pairs.items() for parent in _named(of)]
    if not links:
        return
    chicks, parents = zip(*links, strict=True)
    graph = coo_array(([1] * len(links), (chicks, parents)), shape=(len(order), len(order)))
    _, group = connected_components(graph, directed=True, connection="strong")
    looped = sorted({chick for chick, parent in links if group[chick] == group[parent]})
    names = list(pairs)
    for chick in looped:
        bird = names[chick]
        findings.append(Finding("own_ancestor", bird, None))
        circle = {name for name in _named(pairs[bird]) if group[order[name]] == group[chick]}
        pairs[bird] = _scaled(
            Pair(None if sire in circle else sire, None if dam in circle else dam, chance)
            for sire, dam, chance in pairs[bird]
        )


def _latent(by_bird: Mapping[str, Recorded], pairs: Mapping[str, tuple[Pair, ...]]) -> dict[str, str]:
    """Bird -> clutch, for clutches of at least two birds."""
    held = sorted((clutch, bird) for bird in pairs if (clutch := by_bird[bird].clutch) is not None)
    groups = [(clutch, [bird for _, bird in group]) for clutch, group in groupby(held, key=lambda one: one[0])]
    return {bird: clutch for clutch, birds in groups if len(birds) > 1 for bird in birds}


def _ordered(
    pairs: Mapping[str, tuple[Pair, ...]], clutch_of: Mapping[str, str], findings: Sequence[Finding]
) -> Pedigree:
    """Nodes, parents first. In a clutch the cock's chances are taken alike for each hen she may be."""
    hens: dict[str, tuple[Pair, ...]] = {}
    for bird, clutch in clutch_of.items():
        if clutch not in hens:
            hens[clutch] = _scaled(Pair(None, pair.dam, pair.chance) for pair in pairs[bird])
    waits: dict[tuple[bool, str], list[tuple[bool, str]]] = {
        (True, clutch): [(False, name) for name in _named(of)] for clutch, of in hens.items()
    }
    for bird, of in pairs.items():
        names = [pair.sire for pair in of if pair.sire] if bird in clutch_of else _named(of)
        waits[False, bird] = [(False, name) for name in names]
        if bird in clutch_of:
            waits[False, bird].append((True, clutch_of[bird]))
    places: dict[tuple[bool, str] | None, int] = {None: -1}
    nodes: list[Node] = []
    known: list[float] = []
    for key in TopologicalSorter(waits).static_order():
        hidden, name = key
        placed: list[tuple[int, int, float]] = []
        for sire, dam, chance in hens[name] if hidden else _of_clutch(pairs[name], clutch_of.get(name)):
            dam_key = None if dam is None else (not hidden and name in clutch_of, dam)
            placed.append((places[None if sire is None else (False, sire)], places[dam_key], chance))
        places[key] = len(nodes)
        nodes.append(Node(None if hidden else name, tuple(placed)))
        known.append(_generations(placed, known, hidden))
    position = {name: place for key, place in places.items() if key is not None and not key[0] for name in (key[1],)}
    completeness = {bird: known[place] for bird, place in position.items()}
    return Pedigree(tuple(nodes), position, completeness, tuple(findings))


def _of_clutch(pairs: tuple[Pair, ...], clutch: str | None) -> tuple[Pair, ...]:
    return pairs if clutch is None else _scaled(Pair(pair.sire, clutch, pair.chance) for pair in pairs)


def _generations(pairs: Sequence[tuple[int, int, float]], known: Sequence[float], hidden: bool) -> float:
    """Equivalent complete generations: the sum of one half to the power g over known ancestors g generations back.

    For the unnamed hen of a clutch: what a chick counts beyond its half, so that a chick of unknown dams has none.
    """
    if hidden:
        return sum(chance * (1 + known[dam]) for _, dam, chance in pairs if dam >= 0) - 1
    parts = ((chance, parent) for sire, dam, chance in pairs for parent in (sire, dam) if parent >= 0)
    return sum((chance * (1 + known[parent]) / 2 for chance, parent in parts), 0.0)
