"""From trees to heads that count: taken-back ones left out, bodies read strictly, the rest reported."""

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Any

from pydantic import ValidationError

from broodline.book.body import Body
from broodline.book.kinds import KINDS, VERSION
from broodline.book.moments import happened_ms
from broodline.book.problems import Problem, problem
from broodline.book.standing import Head
from broodline.book.trees import Trees
from broodline.book.wire import Entry

NEWER = "newer_app"

# What `model_validate` calls in the end, without its four steps on the way there.
_READERS: Mapping[str, Callable[..., Body]] = MappingProxyType(
    {kind: model.__pydantic_validator__.validate_python for kind, model in KINDS.items()}
)


def read_head(root: str, was: str, entry: Entry) -> tuple[Head | None, Problem | None]:
    """The head of the tree that `root`, an entry of the kind `was`, began: if it counts, and what is wrong with it.

    Nothing of either for one that was taken back.
    """
    kind = entry.kind
    if kind != was:
        return None, problem("kind_changed", entry.id, was=was, now=kind)
    if entry.void:
        return None, None
    if entry.v > VERSION or kind not in _READERS:
        return None, problem(NEWER, entry.id)
    try:
        body, more = read_body(kind, entry.body)
    except ValidationError as fault:
        return None, problem("body", entry.id, kind=kind, field=_first_field(fault))
    head = Head(root, entry.id, kind, body, happened_ms(entry.at, entry.skew_ms), entry.device)
    return head, problem("newer_fields", entry.id) if more or entry.more else None


def read_body(kind: str, written: Mapping[str, Any]) -> tuple[Body, bool]:
    """A body of a known kind, and whether it was written with fields its model does not know, at any depth.

    Raises ValidationError.
    """
    read = _READERS[kind]
    try:
        return read(written, extra="forbid"), False
    except ValidationError:  # perhaps for such fields alone, which are rare
        return read(written), True


def tree_problems(trees: Trees) -> Iterable[Problem]:
    """What is wrong with the trees themselves."""
    yield from (problem("clash", entry) for entry in trees.clashing)
    yield from (problem("cycle", entry) for entry in trees.circular)
    yield from (problem("two_corrections", entry) for entry in trees.losers)


def _first_field(fault: ValidationError) -> str:
    """The alphabetically first field at the top of the body that does not fit ('' where it is the whole body)."""
    return min(str(error["loc"][0]) if error["loc"] else "" for error in fault.errors(include_url=False))
