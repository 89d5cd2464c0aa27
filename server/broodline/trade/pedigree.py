"""The one door to a pedigree: who may have begotten whom, in an order that has parents before their chicks.

A bird's parents are pairs (cock, hen, chance); a cock or hen that is not known is None and stands for a fresh founder,
unrelated to every other. What cannot be is a finding, and the rest stays usable: a hen as sire, a parent hatched after
its chick, chances over one, a bird that is its own ancestor.

>>> found = pedigree_of([Recorded("chick", pairs=independent({"cock": 1.0}, {"red": 0.5, "white": 0.5}))])
>>> found.birds, found.completeness["chick"], found.completeness["cock"]
(('chick', 'cock', 'red', 'white'), 1.0, 0.0)
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from itertools import groupby
from typing import Literal, NamedTuple

from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

Code = Literal["sire_is_hen", "dam_is_cock", "parent_younger", "chances_over_one", "own_ancestor"]
_SURE = 1e-9
_Key = tuple[bool, str]
"""Whether it is the unnamed hen of a clutch, and the name of bird or clutch."""


class Pair(NamedTuple):
    """A cock and a hen that may be the parents, with the chance that they are; None for one that is not known."""

    sire: str | None
    dam: str | None
    chance: float


_Pairs = Mapping[str, tuple[Pair, ...]]


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
    clutch_of = _latent(by_bird)
    hens = _hens(pairs, clutch_of)
    doubted = {bird for bird in clutch_of if not _dams(pairs[bird]) and _dams(by_bird[bird].pairs)}
    _break_circles(pairs, clutch_of, hens, doubted, findings)
    return _ordered(pairs, clutch_of, hens, findings)


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


def _latent(by_bird: Mapping[str, Recorded]) -> dict[str, str]:
    """Bird -> clutch, for clutches of at least two birds."""
    many = Counter(one.clutch for one in by_bird.values())
    return {bird: one.clutch for bird, one in by_bird.items() if one.clutch is not None and many[one.clutch] > 1}


def _dams(pairs: Iterable[Pair]) -> set[str]:
    return {pair.dam for pair in pairs if pair.dam is not None}


def _hens(pairs: _Pairs, clutch_of: Mapping[str, str]) -> dict[str, tuple[Pair, ...]]:
    """Clutch -> the hens it may be of. One that cannot be the mother of a chick is not that of its siblings.

    A chick that none of the hens can have laid says nothing of the others' mother: its own day may be mistyped. Where
    the chicks agree on no hen, each tells as much as any other.
    """
    found: dict[str, tuple[Pair, ...]] = {}
    for clutch, birds in groupby(
        sorted(clutch_of, key=lambda bird: (clutch_of[bird], bird)), key=clutch_of.__getitem__
    ):
        told = [_scaled(Pair(None, dam, chance) for _, dam, chance in pairs[bird]) for bird in birds]
        told = [of for of in told if _dams(of)] or told[:1]
        agreed = set.intersection(*({pair.dam for pair in of} for of in told))
        every = [pair for of in told for pair in of]
        found[clutch] = _scaled([pair for pair in every if pair.dam in agreed] or every)
    return found


def _break_circles(
    pairs: dict[str, tuple[Pair, ...]],
    clutch_of: dict[str, str],
    hens: _Pairs,
    doubted: set[str],
    findings: list[Finding],
) -> None:
    """Parents that would make a bird its own ancestor are taken as not known; if it is its clutch's hen, any mother.

    First doubted chicks, whose hen was refused for themselves, leave a clutch whose hen descends from them.
    """
    group = _looped(pairs, clutch_of, hens)
    for bird in sorted(doubted):
        if group.get((True, clutch_of[bird]), -1) == group.get((False, bird)):
            del clutch_of[bird]
    group = _looped(pairs, clutch_of, hens)
    for bird in sorted(name for hidden, name in group if not hidden):
        findings.append(Finding("own_ancestor", bird, None))
        circle = {name for name in _named(pairs[bird]) if group.get((False, name)) == group[False, bird]}
        if group.get((True, clutch_of.get(bird, ""))) == group[False, bird]:
            del clutch_of[bird]
            circle |= _dams(pairs[bird])
        pairs[bird] = _scaled(
            Pair(None if sire in circle else sire, None if dam in circle else dam, chance)
            for sire, dam, chance in pairs[bird]
        )


def _looped(pairs: _Pairs, clutch_of: Mapping[str, str], hens: _Pairs) -> dict[_Key, int]:
    """Birds and clutches that stand in a circle, with the number of their circle."""
    waits = _waits(pairs, clutch_of, hens)
    order = {key: place for place, key in enumerate(waits)}
    links = [(order[key], order[parent]) for key, of in waits.items() for parent in of]
    if not links:
        return {}
    graph = coo_array(([1] * len(links), tuple(zip(*links, strict=True))), shape=(len(order), len(order)))
    _, group = connected_components(graph, directed=True, connection="strong")
    looped = {place for link in links if group[link[0]] == group[link[1]] for place in link}
    return {key: int(group[place]) for key, place in order.items() if place in looped}


def _waits(pairs: _Pairs, clutch_of: Mapping[str, str], hens: _Pairs) -> dict[_Key, list[_Key]]:
    """Each bird and each clutch's hen with the parents that come before it."""
    waits: dict[_Key, list[_Key]] = {(True, name): [(False, dam) for dam in _named(of)] for name, of in hens.items()}
    for bird, of in pairs.items():
        if bird in clutch_of:
            waits[False, bird] = [*((False, pair.sire) for pair in of if pair.sire), (True, clutch_of[bird])]
        else:
            waits[False, bird] = [(False, name) for name in _named(of)]
    return waits


def _ordered(pairs: _Pairs, clutch_of: Mapping[str, str], hens: _Pairs, findings: Sequence[Finding]) -> Pedigree:
    """Nodes, parents first. In a clutch the cock's chances are taken alike for each hen she may be."""
    places: dict[_Key | None, int] = {None: -1}
    nodes: list[Node] = []
    known: list[float] = []
    for key in TopologicalSorter(_waits(pairs, clutch_of, hens)).static_order():
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
