"""The book's problems that concern certain settings: their own entries and all that was recorded for their eggs."""

from collections.abc import Sequence
from typing import cast

from broodline.book.bodies_eggs import Counted, EggsWeighed, Locked, Looked
from broodline.book.problems import Problem
from broodline.book.standing import Setting, Standing


def problems_about(standing: Standing, settings: Sequence[Setting]) -> tuple[Problem, ...]:
    """In the order of the standing's problems. Corrections belong to what they correct."""
    names = {setting.id for setting in settings}
    lots = {lot for setting in settings for lot in setting.lots}
    entries = set(names)
    for setting in settings:
        entries.update(move.entry for move in setting.among)
        for lot in (standing.lots[name] for name in setting.lots):
            entries.update(move.entry for move in lot.moves)
            entries.update(look.entry for look in lot.looks)
    for head in standing.heads.get("counted", ()):
        if cast(Counted, head.body).lot in lots:
            entries.add(head.id)
    for kind in ("looked", "locked", "eggs_weighed"):
        for head in standing.heads.get(kind, ()):
            body = cast(Looked | Locked | EggsWeighed, head.body)
            if standing.root_of.get(body.setting, body.setting) in names:
                entries.add(head.id)
    roots = {standing.root_of.get(entry, entry) for entry in entries}
    return tuple(
        problem
        for problem in standing.problems
        if problem.entry is not None and standing.root_of.get(problem.entry, problem.entry) in roots
    )
