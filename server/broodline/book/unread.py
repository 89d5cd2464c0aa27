"""Entries that count nothing because they cannot be read, and all that they name: so that a report can say which of
them may concern its eggs.
"""

from collections.abc import Iterable, Iterator

from broodline.book.problems import Problem
from broodline.book.trees import Trees

COUNT_NOTHING = frozenset({"body", "cycle", "kind_changed", "newer_app"})


def named_by_unread(trees: Trees, problems: Iterable[Problem]) -> dict[str, frozenset[str]]:
    """Entry with such a problem -> its tree's root and every text in the bodies of its tree."""
    unread = {one.entry for one in problems if one.code in COUNT_NOTHING and one.entry is not None}
    root_of = {entry: trees.root_of.get(entry, entry) for entry in unread}
    return {
        entry: frozenset({root, *(text for member in trees.members(root) for text in _texts(member.body))})
        for entry, root in root_of.items()
    }


def _texts(value: object) -> Iterator[str]:
    """Every text in a JSON value, keys left out."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from _texts(part)
    elif isinstance(value, list):
        for part in value:
            yield from _texts(part)
