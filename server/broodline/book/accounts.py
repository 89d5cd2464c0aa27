"""The accounts: every lot and setting added up, and only those again that new entries concern."""

from collections.abc import Callable, Iterator, Mapping
from itertools import chain
from typing import cast

from broodline.book.bodies_eggs import Locked, Set
from broodline.book.bodies_flock import Family
from broodline.book.checks import FamilyWords, check_astray, check_lot, check_setting, family_words
from broodline.book.founding import Founding
from broodline.book.ledger import Ledger
from broodline.book.moments import moment_ms
from broodline.book.moves import add_up_lot, totals
from broodline.book.problems import Problem
from broodline.book.standing import Head, Lot, Move, Setting

Heads = Mapping[str, tuple[Head, ...]]


class Accounts:
    """foundings, lots: by lot. settings: by identity. Each with the problems found when it was added up."""

    def __init__(self, ledger: Ledger, refer: Callable[[str], str]) -> None:
        self._ledger = ledger
        self._refer = refer
        self.foundings: dict[str, Founding] = {}
        self.lots: dict[str, Lot] = {}
        self._settings: dict[str, Setting] = {}
        self._set_at_ms: dict[str, int] = {}
        self._lot_problems: dict[str, tuple[Problem, ...]] = {}
        self._setting_problems: dict[str, tuple[Problem, ...]] = {}

    def add_up(self, heads: Heads, families: Mapping[str, Family]) -> None:
        """Bring every lot and setting that the ledger names as changed up to date."""
        changed = self._ledger.changed
        lots, settings = self._concerned()
        sets = self._ledger.heads.get("set", {})
        for root in changed.settings:
            if root in sets:
                self._set_at_ms[root] = moment_ms(cast(Set, sets[root].body).set_at)
        words = self.words(families)
        for lot in lots:
            self._add_up_lot(lot, words)
        locked = self._earliest_locks(heads)
        for root in settings:
            if root in sets:
                setting = self._add_up_setting(sets[root], locked.get(root))
                self._settings[root] = setting
                _keep(self._setting_problems, root, tuple(check_setting(setting, self.lots, words)))
            elif self._settings.pop(root, None) is not None:
                self._setting_problems.pop(root, None)
        changed.lots.clear()
        changed.settings.clear()
        changed.families.clear()

    def settings_in_order(self, heads: Heads) -> dict[str, Setting]:
        """Every setting, in order of identity."""
        return {head.root: self._settings[head.root] for head in heads.get("set", ())}

    def problems(self) -> Iterator[Problem]:
        """All that is wrong with lots and settings."""
        return chain(*self._lot_problems.values(), *self._setting_problems.values())

    def words(self, families: Mapping[str, Family]) -> FamilyWords:
        """Says the names of the families that lots belong to."""
        return family_words(self.foundings, families)

    def setting_of(self, move: Move) -> str | None:
        """The one setting that all lots of a move among several stand in, or None."""
        settings = {self.foundings[lot].setting for lot in move.among}
        return next(iter(settings)) if len(settings) == 1 else None

    def _concerned(self) -> tuple[set[str], set[str]]:
        """The lots and settings to be added up; lots that moves name together go together."""
        changed, pages = self._ledger.changed, self._ledger.pages
        lots, settings = set(changed.lots), set(changed.settings)
        if changed.families:
            lots.update(lot for lot, founding in self.foundings.items() if founding.family in changed.families)
        lots.update([other for lot in lots for move in pages[lot].among for other in move.among])
        for lot in lots:
            before = self.foundings.pop(lot, None)
            if pages[lot].is_lot:
                self.foundings[lot] = self._ledger.founding(lot)
            settings.update(one.setting for one in (before, self.foundings.get(lot)) if one and one.setting)
        return lots, settings

    def _add_up_lot(self, name: str, words: FamilyWords) -> None:
        page = self._ledger.pages[name]
        founding = self.foundings.get(name)
        if founding is None:
            self.lots.pop(name, None)
            problems = tuple(check_astray(page))
        else:
            lot = self.lots[name] = add_up_lot(founding, page, self.setting_of, self._set_at_ms)
            problems = tuple(check_lot(lot, page, self.foundings, self._set_at_ms, words, self._refer))
        _keep(self._lot_problems, name, problems)

    def _earliest_locks(self, heads: Heads) -> dict[str, Head]:
        """By setting."""
        locked: dict[str, Head] = {}
        for head in heads.get("locked", ()):
            setting = self._refer(cast(Locked, head.body).setting)
            if setting not in locked or (head.at_ms, head.id) < (locked[setting].at_ms, locked[setting].id):
                locked[setting] = head
        return locked

    def _add_up_setting(self, head: Head, lock: Head | None) -> Setting:
        body = cast(Set, head.body)
        named = dict.fromkeys(lot.lot for lot in body.lots if self.foundings[lot.lot].setting == head.root)
        among = [move for move in self._ledger.among_in(named) if self.setting_of(move) == head.root]
        place = None if lock is None else cast(Locked, lock.body).place
        return Setting(
            head.root,
            self._refer(body.place),
            body.species,
            self._set_at_ms[head.root],
            tuple(named),
            body.lockdown_day,
            body.note,
            None if lock is None else lock.at_ms,
            None if place is None else self._refer(place),
            totals((self.lots[lot] for lot in named), among),
            tuple(among),
        )


def _keep(kept: dict[str, tuple[Problem, ...]], name: str, problems: tuple[Problem, ...]) -> None:
    if problems:
        kept[name] = problems
    else:
        kept.pop(name, None)
