"""Patterns of punched toe webs: all sixteen, and which of them can be mistaken for another when a web heals.

Webs are the bird's own, seen from behind: left outer and inner, right inner and outer. A pattern is a set of webs.

    >>> [len(patterns()), len(parity_patterns())]
    [16, 7]
    >>> reads_as(frozenset({"LO", "RI"}), [frozenset({"LO"}), frozenset({"RO"})])
    [frozenset({'LO'})]
"""

from collections.abc import Collection, Iterable
from itertools import combinations

WEBS = ("LO", "LI", "RI", "RO")
Pattern = frozenset[str]


def patterns() -> list[Pattern]:
    """All sixteen, by how many webs are punched; the first is none at all, which a missed chick bears too.

    Slocum, The Mating and Breeding of Poultry, c. 1920: sixteen in number.
    """
    return [frozenset(webs) for n in range(len(WEBS) + 1) for webs in combinations(WEBS, n)]


def parity_patterns() -> list[Pattern]:
    """Those with two webs or all four: one web that healed, or was missed, always shows. None at all is left out.

    It protects only where every family's pattern is one of these.
    """
    return [pattern for pattern in patterns() if pattern and len(pattern) % 2 == 0]


def reads_as(pattern: Pattern, in_use: Iterable[Collection[str]]) -> list[Pattern]:
    """The patterns in use that this one becomes when one of its webs heals, or that become this one."""
    return [other for other in map(frozenset, in_use) if len(pattern ^ other) == 1]
