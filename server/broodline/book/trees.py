"""Corrections: entries that amend entries form trees; each tree has one head, and only heads count.

From the root go to the greatest child id at each fork until there is none. A tip off that path is a loser. The result
depends on the set of entries alone, never on their order or on a clock.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from broodline.book.wire import Entry


@dataclass(frozen=True, slots=True)
class Trees:
    """by_id: one entry for each id. root_of: the root of each entry's tree (entries of a cycle have none).

    heads: root id -> head entry. losers: tips off the path to a head. circular: entries that amend themselves, or each
    other in a ring, and the smallest id of each ring. clashing: ids that came with more than one content.
    """

    by_id: Mapping[str, Entry]
    root_of: Mapping[str, str]
    heads: Mapping[str, Entry]
    losers: tuple[str, ...]
    circular: tuple[str, ...]
    clashing: tuple[str, ...]


def grow_trees(entries: Iterable[Entry]) -> Trees:
    """The trees of any collection of entries, in any order, with any duplicates."""
    by_id, clashing = _one_for_each_id(entries)
    children: dict[str, list[str]] = {}
    roots: list[str] = []
    for entry in by_id.values():
        if entry.amends is not None and entry.amends in by_id:
            children.setdefault(entry.amends, []).append(entry.id)
        else:
            roots.append(entry.id)
    root_of: dict[str, str] = {}
    heads: dict[str, Entry] = {}
    losers: list[str] = []
    for root in roots:
        if root not in children:
            root_of[root] = root
            heads[root] = by_id[root]
            continue
        head = root
        while head in children:
            head = max(children[head])
        heads[root] = by_id[head]
        branch = [root]
        while branch:
            member = branch.pop()
            root_of[member] = root
            below = children.get(member)
            if below is not None:
                branch.extend(below)
            elif member != head:
                losers.append(member)
    circular = _rings(by_id, root_of) if len(root_of) < len(by_id) else []
    return Trees(by_id, root_of, heads, tuple(sorted(losers)), tuple(sorted(circular)), tuple(sorted(clashing)))


def _one_for_each_id(entries: Iterable[Entry]) -> tuple[dict[str, Entry], set[str]]:
    by_id: dict[str, Entry] = {}
    clashing: set[str] = set()
    for entry in entries:
        known = by_id.setdefault(entry.id, entry)
        if known is not entry and known.canonical != entry.canonical:
            clashing.add(entry.id)
            by_id[entry.id] = min(known, entry, key=lambda other: other.canonical)
    return by_id, clashing


def _rings(by_id: Mapping[str, Entry], root_of: Mapping[str, str]) -> list[str]:
    """The smallest id of every ring among the entries that hang on no root."""
    smallest: list[str] = []
    seen: set[str] = set()
    for start in by_id:
        if start in root_of or start in seen:
            continue
        walk: list[str] = []
        step = start
        while step not in seen:
            seen.add(step)
            walk.append(step)
            step = str(by_id[step].amends)
        if step in walk:
            smallest.append(min(walk[walk.index(step) :]))
    return smallest
