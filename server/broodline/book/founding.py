"""Which lots there are: eggs named by a setting, and chicks that came as a lot."""

from collections.abc import Callable, Iterable
from typing import NamedTuple, cast

from broodline.book.bodies_eggs import Set
from broodline.book.bodies_flock import Came
from broodline.book.problems import Problem, problem
from broodline.book.stages import START
from broodline.book.standing import Head


class Founding(NamedTuple):
    """How a lot began: where, of which family, how many. by: None where moves name a lot that nobody founded."""

    lot: str
    by: Head | None
    setting: str | None
    family: str | None
    n: int
    start: str
    came: bool
    laid_from: str | None = None
    laid_to: str | None = None
    bought_in: bool = False
    sign: str | None = None


def unfounded(lot: str) -> Founding:
    """For a lot that moves name and nobody founded."""
    return Founding(lot, None, None, None, 0, START, came=False)


def foundings_by(head: Head, refer: Callable[[str], str]) -> tuple[list[Founding], list[Problem]]:
    """The lots that a `set` or `came` entry founds, each once, unless an entry of a smaller identity has founded it."""
    if head.kind == "came":
        return _by_coming(head, refer)
    once: dict[str, Founding] = {}
    problems: list[Problem] = []
    for founding in _by_setting(head, refer):
        if founding.lot in once:
            problems.append(problem("lot_twice", head.id))
        else:
            once[founding.lot] = founding
    return list(once.values()), problems


def _by_setting(head: Head, refer: Callable[[str], str]) -> Iterable[Founding]:
    return (
        Founding(
            lot.lot,
            head,
            head.root,
            refer(lot.family),
            lot.n,
            START,
            came=False,
            laid_from=lot.laid_from,
            laid_to=lot.laid_to,
            bought_in=lot.from_ is not None,
            sign=lot.sign,
        )
        for lot in cast(Set, head.body).lots
    )


def _by_coming(head: Head, refer: Callable[[str], str]) -> tuple[list[Founding], list[Problem]]:
    body = cast(Came, head.body)
    if body.lot is None:
        return [], []
    if body.n is None:
        return [], [problem("lot_without_number", head.id)]
    family = None if body.family is None else refer(body.family)
    return [Founding(body.lot, head, None, family, body.n, body.stage or "brooding", came=True)], []
