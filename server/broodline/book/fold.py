"""The fold: any list of entries, in any order, gives the standing. It never raises.

entries -> trees of corrections -> heads that count -> lots founded -> moves and looks added up -> checks.
tests/vectors/fold.json binds it to pwa/src/book/fold.ts.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import cast

from broodline.book.bodies_eggs import Locked, Set
from broodline.book.bodies_flock import Family, Same
from broodline.book.bodies_rooms import Keeper, Place
from broodline.book.checks import check_accounts, check_counts, check_moves, check_names
from broodline.book.founding import found_lots
from broodline.book.heads import read_heads, tree_problems
from broodline.book.moments import moment_ms
from broodline.book.moves import (
    Account,
    close_account,
    enter_looks,
    enter_moves,
    moves_of,
    open_accounts,
    setting_of,
    totals,
)
from broodline.book.problems import Problem, in_order, problem
from broodline.book.standing import Head, Lot, Move, Setting, Standing
from broodline.book.trees import grow_trees
from broodline.book.unread import named_by_unread
from broodline.book.wire import Entry

NO_KEEPER = Keeper.model_construct(holding="", zone="UTC", temperature="C", mass="g", season_starts=1)


def fold(entries: Iterable[Entry]) -> Standing:
    """What any entries add up to. The same set gives the same standing, whatever its order or doubles."""
    trees = grow_trees(entries)
    heads, problems, newer = read_heads(trees)
    problems.extend(tree_problems(trees))
    unread = named_by_unread(trees, problems)

    def refer(name: str) -> str:
        return trees.root_of.get(name, name)

    families = {head.root: cast(Family, head.body) for head in heads.get("family", ())}
    places = {head.root: cast(Place, head.body) for head in heads.get("place", ())}
    foundings, found_problems = found_lots(heads, refer)
    problems.extend(found_problems)
    moves = moves_of(heads.get("moved", ()))
    accounts = open_accounts(foundings, moves)
    among = enter_moves(accounts, moves)
    set_at_ms = {head.root: moment_ms(cast(Set, head.body).set_at) for head in heads.get("set", ())}
    astray = enter_looks(accounts, heads.get("looked", ()), set_at_ms)
    lots = {name: close_account(accounts[name]) for name in sorted(accounts)}
    settings = _settings(heads, lots, _by_setting(accounts, among), refer)

    problems.extend(check_names(heads, families, places, settings, refer))
    problems.extend(check_moves(moves, accounts, lots, families, settings))
    problems.extend(check_accounts(lots, settings, families, astray, heads, refer))
    problems.extend(check_counts(heads, lots, families, refer))
    return Standing(
        _keeper(heads, problems),
        families,
        places,
        settings,
        lots,
        heads,
        trees.root_of,
        _same_birds(heads, refer),
        in_order(problems),
        newer,
        unread,
    )


def _keeper(heads: Mapping[str, tuple[Head, ...]], problems: list[Problem]) -> Keeper:
    named = heads.get("keeper", ())
    if not named:
        return NO_KEEPER
    last = max(named, key=lambda head: head.id)
    problems.extend(problem("several_keepers", head.id) for head in named if head is not last)
    return cast(Keeper, last.body)


def _by_setting(accounts: Mapping[str, Account], among: Iterable[Move]) -> dict[str, list[Move]]:
    found: dict[str, list[Move]] = {}
    for move in among:
        found.setdefault(str(setting_of(accounts, move)), []).append(move)
    return found


def _settings(
    heads: Mapping[str, tuple[Head, ...]],
    lots: Mapping[str, Lot],
    among: Mapping[str, list[Move]],
    refer: Callable[[str], str],
) -> dict[str, Setting]:
    members: dict[str, list[str]] = {}
    for lot in lots.values():
        if lot.setting is not None:
            members.setdefault(lot.setting, []).append(lot.id)
    locked: dict[str, Head] = {}
    for head in heads.get("locked", ()):
        setting = refer(cast(Locked, head.body).setting)
        if setting not in locked or (head.at_ms, head.id) < (locked[setting].at_ms, locked[setting].id):
            locked[setting] = head
    found = {}
    for head in heads.get("set", ()):
        body = cast(Set, head.body)
        own = members.get(head.root, [])
        named = [lot.lot for lot in body.lots if lot.lot in own]
        moved = sorted(among.get(head.root, []), key=lambda move: (move.at_ms, move.entry))
        lock = locked.get(head.root)
        place = None if lock is None else cast(Locked, lock.body).place
        found[head.root] = Setting(
            head.root,
            refer(body.place),
            body.species,
            moment_ms(body.set_at),
            tuple(dict.fromkeys(named)),
            body.lockdown_day,
            body.note,
            None if lock is None else lock.at_ms,
            None if place is None else refer(place),
            totals((lots[lot] for lot in own), moved),
            tuple(moved),
        )
    return found


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
