"""The fold: any list of entries, in any order, gives the standing. It never raises.

entries -> trees of corrections -> heads that count -> the ledger's pages -> lots and settings added up -> checks.
A fold goes on from where it is: more entries change only what they concern, and the standing is the one that all
entries at once would have given. tests/vectors/fold.json binds it to pwa/src/book/fold.ts.
"""

from collections.abc import Callable, Iterable, Mapping
from itertools import chain
from typing import cast

from broodline.book.accounts import Accounts
from broodline.book.bodies_flock import Family, Same
from broodline.book.bodies_rooms import Keeper, Place
from broodline.book.checks import check_counts
from broodline.book.heads import NEWER, read_head, tree_problems
from broodline.book.ledger import Ledger
from broodline.book.marks import check_marks
from broodline.book.problems import Problem, in_order, problem
from broodline.book.standing import Head, Standing
from broodline.book.trees import Trees
from broodline.book.unread import named_by_unread
from broodline.book.wire import Entry

NO_KEEPER = Keeper.model_construct(holding="", zone="UTC", temperature="C", mass="g", season_starts=1)


def fold(entries: Iterable[Entry]) -> Standing:
    """What any entries add up to. The same set gives the same standing, whatever its order or doubles."""
    begun = Fold()
    begun.take(entries)
    return begun.standing()


class Fold:
    """What has been taken in so far, ready for more. One thread at a time; standings given out never change."""

    def __init__(self) -> None:
        self._trees = Trees()
        self._ledger = Ledger()
        self._accounts = Accounts(self._ledger, self._refer)
        self._heads: dict[str, tuple[Head, ...]] = {}

    def __len__(self) -> int:
        """How many entries were taken in, doubles left out."""
        return len(self._trees.by_id)

    def take(self, entries: Iterable[Entry]) -> None:
        """Take in more entries."""
        growth = self._trees.grow(entries)
        changed = growth.trees
        changed.update(dict.fromkeys(self._ledger.mentions.naming(growth.renamed)))
        heads, by_id, ledger = self._trees.heads, self._trees.by_id, self._ledger
        for root in changed:  # all of them first: what stood under one root may stand under another now
            ledger.strike(root, self._refer)
        for root in sorted(changed):
            entry = heads.get(root)
            if entry is None:
                continue
            head, wrong = read_head(root, by_id[root].kind, entry)
            if wrong is not None:
                ledger.problems[root] = [wrong]
            if head is not None:
                ledger.enter(head, self._refer)

    def standing(self) -> Standing:
        """What all entries taken in so far add up to."""
        trees, ledger, accounts = self._trees, self._ledger, self._accounts
        heads = self._sorted_heads()
        families = {head.root: cast(Family, head.body) for head in heads.get("family", ())}
        places = {head.root: cast(Place, head.body) for head in heads.get("place", ())}
        accounts.add_up(heads, families)
        settings = accounts.settings_in_order(heads)
        known: dict[str, Iterable[str]] = {
            "family": families,
            "place": places,
            "setting": settings,
            "bird": [head.root for head in heads.get("bird", ())],
        }
        problems = list(
            chain(
                tree_problems(trees),
                *ledger.problems.values(),
                accounts.problems(),
                ledger.mentions.unknown(known, self._refer),
                check_counts(
                    ledger.counts(),
                    {self._refer(count) for count in ledger.settles.values()},
                    accounts.foundings,
                    accounts.words(families),
                ),
                check_marks(heads, accounts.lots, settings, accounts.words(families)),
            )
        )
        return Standing(
            _keeper(heads, problems),
            families,
            places,
            settings,
            {name: accounts.lots[name] for name in sorted(accounts.lots)},
            heads,
            dict(trees.root_of),
            _same_birds(heads, self._refer),
            in_order(problems),
            sum(found.code == NEWER for own in ledger.problems.values() for found in own),
            named_by_unread(trees, problems),
        )

    def _refer(self, name: str) -> str:
        return self._trees.root_of.get(name, name)

    def _sorted_heads(self) -> dict[str, tuple[Head, ...]]:
        """By kind, each in order of identity; only kinds that changed are sorted again."""
        for kind in self._ledger.changed.kinds:
            found = self._ledger.heads[kind]
            self._heads[kind] = tuple(found[root] for root in sorted(found))
        self._ledger.changed.kinds.clear()
        return {kind: self._heads[kind] for kind in sorted(self._heads) if self._heads[kind]}


def _keeper(heads: Mapping[str, tuple[Head, ...]], problems: list[Problem]) -> Keeper:
    named = heads.get("keeper", ())
    if not named:
        return NO_KEEPER
    last = max(named, key=lambda head: head.id)
    problems.extend(problem("several_keepers", head.id) for head in named if head is not last)
    return cast(Keeper, last.body)


def _same_birds(heads: Mapping[str, tuple[Head, ...]], refer: Callable[[str], str]) -> dict[str, str]:
    """For every bird that goes by several ids, the smallest of them."""
    leader: dict[str, str] = {}

    def lead(bird: str) -> str:
        while leader.get(bird, bird) != bird:
            bird = leader[bird]
        return bird

    for head in heads.get("same", ()):
        body = cast(Same, head.body)
        one, other = lead(refer(body.bird)), lead(refer(body.as_))
        smaller, larger = min(one, other), max(one, other)
        leader[larger] = smaller
        leader.setdefault(smaller, smaller)
        for bird in (refer(body.bird), refer(body.as_)):
            leader.setdefault(bird, smaller)
    return {bird: lead(bird) for bird in sorted(leader)}
