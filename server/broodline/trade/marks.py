"""Patterns of punched toe webs: all sixteen, and which of them can be mistaken for another when a web heals.

Webs are the bird's own, seen from behind: left outer and inner, right inner and outer. A pattern is a set of webs.

    >>> [len(patterns()), len(parity_patterns())]
    [16, 7]
    >>> reads_as(frozenset({"LO", "RI"}), [frozenset({"LO"}), frozenset({"RO"})])
    [frozenset({'LO'})]

Mirrored in pwa/src/trade/marks.ts over tests/vectors/marks.json.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Risk:
    """What one healed web would do. web: which. heals: of this pattern, or of one in use. reads_as: what it then is;
    nothing at all is a chick that nobody marked."""

    web: str
    heals: Pattern
    reads_as: Pattern


def risks(pattern: Pattern, in_use: Iterable[Collection[str]]) -> list[Risk]:
    """Every way in which one healed web turns this pattern into one in use or into none, or one in use into this one.

    >>> [(risk.web, sorted(risk.reads_as)) for risk in risks(frozenset({"LO", "RI"}), [{"LO"}, {"LI", "RO"}])]
    [('RI', ['LO'])]
    """
    used = {frozenset(one) for one in in_use} - {pattern}
    own = [Risk(web, pattern, pattern - {web}) for web in WEBS if web in pattern]
    others = [Risk(web, pattern | {web}, pattern) for web in WEBS if web not in pattern]
    return [risk for risk in own if risk.reads_as in used or not risk.reads_as] + [
        risk for risk in others if risk.heals in used
    ]


def next_free(in_use: Iterable[Collection[str]]) -> Pattern | None:
    """The pattern to give next: not in use, and none of its webs misleads when it heals. No mark at all is never one.

    Patterns of two webs, then that of four, come first: one healed web then shows by itself. None where every pattern
    left could be mistaken: rings or wing tags tell those chicks apart.
    """
    used = {frozenset(one) for one in in_use}
    fit = [one for one in [*parity_patterns(), *patterns()] if one and one not in used]
    return next((one for one in fit if not risks(one, used)), None)


def binary_sum(pattern: Pattern) -> int:
    """The pattern as a plain binary number, its webs read from left to right as 1, 2, 4, 8.

    One label among those a keeper may choose, never what is kept: published keys give one pattern different numbers.

    >>> binary_sum(frozenset({"LO", "RI"}))
    5
    """
    return sum(1 << at for at, web in enumerate(WEBS) if web in pattern)


def next_free_ring(colours: Iterable[str], in_use: Collection[tuple[str, str]]) -> tuple[str, str] | None:
    """The first colour and leg that nobody wears, or None; both legs of a colour before the next colour.

    >>> next_free_ring(["white", "blue"], {("white", "left")})
    ('white', 'right')
    """
    return next(((colour, leg) for colour in colours for leg in ("left", "right") if (colour, leg) not in in_use), None)
