"""Which lots there are: eggs named by a setting, and chicks that came as a lot."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import cast

from broodline.book.bodies_eggs import Set
from broodline.book.bodies_flock import Came
from broodline.book.problems import Problem, problem
from broodline.book.stages import START
from broodline.book.standing import Head


@dataclass(frozen=True, slots=True)
class Founding:
    """How a lot began: where, of which family, how many, in which stage."""

    lot: str
    setting: str | None
    family: str | None
    n: int
    start: str
    came: bool
    laid_from: str | None = None
    laid_to: str | None = None
    bought_in: bool = False
    sign: str | None = None


def found_lots(
    heads: Mapping[str, tuple[Head, ...]], refer: Callable[[str], str]
) -> tuple[dict[str, Founding], list[Problem]]:
    """Every lot with its founding; a lot named by two entries belongs to the one of the smaller identity."""
    foundings: dict[str, Founding] = {}
    problems: list[Problem] = []
    for head in sorted((*heads.get("set", ()), *heads.get("came", ())), key=lambda one: one.root):
        begun = _of_setting(head, refer) if head.kind == "set" else _of_coming(head, refer, problems)
        here: set[str] = set()
        for founding in begun:
            if founding.lot in here:
                problems.append(problem("lot_twice", head.id))
            elif founding.lot in foundings:
                problems.append(problem("lot_in_two_settings", head.id))
            else:
                foundings[founding.lot] = founding
            here.add(founding.lot)
    return foundings, problems


def _of_setting(head: Head, refer: Callable[[str], str]) -> list[Founding]:
    body = cast(Set, head.body)
    return [
        Founding(
            lot.lot,
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
        for lot in body.lots
    ]


def _of_coming(head: Head, refer: Callable[[str], str], problems: list[Problem]) -> list[Founding]:
    body = cast(Came, head.body)
    if body.lot is None:
        return []
    if body.n is None:
        problems.append(problem("lot_without_number", head.id))
        return []
    family = None if body.family is None else refer(body.family)
    return [Founding(body.lot, None, family, body.n, body.stage or "brooding", came=True)]
