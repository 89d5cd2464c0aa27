"""From trees to heads that count: taken-back ones left out, bodies read strictly, the rest reported."""

from collections.abc import Iterable

from pydantic import ValidationError

from broodline.book.body import holds_more
from broodline.book.kinds import KINDS, VERSION
from broodline.book.moments import happened_ms
from broodline.book.problems import Problem, problem
from broodline.book.standing import Head
from broodline.book.trees import Trees


def read_heads(trees: Trees) -> tuple[dict[str, tuple[Head, ...]], list[Problem], int]:
    """The heads that count, by kind and in order of identity; the problems found; how many come from a newer app."""
    found: dict[str, list[Head]] = {}
    problems: list[Problem] = []
    newer = 0
    for root in sorted(trees.heads):
        entry = trees.heads[root]
        was = trees.by_id[root].kind
        if entry.kind != was:
            problems.append(problem("kind_changed", entry.id, was=was, now=entry.kind))
        elif entry.void:
            continue
        elif entry.v > VERSION or entry.kind not in KINDS:
            newer += 1
            problems.append(problem("newer_app", entry.id))
        else:
            try:
                body = KINDS[entry.kind].model_validate(entry.body)
            except ValidationError as fault:
                problems.append(problem("body", entry.id, kind=entry.kind, field=_first_field(fault)))
                continue
            if entry.more or holds_more(KINDS[entry.kind], entry.body):
                problems.append(problem("newer_fields", entry.id))
            at_ms = happened_ms(entry.at, entry.skew_ms)
            found.setdefault(entry.kind, []).append(Head(root, entry.id, entry.kind, body, at_ms, entry.device))
    return {kind: tuple(found[kind]) for kind in sorted(found)}, problems, newer


def tree_problems(trees: Trees) -> Iterable[Problem]:
    """What is wrong with the trees themselves."""
    yield from (problem("clash", entry) for entry in trees.clashing)
    yield from (problem("cycle", entry) for entry in trees.circular)
    yield from (problem("two_corrections", entry) for entry in trees.losers)


def _first_field(fault: ValidationError) -> str:
    """The alphabetically first field at the top of the body that does not fit ('' where it is the whole body)."""
    return min(str(error["loc"][0]) if error["loc"] else "" for error in fault.errors(include_url=False))
