"""Dates of a setting that cannot be: each a Problem with the entry. The counts stand all the same."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import cast

from broodline.book.bodies_eggs import Locked
from broodline.book.bodies_rooms import Outage
from broodline.book.moments import DAY_MS, instant, moment_ms
from broodline.book.problems import Problem, problem
from broodline.book.standing import Lot, Setting, Standing
from broodline.book.told_days import day_told
from broodline.reports.readings import root
from broodline.trade.calendar import local_date

WEEK_MS = 7 * DAY_MS


def date_problems(standing: Standing, setting: Setting, lots: Sequence[Lot], now_ms: int) -> list[Problem]:
    """Eggs set long after that was written down; laid after they were set, or last before first; looks and lockdowns
    a day or more before the setting; power cuts that ended before they began.
    """
    return [
        *_set_late(standing, setting, now_ms),
        *_laid(standing, setting, lots),
        *_before_setting(standing, setting, lots),
        *_cuts(standing, setting),
    ]


def _set_late(standing: Standing, setting: Setting, now_ms: int) -> Iterator[Problem]:
    """Nobody writes down a week ahead that eggs are set: a slip in the month or the year. What stands in the book was
    written down by now, whenever it says it was."""
    written_ms = next((head.at_ms for head in standing.heads.get("set", ()) if head.root == setting.id), now_ms)
    if setting.set_at_ms > min(written_ms, now_ms) + WEEK_MS:
        day = day_told(local_date(instant(setting.set_at_ms), standing.keeper.zone), standing.keeper.region)
        yield Problem(
            "set_late",
            setting.id,
            f"These eggs are written as set on {day}, more than a week after that was written down.",
            "Correct the day of setting. Are the month and the year right?",
        )


def _laid(standing: Standing, setting: Setting, lots: Sequence[Lot]) -> Iterator[Problem]:
    set_on = local_date(instant(setting.set_at_ms), standing.keeper.zone)
    said = partial(day_told, region=standing.keeper.region)
    for lot in lots:
        days = [day for day in (lot.laid_from, lot.laid_to) if day is not None]
        name = _family(standing, lot)
        if any(day > set_on for day in days):
            yield Problem(
                "laid_after_setting",
                setting.id,
                f"{name}: eggs were laid on {said(max(days))} and set on {said(set_on)}, before that. Their age is "
                "not known.",
                "Correct the days of laying, or the day of setting.",
            )
        elif days != sorted(days):
            yield Problem(
                "laid_backwards",
                setting.id,
                f"{name}: the first egg was laid on {said(days[0])}, the last on {said(days[1])}, before that.",
                "Correct the days of laying.",
            )


def _before_setting(standing: Standing, setting: Setting, lots: Sequence[Lot]) -> Iterator[Problem]:
    early_ms = setting.set_at_ms - DAY_MS
    for lot in lots:
        yield from (
            problem("before_setting", look.entry, family=_family(standing, lot))
            for look in lot.looks
            if look.at_ms < early_ms
        )
    names = " / ".join(sorted({_family(standing, lot) for lot in lots}))
    yield from (
        problem("before_setting", head.id, family=names)
        for head in standing.heads.get("locked", ())
        if root(standing, cast(Locked, head.body).setting) == setting.id and head.at_ms < early_ms
    )


def _cuts(standing: Standing, setting: Setting) -> Iterator[Problem]:
    here = {setting.place, setting.locked_place}
    for head in standing.heads.get("outage", ()):
        body = cast(Outage, head.body)
        everywhere = not body.places
        if not everywhere and here.isdisjoint(root(standing, name) for name in body.places or ()):
            continue
        if body.until is not None and moment_ms(body.until) < moment_ms(body.from_):
            yield Problem(
                "outage_backwards",
                head.id,
                "This power cut ended before it began, so it is left out.",
                "Correct its beginning or its end.",
            )


def _family(standing: Standing, lot: Lot) -> str:
    family = standing.families.get(lot.family or "")
    return "Unknown family" if family is None else family.name
