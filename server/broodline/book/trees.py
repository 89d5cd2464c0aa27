"""Corrections: entries that amend entries form trees; each tree has one head, and only heads count.

From the root go to the greatest child id at each fork until there is none. A tip off that path is a loser. The result
depends on the set of entries alone, never on their order or on a clock: trees that grew entry by entry are those that
grew at once.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from broodline.book.wire import Entry


@dataclass(frozen=True, slots=True)
class Growth:
    """What more entries changed. trees: roots whose tree is another now, also those that are no root any more.

    renamed: ids that go by another root than before.
    """

    trees: dict[str, None]  # as a set, but in the order they came: that is nearly sorted
    renamed: set[str]


@dataclass(slots=True)
class Trees:
    """by_id: one entry for each id. root_of: the root of each entry's tree (entries of a cycle have none).

    heads: root id -> head entry. clashing: ids that came with more than one content. circular: entries that amend
    themselves, or each other in a ring, and the smallest id of each ring.
    """

    by_id: dict[str, Entry] = field(default_factory=dict)
    root_of: dict[str, str] = field(default_factory=dict)
    heads: dict[str, Entry] = field(default_factory=dict)
    clashing: set[str] = field(default_factory=set)
    circular: list[str] = field(default_factory=list)
    _children: dict[str, list[str]] = field(default_factory=dict)  # by the id they amend, whether it is there or not
    _losers: dict[str, list[str]] = field(default_factory=dict)  # by root, where there are any

    @property
    def losers(self) -> list[str]:
        """Tips off the path to a head."""
        return [loser for losers in self._losers.values() for loser in losers]

    def members(self, root: str) -> Iterator[Entry]:
        """The entries of a tree; an entry of a ring stands alone."""
        branch = [root]
        while branch:
            member = branch.pop()
            yield self.by_id[member]
            if root in self.heads:
                branch.extend(self._children.get(member, ()))

    def grow(self, entries: Iterable[Entry]) -> Growth:
        """Take in more entries, in any order, with any duplicates."""
        by_id, children, root_of, heads = self.by_id, self._children, self.root_of, self.heads
        hanging: list[str] = []
        growth = Growth({}, set())
        trees = growth.trees
        clashed = False
        for entry in entries:
            name = entry.id
            known = by_id.get(name)
            if known is not None:
                clashed = self._clashes(known, entry) or clashed
                continue
            by_id[name] = entry
            if entry.amends is not None:
                children.setdefault(entry.amends, []).append(name)
                hanging.append(name)
            elif name in children:
                hanging.append(name)
            else:  # most entries are never corrected
                root_of[name] = name
                heads[name] = entry
                trees[name] = None
        tops = None if clashed else self._tops(hanging)
        if tops is None:
            return self._grow_anew()
        for top in tops:
            self._grow_from(top, growth)
        return growth

    def _clashes(self, known: Entry, entry: Entry) -> bool:
        """Whether an id came with another content; of several the smallest bytes stand."""
        if known is entry or known.canonical == entry.canonical:
            return False
        self.clashing.add(entry.id)
        self.by_id[entry.id] = min(known, entry, key=lambda one: one.canonical)
        return True

    def _tops(self, hanging: Iterable[str]) -> list[str] | None:
        """The roots of the trees these entries hang in, or None where one hangs in a ring."""
        tops: dict[str, None] = {}
        for name in hanging:
            seen: set[str] = set()
            top = name
            while (above := self.by_id[top].amends) is not None and above in self.by_id:
                seen.add(top)
                top = self.root_of.get(above, above)
                if top in seen:
                    return None
            tops[top] = None
        return list(tops)

    def _grow_from(self, root: str, growth: Growth) -> None:
        head = root
        while head in self._children:
            head = max(self._children[head])
        losers: list[str] = []
        branch = [root]
        while branch:
            member = branch.pop()
            if self.root_of.get(member, member) != root:
                growth.renamed.add(member)
                if self.heads.pop(member, None) is not None:  # it was a root until its target came
                    growth.trees[member] = None
                    self._losers.pop(member, None)
            self.root_of[member] = root
            below = self._children.get(member)
            if below is not None:
                branch.extend(below)
            elif member != head:
                losers.append(member)
        self.heads[root] = self.by_id[head]
        growth.trees[root] = None
        if losers:
            self._losers[root] = losers
        else:
            self._losers.pop(root, None)

    def _grow_anew(self) -> Growth:
        """All trees from nothing: after a clash or a ring, both too rare to be worth more thought."""
        old_roots, old_heads = self.root_of, self.heads
        self.root_of, self.heads, self._losers, self._children = {}, {}, {}, {}
        for entry in self.by_id.values():
            if entry.amends is not None:
                self._children.setdefault(entry.amends, []).append(entry.id)
        growth = Growth(dict.fromkeys(old_heads), set())
        for entry in self.by_id.values():
            if entry.amends is None or entry.amends not in self.by_id:
                self._grow_from(entry.id, growth)
        self.circular = _rings(self.by_id, self.root_of)
        growth.renamed.update(name for name in self.by_id if self.root_of.get(name, name) != old_roots.get(name, name))
        return growth


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
