"""Problems: what does not add up in the book, said in words, never refused and never raised."""

import re
from dataclasses import dataclass

from broodline.trade.sources import read_table

_TABLE = read_table("problems")
_NAME = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, slots=True)
class Problem:
    """Something a keeper should look at.

    code: a stable word for programs. entry: the id of the entry it is about, or None. message: what does not add up.
    remedy: what to do.
    """

    code: str
    entry: str | None
    message: str
    remedy: str

    def as_json(self) -> dict[str, str | None]:
        """The problem as reports and the phone show it."""
        return {"code": self.code, "message": self.message, "entry": self.entry, "remedy": self.remedy}


def problem(code: str, entry: str | None, **names: str | int) -> Problem:
    """A problem in the words of trade/tables/problems.json, with its names filled in."""
    words = _TABLE["problems"][code]
    message = _NAME.sub(lambda found: str(names[found[1]]), words["message"])
    return Problem(code, entry, message, words["remedy"])


def stage_words(stage: str) -> str:
    """A stage in plain words; one this version does not know keeps its own name."""
    return str(_TABLE["stages"].get(stage, stage))


def in_order(problems: list[Problem]) -> tuple[Problem, ...]:
    """Problems without doubles, by code, entry, message: an order that depends on the set of entries alone."""
    return tuple(sorted(set(problems), key=lambda found: (found.code, found.entry or "", found.message)))
