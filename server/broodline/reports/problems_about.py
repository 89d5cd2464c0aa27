"""The book's problems that concern certain settings: their own entries and all that was recorded for their eggs."""

from collections.abc import Sequence

from broodline.book.bodies_eggs import Counted, EggsWeighed, Locked, Looked, Moved
from broodline.book.problems import Problem
from broodline.book.standing import Head, Setting, Standing


def problems_about(standing: Standing, settings: Sequence[Setting]) -> tuple[Problem, ...]:
    """In the order of the standing's problems. Corrections belong to what they correct."""
    names = {setting.id for setting in settings}
    lots = {lot for setting in settings for lot in setting.lots}

    def concerns(head: Head) -> bool:
        match head.body:
            case Moved(moves=moves):
                return any(lots & {move.lot, *(move.among or ())} for move in moves)
            case Counted(lot=lot):
                return lot in lots
            case Looked(setting=setting, lot=lot):
                return lot in lots or standing.root_of.get(setting, setting) in names
            case Locked(setting=setting) | EggsWeighed(setting=setting):
                return standing.root_of.get(setting, setting) in names
            case _:
                return False

    kinds = ("moved", "counted", "looked", "locked", "eggs_weighed")
    roots = names | {head.root for kind in kinds for head in standing.heads.get(kind, ()) if concerns(head)}
    return tuple(
        problem
        for problem in standing.problems
        if problem.entry is not None and standing.root_of.get(problem.entry, problem.entry) in roots
    )
