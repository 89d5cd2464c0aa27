"""A season's report as its paper has it: the words and scales that the app's page has (pwa/src/app/words/season.ts).

tests/browser holds the two beside each other.
"""

from collections.abc import Mapping, Sequence
from math import ceil, floor
from typing import Any

from broodline.book.own_words import OwnWords
from broodline.book.told_days import month_told
from broodline.reports.season_compared import species_words
from broodline.reports.season_titles import day_words

MOST_PROBLEMS = 6
"""So many stand on the paper; the book has them all."""
_MOST_TICKS = 4
_STEPS = {
    "set": "set",
    "examined": "judged",
    "fertile": "fertile",
    "hatched": "hatched",
    "alive": "alive now",
    "flock": "grown and kept",
}
_GROUPS = {
    "by_egg_age": "By the oldest egg's age when set",
    "by_place": "By machine",
    "by_month": "By month set",
}


def season_told(report: Mapping[str, Any], own: OwnWords) -> dict[str, Any]:
    """The report with what the template reads besides: words of each step and row, and the ends of each scale."""
    still = f"{own.settings.capitalize()} still running are left out."
    return {
        **report,
        "funnel": [{**step, "words": _STEPS.get(step["step"], step["step"])} for step in report["funnel"]],
        "running": report["funnel"][0]["running"] if report["funnel"] else 0,
        "untold": max((step["not_written"] for step in report["funnel"]), default=0),
        "windows": _windows(report["hatches"]),
        "families": [_family(one) for one in report["families"]],
        "bar_note": f"Dot: what was seen. Bar: where the true rate lies, 95 times in 100. {still}",
        "laying_words": _laying(report["families"]),
        "most_problems": MOST_PROBLEMS,
        "groups": [
            {"title": title, "rows": [{**row, "words": _key(row)} for row in report[group]]}
            for group, title in _GROUPS.items()
            if report[group]
        ],
    }


def _windows(hatches: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """{low, high, marks, rows}: the axis in whole days, those with a tick and its figure; a row for each
    hatch and each species' usual time."""
    rows = [
        {
            "where": f"{one['set_words']}, {one['place_name'] or ''}".removesuffix(", "),
            "first": one["first_h"],
            "half": one["median_h"],
            "last": one["last_h"],
        }
        for one in hatches
    ]
    usual = {one["species"]: one["usual_h"] for one in hatches if one["usual_h"] is not None}
    rows += [
        {"where": f"Usual, {species_words(species).lower()}", "first": first, "half": None, "last": last}
        for species, (first, last) in usual.items()
    ]
    for row in rows:
        row["days"] = f"{day_words(row['first'])} to {day_words(row['last'])}"
    low = floor(min((row["first"] for row in rows), default=0) / 24)
    high = max(low + 1, ceil(max((row["last"] for row in rows), default=0) / 24))
    span = high - low
    marks = range(low, high + 1, ceil(span / _MOST_TICKS))
    return {"low": low, "high": high, "marks": [*marks], "rows": rows}


def _family(one: Mapping[str, Any]) -> dict[str, Any]:
    """over: whether any of its eggs can be judged; else `waiting` says why not."""
    waiting = "still in a machine" if one["running"] else "not known yet"
    return {**one, "over": one["hatch_of_set"]["n"] > 0, "waiting": waiting}


def _laying(families: Sequence[Mapping[str, Any]]) -> str:
    laid = [
        f"{one['name']} {laying['hen_day_pct']:.0f} ({laying['eggs']} in {laying['hen_days']})"
        for one in families
        if (laying := one["laying"]) is not None
    ]
    told = ", ".join(laid)
    return f"Eggs a day from a hundred hens, of eggs in hen days: {told}." if told else ""


def _key(row: Mapping[str, Any]) -> str:
    if "month" in row:
        return month_told(row["month"])
    if "name" in row:
        return str(row["name"])
    low, high = row["from_days"], row["to_days"]
    return "not known" if low is None else f"{low} days and more" if high is None else f"{low} to {high} days"
