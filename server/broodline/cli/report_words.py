"""Reports as text: names in place of ids, percentages in place of fractions, every rate with its interval."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from broodline.book.problems import stage_words
from broodline.book.standing import Standing
from broodline.cli.printing import say, say_table
from broodline.trade.counted import many


def say_due(report: Mapping[str, Any], standing: Standing) -> None:
    """What is due, the earliest first."""
    say(f"On {report['on']}")
    if not report["tasks"]:
        say("Nothing is due.")
        return
    say_table(
        ("when", "what", "where", "why"),
        [
            (
                task["due"] + (" (overdue)" if task["overdue"] else ""),
                task["words"],
                _place(standing, task.get("place")),
                task["why"],
            )
            for task in report["tasks"]
        ],
    )


def say_store(report: Mapping[str, Any], standing: Standing) -> None:
    """Eggs in store by family, with the age of the oldest."""
    say(f"On {report['on']}: {many(report['n'], 'egg')} in store")
    if not report["families"]:
        say("No eggs were gathered yet.")
        return
    rows = [
        (
            family.name if (family := standing.families.get(one["family"])) else "an unknown family",
            one["n"],
            "" if one["oldest_days"] is None else many(one["oldest_days"], "day"),
            one["kept"],
            one["set"],
            one["out"],
        )
        for one in report["families"]
    ]
    say_table(("family", "in store", "oldest", "kept", "set", "sold, eaten, given"), sorted(rows))


def percent(rate: Mapping[str, Any] | None) -> str:
    """A rate with its 95 % interval: 84 % (71 to 92) of 50."""
    if rate is None:
        return ""
    if rate["rate"] is None:
        return f"{rate['k']} of {rate['n']}" if rate["n"] else "not known yet"
    text = f"{100 * rate['rate']:.0f} % ({100 * rate['low']:.0f} to {100 * rate['high']:.0f}) of {rate['n']}"
    more = f", up to {rate['open']} more" if rate.get("open") else ""
    return text + more + (" so far" if rate.get("so_far") else "")


def say_problems(problems: Sequence[Mapping[str, Any]]) -> None:
    """What does not add up, each with what to do."""
    if problems:
        say()
        say("To look at:")
    for words, times in Counter(f"{problem['message']} {problem['remedy']}" for problem in problems).items():
        say(f"- {words}" + (f" ({times} times)" if times > 1 else ""))


def _place(standing: Standing, place: str | None) -> str:
    if place is None:
        return ""
    known = standing.places.get(place)
    return known.name if known is not None else place


def stage_counts(stages: Mapping[str, int], untold: int) -> str:
    """How many are in each stage. untold: of those that left alive, the ones of whom nobody wrote where to."""
    shown = {stage: n - (untold if stage == "parted" else 0) for stage, n in stages.items()}
    told = [f"{n} {stage_words(stage)}" for stage, n in shown.items() if n]
    return ", ".join([*told, *([f"{untold} hatched, then not written of"] if untold else [])])
