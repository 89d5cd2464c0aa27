"""Young birds to keep and to let go, as text."""

from collections.abc import Mapping
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.printing import say, say_table
from broodline.cli.report_words import say_problems
from broodline.trade.units import to_ounces


def say_choose(report: Mapping[str, Any], standing: Standing) -> None:
    """What to keep and why, each bird beside its own hatch and sex, whose line would end."""
    for words in report["words"]:
        say(f"- {words}")
    if report["birds"]:
        say()
        say_table(
            ("bird", "sex", "weight, against its hatch and sex", "score", "faults", ""),
            [
                (
                    bird["label"],
                    {"male": "cockerel", "female": "pullet", "unknown": "not sexed"}[bird["sex"]],
                    _weight(bird["weight"], standing),
                    "" if bird["score"] is None else f"{bird['score']['total']:g}",
                    ", ".join(bird["faults"]),
                    f"keep: {bird['why']}" if bird["keep"] else "",
                )
                for bird in report["birds"]
            ],
        )
    say_problems(report["problems"])


def _weight(weight: Mapping[str, Any] | None, standing: Standing) -> str:
    if weight is None:
        return "not weighed"
    if weight["above_g"] is None:
        return f"{_mass(weight['mass_g'], standing)}, too few beside it"
    where = "above" if weight["above_g"] >= 0 else "below"
    apart = _mass(abs(weight["above_g"]), standing)
    text = f"{_mass(weight['mass_g'], standing)}, {apart} {where} the mean of {weight['n']}"
    if weight["passed_on_g"] is not None:
        sign = "-" if weight["passed_on_g"] < 0 else "+"
        text += f"; passes on {sign}{_mass(abs(weight['passed_on_g']), standing)}"
    return text


def _mass(grams: float, standing: Standing) -> str:
    return f"{to_ounces(grams):.1f} oz" if standing.keeper.mass == "oz" else f"{grams:.0f} g"
