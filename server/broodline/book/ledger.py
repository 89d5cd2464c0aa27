"""The ledger: heads sorted by kind and by the lots they concern, entered and struck out one by one.

It adds nothing up; it says which lots and settings are to be added up anew.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import cast

from broodline.book.bodies_eggs import Counted, Locked, Looked, Moved
from broodline.book.founding import Founding, foundings_by, unfounded
from broodline.book.mentions import Mentions
from broodline.book.problems import Problem
from broodline.book.standing import Head, Move


@dataclass(slots=True)
class Page:
    """All that heads say about one lot. foundings: by every entry that claims it. among: moves of it or of others."""

    foundings: list[Founding] = field(default_factory=list)
    moves: list[Move] = field(default_factory=list)
    among: list[Move] = field(default_factory=list)
    looks: list[Head] = field(default_factory=list)

    @property
    def is_lot(self) -> bool:
        """Whether it was founded or a move names it; a look alone makes no lot."""
        return bool(self.foundings or self.moves or self.among)


@dataclass(slots=True)
class Changed:
    """What is to be added up anew: kinds of heads, lots, settings, and lots whose family has another name."""

    kinds: set[str] = field(default_factory=set)
    lots: set[str] = field(default_factory=set)
    settings: set[str] = field(default_factory=set)
    families: set[str] = field(default_factory=set)


@dataclass(slots=True)
class Ledger:
    """heads: kind -> root -> head. pages: by lot. among: head id -> its moves among several lots.

    settles: root of a move -> the count it settles. problems: root -> what is wrong with the entry by itself.
    """

    heads: dict[str, dict[str, Head]] = field(default_factory=dict)
    pages: dict[str, Page] = field(default_factory=dict)
    among: dict[str, list[Move]] = field(default_factory=dict)
    settles: dict[str, str] = field(default_factory=dict)
    mentions: Mentions = field(default_factory=Mentions)
    problems: dict[str, list[Problem]] = field(default_factory=dict)
    changed: Changed = field(default_factory=Changed)
    _kind_of: dict[str, str] = field(default_factory=dict)

    def enter(self, head: Head, refer: Callable[[str], str]) -> None:
        """Take up a head that counts."""
        kind = head.kind
        self._kind_of[head.root] = kind
        of_kind = self.heads.get(kind)
        if of_kind is None:
            of_kind = self.heads[kind] = {}
        of_kind[head.root] = head
        self.changed.kinds.add(kind)
        self.mentions.enter(head)
        if kind == "moved":
            self._enter_moves(head)
        elif kind == "looked":
            lot = cast(Looked, head.body).lot
            self._page(lot).looks.append(head)
        elif kind in ("set", "came"):
            self._enter_foundings(head, refer)
        elif kind == "locked":
            self.changed.settings.add(refer(cast(Locked, head.body).setting))
        elif kind == "family":
            self.changed.families.add(head.root)

    def strike(self, root: str, refer: Callable[[str], str]) -> None:
        """Take back what the tree of this root said; nothing where it said nothing."""
        self.problems.pop(root, None)
        kind = self._kind_of.pop(root, None)
        if kind is None:
            return
        head = self.heads[kind].pop(root)
        self.changed.kinds.add(kind)
        self.mentions.strike(head)
        if kind == "moved":
            self._strike_moves(head)
        elif kind == "looked":
            page = self._page(cast(Looked, head.body).lot)
            page.looks = [look for look in page.looks if look.id != head.id]
        elif kind in ("set", "came"):
            for founding in foundings_by(head, refer)[0]:
                page = self._page(founding.lot)
                page.foundings = [one for one in page.foundings if one.by is not head]
            self.changed.settings.add(root)
        elif kind == "locked":
            self.changed.settings.add(refer(cast(Locked, head.body).setting))
        elif kind == "family":
            self.changed.families.add(root)

    def founding(self, lot: str) -> Founding:
        """The founding of a lot that stands: the claim of the smallest identity."""
        claims = self.pages[lot].foundings
        if len(claims) == 1:
            return claims[0]
        return min(claims, key=lambda one: cast(Head, one.by).root) if claims else unfounded(lot)

    def among_in(self, lots: Iterable[str]) -> list[Move]:
        """All moves among several lots that name one of these, in order of time."""
        entries = {move.entry for lot in lots for move in self.pages[lot].among}
        moves = [move for entry in sorted(entries) for move in self.among[entry]]
        return sorted(moves, key=lambda move: (move.at_ms, move.entry))

    def counts(self) -> list[tuple[Head, Counted]]:
        """Every physical count."""
        return [(head, cast(Counted, head.body)) for head in self.heads.get("counted", {}).values()]

    def _page(self, lot: str) -> Page:
        """The page of a lot that is being written on."""
        self.changed.lots.add(lot)
        page = self.pages.get(lot)
        if page is None:
            page = self.pages[lot] = Page()
        return page

    def _enter_foundings(self, head: Head, refer: Callable[[str], str]) -> None:
        foundings, problems = foundings_by(head, refer)
        for founding in foundings:
            self._page(founding.lot).foundings.append(founding)
        if problems:
            self.problems.setdefault(head.root, []).extend(problems)
        self.changed.settings.add(head.root)

    def _enter_moves(self, head: Head) -> None:
        body = cast(Moved, head.body)
        entry, at_ms = head.id, head.at_ms
        shared = (body.why, body.day, body.cause, body.place, bool(body.helped), bool(body.weak))
        among: list[Move] = []
        for move in body.moves:
            if move.lot is not None:
                one = Move(entry, at_ms, move.lot, (), move.from_, move.to, move.n, *shared)
                self._page(move.lot).moves.append(one)
            else:
                lots = tuple(sorted(set(move.among or ())))
                one = Move(entry, at_ms, None, lots, move.from_, move.to, move.n, *shared)
                among.append(one)
                for lot in lots:
                    self._page(lot).among.append(one)
        if among:
            self.among[entry] = among
        if body.settles is not None:
            self.settles[head.root] = body.settles

    def _strike_moves(self, head: Head) -> None:
        for move in cast(Moved, head.body).moves:
            for lot in (move.lot,) if move.lot is not None else set(move.among or ()):
                page = self._page(lot)
                page.moves = [one for one in page.moves if one.entry != head.id]
                page.among = [one for one in page.among if one.entry != head.id]
        self.among.pop(head.id, None)
        self.settles.pop(head.root, None)
