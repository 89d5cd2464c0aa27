"""A season's eggs in groups: how far they came, by age when set, by incubator, by month, by where they are from."""

from collections.abc import Callable, Sequence
from typing import Any

from broodline.book.gone_birds import gone_by_lots
from broodline.book.moments import instant
from broodline.book.standing import Setting, Standing
from broodline.reports.season_lots import SeasonLot, egg_age_days
from broodline.reports.season_outcome import group_json
from broodline.reports.unchanged import kept_setting_outcome
from broodline.reports.untold import count_untold
from broodline.trade.calendar import local_date
from broodline.trade.storage import storage_points

_AGES = ((0, 3), (4, 7), (8, 10), (11, 14), (15, None))
_ALIVE = ("hatched", "brooding", "growing", "flock")
_LEFT_ALIVE = ("sold", "given")


def funnel(
    standing: Standing, settings: Sequence[Setting], lots: Sequence[SeasonLot], now_ms: int
) -> list[dict[str, Any]]:
    """How many eggs came how far, running settings included: [{step, n, running, not_written, sold, fewer, away}].

    Steps: set, examined, fertile, hatched, alive (chicks and birds of these eggs now), flock (grown and kept). Without
    examined and fertile where chicks came out of eggs that nobody looked into.
    Settings in which a lot's counts do not fit give their other lots. not_written: of the chicks that hatched, those of
    whom nobody wrote what became of them: in the steps after hatching they are neither here nor lost. sold: sold or
    given away, by batches or as birds known by themselves; neither here nor lost either. fewer: lost since the step
    before, in settings that are over; chicks that are not grown yet are not lost. away: fewer and sold
    in words.
    """
    totals = {step: [0, 0] for step in ("set", "examined", "fertile", "hatched", "alive", "flock")}
    untold = sum(count_untold(lot.lot.moves) for lot in lots if lot.outcome.sound)
    left = _left(standing, lots, now_ms)
    sold = away = 0  # away: neither here nor lost, of settings that are over
    by_setting: dict[str, list[SeasonLot]] = {}
    for lot in lots:
        by_setting.setdefault(lot.setting.id, []).append(lot)
    for setting in settings:
        own = by_setting.get(setting.id, [])
        sound = [lot for lot in own if lot.outcome.sound]
        outcomes = [lot.outcome for lot in sound]
        stages = [lot.lot.stages for lot in sound]
        whole = kept_setting_outcome(setting, [standing.lots[name] for name in setting.lots], now_ms)
        if len(sound) == len(setting.lots) and whole.sound:
            outcomes, stages = [whole], [setting.stages]
        untold_here = sum(count_untold(lot.lot.moves) for lot in sound)
        alive = sum(one.get(stage, 0) for one in stages for stage in _ALIVE)
        gone = left.get(setting.id, [])[: max(0, alive)]
        sold_here = sum(one.get("parted", 0) for one in stages) - untold_here + sum(how in _LEFT_ALIVE for how in gone)
        sold += sold_here
        away += 0 if setting.runs else sold_here + untold_here
        flock = sum(one.get("flock", 0) for one in stages)
        counted = {
            "set": sum(lot.lot.n for lot in sound),
            "examined": sum(outcome.fertility.n for outcome in outcomes),
            "fertile": sum(outcome.fertility.k for outcome in outcomes),
            "hatched": sum(outcome.hatch_of_set.k for outcome in outcomes),
            "alive": alive - len(gone),
            "flock": max(0, flock - len(gone)),
        }
        for step, n in counted.items():
            totals[step][0] += n
            totals[step][1] += n if setting.runs else 0
    if totals["hatched"][0] > totals["fertile"][0]:  # of chicks whose eggs nobody looked into, these steps know nothing
        del totals["examined"], totals["fertile"]
    rows: list[dict[str, Any]] = []
    told: dict[str, Any]
    before = None
    for step, (n, running) in totals.items():
        fewer = 0 if before is None or step == "flock" else before - (n - running) - (away if step == "alive" else 0)
        told = {"not_written": untold, "sold": sold} if step in ("alive", "flock") else {"not_written": 0, "sold": 0}
        words = [f"{fewer} fewer"] * (fewer > 0) + [f"{sold} sold or given"] * (step == "alive" and sold > 0)
        told |= {"fewer": max(0, fewer), "away": ", ".join(words)}
        rows.append({"step": step, "n": n, "running": running, **told})
        before = n - running
    return rows


def _left(standing: Standing, lots: Sequence[SeasonLot], now_ms: int) -> dict[str, list[str]]:
    """Setting -> how each bird of it that was known by itself has left; of several batches only where all are here."""
    setting_of = {lot.lot.id: lot.setting.id for lot in lots if lot.outcome.sound}
    found: dict[str, list[str]] = {}
    for own, gone in gone_by_lots(standing, local_date(instant(now_ms), standing.keeper.zone)).items():
        if setting_of.keys() >= set(own):
            found.setdefault(setting_of[own[0]], []).extend(one.how for one in gone)
    return found


def by_egg_age(lots: Sequence[SeasonLot], zone: str, now_ms: int) -> list[dict[str, Any]]:
    """By the age of a lot's oldest egg on the day it was set: [{from_days, to_days, ...rates}], unknown age last.

    commercial_points: points of hatch that eggs of the youngest and oldest such age lose in commercial flocks.
    """
    rows = []
    ages = [(lot, egg_age_days(lot, zone)) for lot in lots]
    for low, high in _AGES:
        own = [lot for lot, age in ages if _within(age, low, high)]
        if own:
            points = [None if age is None else storage_points(age) for age in (low, high)]
            rows.append({"from_days": low, "to_days": high, "commercial_points": points, **group_json(own, now_ms)})
    unknown = [lot for lot, age in ages if age is None]
    if unknown:
        rows.append(
            {"from_days": None, "to_days": None, "commercial_points": [None, None], **group_json(unknown, now_ms)}
        )
    return rows


def by_place(lots: Sequence[SeasonLot], standing: Standing, now_ms: int) -> list[dict[str, Any]]:
    """By the incubator the eggs were set in: [{place, name, ...rates}]."""

    def named(place: str) -> str:
        known = standing.places.get(place)
        return known.name if known is not None else "unknown place"

    places = sorted({lot.setting.place for lot in lots}, key=lambda place: (named(place), place))
    return [
        {
            "place": place,
            "name": named(place),
            **group_json([lot for lot in lots if lot.setting.place == place], now_ms),
        }
        for place in places
    ]


def by_month(lots: Sequence[SeasonLot], zone: str, now_ms: int) -> list[dict[str, Any]]:
    """By the month of setting in the holding's zone: [{month: "2026-03", ...rates}]."""
    return _grouped("month", lots, now_ms, lambda lot: local_date(instant(lot.setting.set_at_ms), zone)[:7])


def by_origin(lots: Sequence[SeasonLot], now_ms: int) -> list[dict[str, Any]]:
    """Eggs of the own pens and bought-in ones apart: [{origin: "own" or "bought_in", ...rates}]."""
    return _grouped("origin", lots, now_ms, lambda lot: "bought_in" if lot.lot.bought_in else "own")


def _within(age: int | None, low: int, high: int | None) -> bool:
    return age is not None and low <= age and (high is None or age <= high)


def _grouped(
    name: str, lots: Sequence[SeasonLot], now_ms: int, key: Callable[[SeasonLot], str]
) -> list[dict[str, Any]]:
    groups: dict[str, list[SeasonLot]] = {}
    for lot in lots:
        groups.setdefault(key(lot), []).append(lot)
    return [{name: group, **group_json(own, now_ms)} for group, own in sorted(groups.items())]
