"""The book's problems that concern certain settings: their own entries and all that was recorded for their eggs.

Entries that cannot be read are judged by what they name. One that names nothing in the book may be about any eggs, so
every report tells of it.
"""

from collections.abc import Collection, Iterable, Sequence

from broodline.book.bodies_eggs import Counted, EggsWeighed, Locked, Looked, Moved
from broodline.book.moments import instant
from broodline.book.own_words import own_words
from broodline.book.problems import Problem
from broodline.book.standing import Head, Setting, Standing
from broodline.book.told_days import day_told
from broodline.trade.calendar import local_date


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
    odd = {standing.root_of.get(problem.entry, problem.entry) for problem in standing.problems if problem.entry}
    roots = names | {
        head.root for kind in kinds for head in standing.heads.get(kind, ()) if head.root in odd and concerns(head)
    }
    unread = _unread_about(standing, settings)
    return tuple(
        problem
        for problem in standing.problems
        if problem.entry is not None
        and (problem.entry in unread or standing.root_of.get(problem.entry, problem.entry) in roots)
    )


def settled_where(standing: Standing, problem: Problem) -> dict[str, str]:
    """{path, where}: the page of the app that settles a problem, and that in words: its own setting's, or the book."""
    setting = standing.settings.get(problem.entry or "")
    if setting is None or problem in standing.problems:
        return {"path": "/book", "where": "Settle it in the book."}
    day = day_told(local_date(instant(setting.set_at_ms), standing.keeper.zone), standing.keeper.region)
    own = own_words(standing.keeper)
    return {"path": f"/setting/{setting.id}", "where": f"Settle it on the page of the {own.setting} of {day}."}


def _unread_about(standing: Standing, settings: Sequence[Setting]) -> set[str]:
    """Entries that cannot be read and name these settings or their eggs; or their places and families; or nothing."""
    if not standing.unread:
        return set()
    every = standing.settings.values()
    eggs, all_eggs = _eggs_of(settings), _eggs_of(every)
    around = _around(standing, settings)
    known = _around(standing, every)
    known |= {head.root for kind in ("bird", "family", "place") for head in standing.heads.get(kind, ())}

    def concerns(texts: Collection[str]) -> bool:
        named = {standing.root_of.get(text, text) for text in texts}
        if named & all_eggs:
            return bool(named & eggs)
        return bool(named & around) if named & known else True

    return {entry for entry, texts in standing.unread.items() if concerns(texts)}


def _eggs_of(settings: Iterable[Setting]) -> set[str]:
    return {name for setting in settings for name in (setting.id, *setting.lots)}


def _around(standing: Standing, settings: Iterable[Setting]) -> set[str | None]:
    """Where the eggs stood and whose they are."""
    return {
        name
        for setting in settings
        for name in (setting.place, setting.locked_place, *(standing.lots[lot].family for lot in setting.lots))
    }
