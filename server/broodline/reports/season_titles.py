"""The finding of each part of a season, in one line: for the page and the paper alike. Several species stand apart."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from broodline.book.own_words import OwnWords
from broodline.reports.season_compared import Comparison, pairs_of, species_words
from broodline.reports.setting_summary import DEATH_WORDS
from broodline.reports.verdict import SEPARATES_BELOW
from broodline.trade.counted import many

_GROUPS = {"by_egg_age": "by egg age", "by_place": "by machine", "by_month": "by month"}
LEAST_P = 0.001

Rows = Sequence[Mapping[str, Any]]


def season_titles(
    report: Mapping[str, Any], comparisons: Sequence[Comparison], species_of: Mapping[str, str], own: OwnWords
) -> dict[str, str]:
    """{headline, under, families, funnel, windows, compared, losses, chicks, groups, earlier} of an answer.

    headline: the finding of the season; under: the verdict without what the headline has said. species_of: by family.
    """
    headline, under = _headline(report, comparisons)
    families = report["families"]
    by_species = _by_species(families, lambda one: species_of[one["family"]])
    several = len(by_species) > 1
    return {
        "headline": headline,
        "under": under,
        "families": _families(by_species, several, own),
        "funnel": _funnel(report["funnel"]),
        "windows": _windows(report["hatches"], several),
        "compared": _compared(comparisons, several),
        "losses": losses_title(families),
        "chicks": _chicks(report["chick_losses"]),
        "groups": _groups(report),
        "earlier": _earlier(report["against"], several),
    }


def labels(families: Rows) -> dict[str, str]:
    """Family -> its name, with the species where that is another than most families'."""
    count = Counter(one["species"] for one in families)
    usual = max(count, key=lambda one: (count[one], one), default="")
    other = {
        one["family"]: f" ({species_words(one['species']).lower()})" for one in families if one["species"] != usual
    }
    return {one["family"]: one["name"] + other.get(one["family"], "") for one in families}


def _headline(report: Mapping[str, Any], comparisons: Sequence[Comparison]) -> tuple[str, str]:
    """Headline, and the verdict without it. Two families are named only where the season's eggs separate just them."""
    verdict = report["verdict"]
    if report["settings"] == 0:
        return f"No eggs were set in season {report['year']}", verdict
    first = comparisons[0] if comparisons else None
    name = f"{species_words(first.species)}: " if first is not None and len(comparisons) > 1 else ""
    said = _first_part(verdict.removeprefix(name))
    under = name + verdict.removeprefix(name).removeprefix(f"{said}. ")
    if first is not None and first.p is not None and first.p <= SEPARATES_BELOW and first.spread:
        ranked = sorted(first.compared, key=lambda one: (one.share, one.name, one.id))
        ends = {ranked[0].id, ranked[-1].id}
        pair = next((one for one in pairs_of(first) if {one["a"], one["b"]} == ends), None)
        if pair is not None and pair["p_holm"] <= SEPARATES_BELOW:
            said, under = f"Fewer of {ranked[0].name}'s eggs hatched than of {ranked[-1].name}'s", verdict
    return f"{name}{_small(name, said)}", under


def _small(before: str, said: str) -> str:
    return said[:1].lower() + said[1:] if before else said


def _first_part(verdict: str) -> str:
    """Up to the first colon, bracket or end of a sentence."""
    ends = [at for mark in (": ", ". ", " (") if (at := verdict.find(mark)) > 0]
    return verdict[: min(ends)] if ends else verdict.removesuffix(".")


def _by_species(rows: Iterable[Mapping[str, Any]], of: Callable[[Mapping[str, Any]], str]) -> dict[str, Rows]:
    found: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        found.setdefault(of(row), []).append(row)
    return dict(sorted(found.items()))


def _families(by_species: Mapping[str, Rows], several: bool, own: OwnWords) -> str:
    told = []
    for species, rows in by_species.items():
        parts = [
            f"{words} {span}"
            for rate, words in (("fertility", "fertile"), ("hatch_of_fertile", "hatched of the fertile"))
            if (span := _span(rows, rate))
        ]
        if parts:
            told.append((f"{species_words(species)}: " if several else "") + "; ".join(parts))
    said = ". ".join(told)
    return said[:1].upper() + said[1:] if said else f"{own.family.capitalize()} by {own.family}"


def _span(rows: Rows, rate: str) -> str:
    """ "56 % (Birch) to 93 % (Alder)" of the rows whose rate is known."""
    known = sorted((row for row in rows if row[rate]["rate"] is not None), key=lambda row: row[rate]["rate"])
    if not known:
        return ""
    low, high = (f"{percent(row[rate]['rate'])} ({row['name']})" for row in (known[0], known[-1]))
    return low if low == high else f"{low} to {high}"


def _funnel(steps: Rows) -> str:
    at = {step["step"]: step["n"] for step in steps}
    eggs = many(at["set"], "egg")
    untold = max(step["not_written"] for step in steps)
    sold = max(step["sold"] for step in steps)
    away = f", {sold} {'was' if sold == 1 else 'were'} sold or given" if sold else ""
    unknown = f", and of {untold} nothing is written" if untold else ""
    return f"Of {eggs} set {at['hatched']} hatched; {at['alive']} live now{away}{unknown}"


def _windows(hatches: Rows, several: bool) -> str:
    told = []
    for species, rows in _by_species(hatches, lambda one: str(one["species"])).items():
        days = [day_words(row["median_h"]) for row in rows if row["median_h"] is not None]
        if days:
            low, high = min(days, key=float), max(days, key=float)
            name = f" ({species_words(species).lower()})" if several else ""
            told.append((low if low == high else f"{low} to {high}") + name)
    return f"Half the chicks were out by day {', '.join(told)}" if told else "When the chicks came out"


def _compared(comparisons: Sequence[Comparison], several: bool) -> str:
    told = []
    for one in comparisons:
        name = f"{species_words(one.species)}: " if several else ""
        if one.p is None:
            said = "only one to compare" if several else "Hatched, of those set"
        elif one.p <= SEPARATES_BELOW:
            said = f"the differences are more than chance gives (p {p_words(one.p)})"
        else:
            said = f"chance alone may give such differences (p {p_words(one.p)})"
        told.append(f"{name}{said}")
    said = "; ".join(told)
    return said[:1].upper() + said[1:]


def losses_title(families: Rows) -> str:
    """The most frequent time of death; of the pips that came to nothing the late ones are told with their number.

    families: rows with `deaths`.
    """
    counts = {code: sum(one["deaths"].get(code, 0) for one in families) for code in DEATH_WORDS}
    every = sum(counts.values())
    pipped = counts["internal_pip"] + counts["external_pip"]
    sums = {"late": counts["late"] + pipped} | {code: counts[code] for code in ("early", "mid", "unopened")}
    code = max(sums, key=lambda one: sums[one])
    if every == 0:
        return "None is known to have died in the shell"
    how_many = "all" if sums[code] == every else f"{sums[code]} of them"
    at_pip = f" ({pipped} at the pip)" if code == "late" and pipped else ""
    return f"{every} died in the shell, {how_many} {DEATH_WORDS[code]}{at_pip}"


def _chicks(rows: Rows) -> str:
    lost = sum(row["lost"]["k"] for row in rows)
    if lost == 0:
        return "No chick was lost at these ages"
    most = max(rows, key=lambda row: row["lost"]["k"])
    chicks = many(lost, "chick")
    return f"{chicks} lost, most at {most['from_days']} to {most['to_days']} days"


def _groups(report: Mapping[str, Any]) -> str:
    told = []
    for group, words in _GROUPS.items():
        rates = sorted(row["hatch_of_set"]["rate"] for row in report[group] if row["hatch_of_set"]["rate"] is not None)
        if rates:
            low, high = percent(rates[0]), percent(rates[-1])
            told.append(f"{words} {low if low == high else f'{low} to {high}'}")
    return f"Hatched of those set: {', '.join(told)}"


def _earlier(against: Rows, several: bool) -> str:
    told = []
    for one in against:
        name = f"{species_words(one['species'])}: " if several else ""
        if "now" not in one:
            continue
        now, then = (percent(one[side]["rate"]) for side in ("now", "before"))
        if one["uneven"]:
            said = f"the seasons before differ among themselves; {now} of those set hatched now, {then} then"
        elif one["shown"]:
            way = "fewer" if one["difference"] < 0 else "more"
            said = f"{way} hatched than in the seasons before: {now} of those set, {then} then"
        else:
            said = f"no difference shown from the seasons before: {now} of those set hatched, {then} then"
        told.append(f"{name}{said}")
    said = "; ".join(told)
    return said[:1].upper() + said[1:] if said else "The seasons before"


def day_words(hours: float) -> str:
    """Days since setting, to a tenth.

    >>> day_words(500.2)
    '20.8'
    """
    return f"{hours / 24:.1f}"


def p_words(p: float) -> str:
    """A p value to two digits; "under 0.001" where more digits would only pretend.

    >>> p_words(0.0559), p_words(0.2), p_words(0.00001)
    ('0.056', '0.20', 'under 0.001')
    """
    if p < LEAST_P:
        return "under 0.001"
    return f"{p:.2g}" if p < 0.1 else f"{p:.2f}"


def percent(share: float) -> str:
    """A share of 1 in whole percent.

    >>> percent(0.444)
    '44 %'
    """
    return f"{100 * share:.0f} %"
