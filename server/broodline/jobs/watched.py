"""A standing that notes what a report reads of it, so that its answer is renewed only where that has changed.

What a report depends on is not declared, which could be forgotten, but seen: a report is a function of the standing it
is handed and of now. Of each table of the standing the keys it asked for are noted, or that it went through all of it.
The fold hands out the very same part until an entry concerns it, so comparing is cheap. The keeper, the problems and
how many entries are of a newer app count as read by every report: they are no tables, and change seldom.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

from broodline.book.standing import Standing

_ABSENT = object()
_TABLES = tuple(field.name for field in fields(Standing) if field.name not in ("keeper", "problems", "newer"))


class Noted(Mapping[str, Any]):
    """A table that notes which of its keys were read; `whole`: all of them, in their order."""

    __slots__ = ("_table", "keys_read", "whole")

    def __init__(self, table: Mapping[str, Any]) -> None:
        self._table = table
        self.keys_read: dict[str, Any] = {}
        self.whole = False

    def __getitem__(self, key: str) -> Any:
        found = self.keys_read[key] = self._table.get(key, _ABSENT)
        if found is _ABSENT:
            raise KeyError(key)
        return found

    def __contains__(self, key: object) -> bool:
        return isinstance(key, str) and self.get(key, _ABSENT) is not _ABSENT

    def __iter__(self) -> Iterator[str]:
        self.whole = True
        return iter(self._table)

    def __len__(self) -> int:
        self.whole = True
        return len(self._table)

    def is_as_in(self, table: Mapping[str, Any]) -> bool:
        """Whether all that was read of it stands alike in another."""
        if self.whole:
            return self._table is table or (self._table == table and [*self._table] == [*table])
        return all(_alike(value, table.get(key, _ABSENT)) for key, value in self.keys_read.items())


@dataclass(frozen=True, slots=True)
class Reading:
    """A standing to hand to a report, and what the report then read of it."""

    standing: Standing
    tables: Mapping[str, Noted]

    def holds_for(self, other: Standing) -> bool:
        """Whether a report that read this would read the same in another standing, and so answer the same."""
        mine = self.standing
        always = mine.keeper == other.keeper and mine.newer == other.newer and mine.problems == other.problems
        return always and all(noted.is_as_in(getattr(other, name)) for name, noted in self.tables.items())


def watched(standing: Standing) -> Reading:
    """The standing with its tables noting what is read of them."""
    tables = {name: Noted(getattr(standing, name)) for name in _TABLES}
    changed: Any = tables
    return Reading(replace(standing, **changed), tables)


def _alike(one: Any, other: Any) -> bool:
    return one is other or bool(one == other)
