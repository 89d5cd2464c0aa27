"""While the keeper is away: what is due day by day, what runs where, what is done every day."""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.reports.agenda import due
from broodline.reports.setting import setting_report
from broodline.trade.calendar import day_of, local_date, zone_named

MOST_DAYS = 60
_WEEK = timedelta(days=7)


def away_sheet(standing: Standing, first: date, last: date, now: datetime) -> dict[str, Any]:
    """{days: [{on, words, tasks: [{words, why}]}], machines: [{place, holds, day, next}], daily: [words]}.

    first, last: local days, both included, at most 60 days apart. now: aware. What is overdue stands on the first day.
    The agenda looks a week ahead: it is asked again for each week, of the book as it is now.
    """
    last = min(last, first + timedelta(days=MOST_DAYS))
    zone = zone_named(standing.keeper.zone) or UTC
    tasks: dict[tuple[str, str, str], dict[str, Any]] = {}
    at = now
    while True:
        for task in due(standing, at)["tasks"]:
            on = max(task["due"], first.isoformat())
            if on <= last.isoformat():
                tasks.setdefault((task["words"], task["place"] or "", task["due"]), {**task, "on": on})
        at = datetime.combine(at.astimezone(zone).date() + _WEEK, time(0, 1), zone).astimezone(UTC)
        if local_date(at, standing.keeper.zone) > last.isoformat():
            break
    days: dict[str, list[dict[str, Any]]] = {}
    for task in sorted(tasks.values(), key=lambda one: (one["on"], one["at"], one["words"])):
        told = {"words": task["words"], "why": task["why"]}
        if told not in days.setdefault(task["on"], []):
            days[task["on"]].append(told)
    return {
        "days": [{"on": on, "words": _day_words(on), "tasks": found} for on, found in days.items()],
        "machines": _machines(standing, now),
        "daily": _daily(standing),
    }


def _machines(standing: Standing, now: datetime) -> list[dict[str, Any]]:
    found = []
    for setting in sorted(standing.settings.values(), key=lambda one: (one.set_at_ms, one.id)):
        if setting.runs:
            report = setting_report(standing, setting.id, now)
            dates = report["calendar"]
            left = sum(setting.stages.get(stage, 0) for stage in ("set", "locked"))
            today = local_date(now, standing.keeper.zone)
            ahead = [*(("candle", on) for on in dates["candle"])]
            ahead += [("lockdown", dates["lockdown"]), ("first chicks", dates["hatch_from"])]
            coming = [f"{what} {on}" for what, on in ahead if on is not None and on >= today]
            place = standing.places.get(standing.root_of.get(setting.locked_place or setting.place, ""))
            found.append(
                {
                    "place": report["place_name"] if place is None else place.name,
                    "holds": f"{left} {report['species_name'].lower()} eggs",
                    "day": day_of(instant(setting.set_at_ms), now),
                    "next": ", ".join(coming) or "hatching, or to be opened",
                }
            )
    return found


def _daily(standing: Standing) -> list[str]:
    """By what is kept now."""
    lots = standing.lots.values()
    young = sum(max(0, lot.stages.get(stage, 0)) for lot in lots for stage in ("hatched", "brooding", "growing"))
    told = ["Water and feed for all; look at every bird, count the young ones."]
    if young:
        told.append("Brooder: are they spread out, and warm enough? Lamp or plate fast and clear of litter?")
    hand = {one for one, place in standing.places.items() if place.turns == "hand"}
    running = [one for one in standing.settings.values() if one.runs and one.locked_at_ms is None]
    if any(standing.root_of.get(one.place, one.place) in hand for one in running):
        told.append("Turn the eggs that are turned by hand, an odd number of times a day.")
    if running:
        told.append("Machines: read warmth and humidity, fill the water.")
    return told


def _day_words(on: str) -> str:
    return date.fromisoformat(on).strftime("%A, %Y-%m-%d")
