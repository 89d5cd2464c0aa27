"""Chicks a brood lost: its first week beside what commercial flocks lose, and the days on which too many died.

Where nobody knows of which lot a chick is gone, the lots it ties together are judged together (`book.tied`).
"""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from broodline.book.hatch_day import whole_days
from broodline.book.moments import DAY_MS, instant
from broodline.book.standing import Lot, Standing
from broodline.book.tied import LIVING, Tied, maybe_lost, most_lost
from broodline.reports.brood_survival import LOST, tied_name
from broodline.reports.first_week import WEEK_MS, left_within_seven_days
from broodline.reports.untold import count_untold
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.trade.losses import (
    FEW,
    TOGETHER,
    WORDS,
    alarm_from,
    alarms,
    first_week,
    first_week_cells,
    first_week_words,
    later_alive_cell,
    later_alive_pct,
    words_for_age,
)
from broodline.trade.proportions import rate_of
from broodline.trade.sources import cell, origin, read_table
from broodline.trade.survival import Fate

_LAST_DAY = 180
"""Alarms speak of growing birds: no day of an older one is judged."""


def first_week_json(
    standing: Standing, lot: Lot, tied: Tied, species: str, born_ms: int | None, now_ms: int
) -> dict[str, Any]:
    """{k, n, rate, low, high, open, culled, words, commercial, advice, together}: the share that died or was lost in
    the first seven days, beside what commercial flocks lose.

    open: up to so many more, not known whose. together: the same of all lots that those tie, with families, else None.
    Nothing is known of chicks that came from elsewhere, and nothing told of counts that cannot be.
    """
    week_ends = None if born_ms is None else born_ms + WEEK_MS
    maybe = maybe_lost(lot, tied)
    within = sum(move.n for move in maybe if week_ends is None or move.at_ms <= week_ends)
    open_ = min(within, most_lost(lot, tied))
    own = _week_json(Tied((lot,), ()), species, now_ms, sound=tied.can_be(lot))
    if open_ and own["rate"] is not None:
        own["words"] += f", and up to {open_} more, not known whose"
        own["advice"] = None
    together = (
        {"families": tied_name(standing, tied), **_week_json(tied, species, now_ms, sound=tied.adds_up)}
        if tied.among
        else None
    )
    return {**own, "open": open_, "together": together}


def _week_json(tied: Tied, species: str, now_ms: int, *, sound: bool) -> dict[str, Any]:
    left, n = (Counter[str](), 0) if tied.lots[0].came else left_within_seven_days(tied.moves, now_ms)
    k = sum(left[how] for how in LOST)
    untold = count_untold(tied.moves) if n == 0 else 0
    rate = rate_of(k, n, sound=sound)
    bounds = first_week_cells(species)
    where = None if rate.rate is None else first_week(species, k, n)
    return {
        **rate.as_json(),
        "culled": left["culled"],
        "words": _few_words(k, n, untold) if sound else "Not told: these counts cannot be.",
        "commercial": None
        if bounds is None
        else {
            "low_pct": bounds[0].value,
            "most_pct": bounds[1].value,
            "where": where,
            "words": first_week_words(species),
            "source": origin(bounds[1]),
        },
        "advice": WORDS["first_week"] if where == "above" and (k > 1 or n >= FEW) else None,
    }


def _few_words(k: int, n: int, untold: int) -> str:
    """How many of how many: below a hundred a percentage would say more than is known."""
    if untold:
        chicks = many(untold, "chick")
        return f"Not known: nobody wrote what became of {chicks} of this batch."
    if n == 0:
        return "Not known yet: no chick of this batch is a week old."
    if n >= FEW:
        return f"{k} of {n}, {100 * k / n:.1f} %"
    return f"{k} of {n}" + ("; one death is no pattern" if k == 1 else "")


def alarms_json(
    standing: Standing, tied: Tied, species: str, born_ms: int, age: int, fates: Sequence[Fate]
) -> list[dict[str, Any]]:
    """[{on, day, died, expected, p, words, think_of, source, families}]; causes that take many at once are left out.

    families: of which lots, where several are judged together. Counts that cannot be alarm nobody.
    """
    if not tied.adds_up:
        return []
    by_chance: Counter[int] = Counter()
    for move in tied.moves:
        if move.target == "died" and move.source in LIVING and move.cause not in TOGETHER:
            by_chance[max(0, whole_days(born_ms, move.at_ms))] += move.n
    days = [
        (day, sum(fate.n for fate in fates if fate.day >= day), by_chance[day])
        for day in range(min(age, _LAST_DAY) + 1)
    ]
    source = origin(cell(read_table("losses")["alarm"]["at_most"]))
    families = tied_name(standing, tied) if tied.among else None
    told = []
    for alarm in alarms(species, days):
        words = WORDS["day_alone" if alarm.expected is None else alarm.kind].format(
            died=alarm.died, expected=expected_words(alarm.expected)
        )
        told.append(
            {
                "on": local_date(instant(born_ms + alarm.on_day * DAY_MS), standing.keeper.zone),
                "day": alarm.on_day,
                "died": alarm.died,
                "expected": alarm.expected,
                "p": alarm.p,
                "words": (f"{families}: " if families else "") + f"{words} {WORDS['call']}",
                "think_of": words_for_age(alarm.on_day).value,
                "source": source,
                "families": families,
            }
        )
    return told


def to_watch_json(species: str, age: int | None, alive: int | None) -> dict[str, Any]:
    """{alarm_from, alive_pct, words: [...], source}: what would be too many in a day, and how many live elsewhere."""
    some = None if age is None or alive is None or age > _LAST_DAY else alarm_from(species, age, alive)
    of100 = None if age is None or age > _LAST_DAY else later_alive_pct(species, age)
    words = []
    if some is not None:
        words.append(WORDS["from"].format(n=some))
    if of100 is not None:
        words.append(WORDS["later"].format(low=f"{of100[0]:.1f}", high=f"{of100[1]:.1f}"))
    source = None if of100 is None else origin(later_alive_cell(species))
    return {"alarm_from": some, "alive_pct": of100, "words": words, "source": source}


def expected_words(expected: float | None) -> str:
    """How many were to be expected, to a tenth; a small share of one chick is not nothing.

    >>> expected_words(0.34), expected_words(0.02), expected_words(0.0996)
    ('about 0.3', 'fewer than 0.1', 'fewer than 0.1')
    """
    if expected is None:
        return ""
    return f"about {expected:.1f}" if expected >= 0.1 else "fewer than 0.1"
