"""One thing to do, as the agenda and what it is made of hand it on."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from broodline.reports.shells import Shells


def added(one: int | None, other: int | None) -> int | None:
    """So many and so many; None where nobody can say of one of them."""
    return None if one is None or other is None else one + other


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do.

    setting: None for chicks that came as a lot, and for a machine. at: from when, UTC. day: of incubation, or since
    chicks came. n: eggs or chicks, None where nobody can say how many. since: a care on that date or later makes it
    done. due: the date it is due, in the holding's zone; watching the hatch is due every day anew. lot: where it is
    about the chicks of one. shells: what can be seen through them on a first candling. figure: in words, for the task
    "heat" the band to turn to or the days on which heat ends, for "grit" its size, for "air" how long it is silent.
    says: which of the task's words, where they are not the usual ones: heat by the chicks alone, or that it may come
    off. plan: for the task "set", the note that holds the plan; it has no setting yet, and place "" unless decided.
    lots: all whose chicks it is about, also where it is a chore of their place.
    """

    task: str
    setting: str | None
    place: str
    at: datetime
    day: int
    n: int | None
    since: str
    due: str
    lot: str | None = None
    shells: Shells = "plain"
    figure: str = ""
    says: Literal["words", "words_chicks", "words_off"] = "words"
    plan: str | None = None
    lots: tuple[str, ...] = ()
