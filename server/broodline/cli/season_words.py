"""A season as text: what may be said, its families side by side, where eggs were lost, and eggs in groups."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.printing import say, say_table
from broodline.cli.report_words import percent, say_problems
from broodline.trade.counted import many

_LOSSES = {
    "early": "early",
    "mid": "midway",
    "late": "late",
    "internal_pip": "internal pip",
    "external_pip": "external pip",
    "unopened": "not opened",
}
_STEPS = {
    "set": "set",
    "examined": "looked into",
    "fertile": "fertile",
    "hatched": "hatched",
    "alive": "alive now",
    "flock": "grown and kept",
}
_WINDOW = ("first", "median", "last")
_RATES = ("fertility", "hatch_of_set", "hatch_of_fertile")


def say_season(report: Mapping[str, Any], standing: Standing) -> None:
    """The whole season, in a keeper's words."""
    n = report["settings"]
    say(f"Season {report['year']}: {many(n, 'setting')}")
    say()
    say(str(report["verdict"]))
    if report["families"]:
        _say_families(report["families"])
        _say_losses(report["families"])
        _say_funnel(report["funnel"])
    _say_hatches(report["hatches"])
    _say_chicks(report["chick_losses"])
    _say_earlier(report["earlier"])
    for heading, first, rows in _groups(report):
        if len(rows) > 1:
            say()
            say_table(
                (first, "eggs", "fertility", "hatch of set", "hatch of fertile"),
                [(name, row["set"], *(percent(row[rate]) for rate in _RATES)) for name, row in rows],
            )
            say(heading)
    say()
    say(str(report["storage"]["words"]))
    say_problems(report["problems"])


def _say_families(families: Sequence[Mapping[str, Any]]) -> None:
    say()
    say_table(
        (
            "family",
            "set",
            "fertility",
            "hatch of set",
            "hatch of fertile",
            "alive at 7 days",
            "likely rate",
            "chance of highest",
        ),
        [
            (
                family["name"],
                family["set"],
                *(percent(family[rate]) for rate in (*_RATES, "alive_7d")),
                _interval(family["shrunk"]),
                _chance(family["best_probability"]),
            )
            for family in families
        ],
    )
    if any(family["shrunk"]["rate"] is not None for family in families):
        say("Likely rate: hatch of set with all families weighed together; few eggs say little of their own.")


def _say_losses(families: Sequence[Mapping[str, Any]]) -> None:
    over = [family for family in families if family["closing"]["set"]]
    if not over:
        return
    say()
    say("Died in the shell, of eggs in settings that are over:")
    say_table(
        ("family", *_LOSSES.values()),
        [(family["name"], *(family["deaths"][name] for name in _LOSSES)) for family in over],
    )
    for family in over:
        if family["closing"]["short_by"]:
            say(f"{family['name']}: {family['closing']['words']}")


def _say_funnel(steps: Sequence[Mapping[str, Any]]) -> None:
    say()
    say("How far the eggs came: " + ", ".join(f"{step['n']} {_STEPS[step['step']]}" for step in steps) + ".")
    untold = steps[-1]["not_written"]
    if untold:
        say(f"Of {untold} that hatched nobody wrote what became of them: they are neither alive now nor lost.")
    if sold := steps[-1]["sold"]:
        say(f"{many(sold, 'chick')} of these {'was' if sold == 1 else 'were'} sold or given: not lost.")
    running = steps[0]["running"]
    if running:
        say(f"Of those, {running} were set in settings that still run.")


def _say_hatches(hatches: Sequence[Mapping[str, Any]]) -> None:
    if hatches:
        say()
        say_table(
            ("set", "in", "chicks", "first seen, day", "half out, day", "last seen, day"),
            [
                (row["set_on"], row["place_name"] or "", row["hatched"], *(_day(row[f"{at}_h"]) for at in _WINDOW))
                for row in hatches
            ],
        )


def _say_chicks(rows: Sequence[Mapping[str, Any]]) -> None:
    if rows:
        say()
        say("Chicks lost by age; the rate is of those that are past it:")
        say_table(
            ("days", "died", "missing", "culled", "lost"),
            [
                (
                    f"{row['from_days']} to {row['to_days']}",
                    row["died"],
                    row["missing"],
                    row["culled"],
                    percent(row["lost"]),
                )
                for row in rows
            ],
        )


def _say_earlier(rows: Sequence[Mapping[str, Any]]) -> None:
    if rows:
        say()
        say_table(
            ("earlier", "set", "fertility", "hatch of set", "hatch of fertile"),
            [(row["year"], row["set"], *(percent(row[rate]) for rate in _RATES)) for row in rows],
        )


def _day(hours: float | None) -> str:
    return "" if hours is None else f"{hours / 24:.1f}"


def _groups(report: Mapping[str, Any]) -> Iterator[tuple[str, str, list[tuple[str, Mapping[str, Any]]]]]:
    """Heading below, heading of the first column, and rows."""
    ages = [(_age(row), row) for row in report["by_egg_age"]]
    yield (
        f"Commercial flocks lose about {_points(report['by_egg_age'])}: an average of broilers, not of rare breeds.",
        "oldest egg",
        ages,
    )
    yield "Other things differ between machines, too.", "set in", [(row["name"], row) for row in report["by_place"]]
    yield "Other things differ between months, too.", "month", [(row["month"], row) for row in report["by_month"]]
    origins = {"own": "own pens", "bought_in": "bought in"}
    yield (
        "Bought-in eggs have a journey behind them.",
        "eggs from",
        [(origins[row["origin"]], row) for row in report["by_origin"]],
    )


def _age(row: Mapping[str, Any]) -> str:
    low, high = row["from_days"], row["to_days"]
    return "not known" if low is None else f"{low} days or more" if high is None else f"{low} to {high} days"


def _points(rows: Sequence[Mapping[str, Any]]) -> str:
    told = [
        f"{low:.1f} to {high:.1f} points of hatch at {_age(row)}"
        for row in rows
        for low, high in (row["commercial_points"],)
        if low is not None and high is not None
    ]
    return ", ".join(told) or "some points of hatch with each day"


def _interval(rate: Mapping[str, Any]) -> str:
    return (
        ""
        if rate["rate"] is None
        else f"{100 * rate['rate']:.0f} % ({100 * rate['low']:.0f} to {100 * rate['high']:.0f})"
    )


def _chance(probability: float | None) -> str:
    return "" if probability is None else f"{100 * probability:.0f} %"
