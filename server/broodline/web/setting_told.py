"""A setting's report as its paper has it: the finding of each part, and chicks whose family nobody knows."""

from collections.abc import Mapping, Sequence
from typing import Any

from broodline.book.own_words import OwnWords
from broodline.reports.season_titles import losses_title, percent
from broodline.trade.counted import many


def setting_told(report: Mapping[str, Any], own: OwnWords) -> dict[str, Any]:
    """The report with {titles: {families, deaths}, unknown, unknown_deaths}. unknown: chicks of no known family."""
    lots, total = report["lots"], report["total"]
    unknown = total["hatch_of_set"]["k"] - sum(lot["hatch_of_set"]["k"] for lot in lots)
    deaths = {age: n - sum(lot["deaths"][age] for lot in lots) for age, n in total["deaths"].items()}
    return {
        **report,
        "titles": {"families": _families(report, own), "deaths": _deaths(total["deaths"])},
        "unknown": max(0, unknown),
        "unknown_deaths": {age: max(0, n) for age, n in deaths.items()},
    }


def _families(report: Mapping[str, Any], own: OwnWords) -> str:
    """Of how many eggs a chick hatched, from the lowest to the highest rate."""
    total = report["total"]["hatch_of_set"]
    if report["so_far"]:
        eggs = many(total["n"], "egg")
        return f"{many(total['k'], 'chick')} out of {eggs} so far" if total["k"] else f"No chick is out of {eggs} yet"
    rated: Sequence[Mapping[str, Any]] = [lot for lot in report["lots"] if lot["hatch_of_set"]["rate"] is not None]
    if not rated:
        return f"How many hatched is not known of any {own.family}"
    ranked = sorted(rated, key=lambda lot: lot["hatch_of_set"]["rate"])
    low, high = (
        f"{percent(lot['hatch_of_set']['rate'])} ({lot['family_name'] or 'unknown'})" for lot in (ranked[0], ranked[-1])
    )
    return f"Hatched, of those set: {low if low == high else f'{low} to {high}'}"


def _deaths(deaths: Mapping[str, int]) -> str:
    """Eggs that nobody opened are told apart: they may as well have been clear."""
    unopened = deaths["unopened"]
    opened = {age: n for age, n in deaths.items() if age != "unopened"}
    if not unopened:
        return losses_title([{"deaths": opened}])
    said = f"{many(unopened, 'egg')} that did not hatch {'was' if unopened == 1 else 'were'} not opened"
    return f"{losses_title([{'deaths': opened}])}; {said}" if any(opened.values()) else said
