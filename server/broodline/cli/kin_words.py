"""Kinship, matings and plans as text a keeper can act on."""

from collections.abc import Mapping
from typing import Any

from broodline.book.own_words import own_words
from broodline.book.standing import Standing
from broodline.cli.printing import say, say_table
from broodline.cli.report_words import say_problems
from broodline.reports.mating_pens import mean_words, pen_words
from broodline.reports.rotation_of import rotation_words
from broodline.trade.counted import many


def say_family(report: Mapping[str, Any], standing: Standing) -> None:
    """Birds with their inbreeding, the flock's figures, what to mind."""
    if not report["birds"]:
        say("No bird is in the book yet.")
        return
    rows = [
        (
            bird["label"],
            {"male": "cock", "female": "hen", "unknown": "not sexed"}[bird["sex"]],
            {"here": "", "lent": "lent", "gone": "gone"}[bird["where"]],
            _inbreeding(bird),
            f"{bird['completeness']:.1f}",
            "" if bird["mean_kinship"] is None else f"{bird['mean_kinship']:.3f}",
        )
        for bird in report["birds"]
    ]
    say_table(("bird", "sex", "", "inbreeding", "generations known", "mean kinship"), rows)
    say()
    if report["ne"] is not None:
        say(f"Effective size {report['ne']:.1f}; inbreeding rises by {report['delta_f_pct']:.1f} % a generation.")
    if report["founders"]["fe"] is not None:
        fe, fg = report["founders"]["fe"], report["founders"]["fg"]
        say(f"Founder equivalents {fe:.1f}; founder genome equivalents {fg:.1f}.")
    for warning in report["warnings"]:
        say(f"- {warning}")
    say_problems(report["problems"])


def say_flock(report: Mapping[str, Any], standing: Standing) -> None:
    """The state of each breed and what would help it."""
    if not report["breeds"]:
        say("No living bird is in the book yet.")
    for breed in report["breeds"]:
        say(breed["breed"])
        for words in breed["words"]:
            say(f"- {words}")
        for founder in breed["founders_at_risk"]:
            birds, them = many(founder["descendants"], "bird"), "it" if founder["descendants"] == 1 else "them"
            say(f"- {founder['label']} lives on in {birds} only: keep {them}, or breed from {them}.")
    say_problems(report["problems"])


def say_matings(report: Mapping[str, Any], standing: Standing) -> None:
    """The pens, what they bring against other matings, and the moves of males."""
    own = own_words(standing.keeper)
    if report.get("infeasible"):
        say("No plan fits these limits.")
        for words in report["infeasible"]["relax"]:
            say(f"- {words}")
    for number, pen in enumerate(report["pens"], 1):
        names = pen["labels"]
        say(f"Pen {number}{_families(pen, report, standing)}: {', '.join(names[bird] for bird in pen['sires'])}")
        say(f"  with {', '.join(names[bird] for bird in pen['dams'])}")
        say(f"  {pen_words(pen, report['limit'])}")
        for words in pen["cautions"]:
            say(f"  Mind: {words}")
    if report["pens"]:
        used = {bird for pen in report["pens"] for bird in (*pen["sires"], *pen["dams"])}
        spare = [bird["label"] for bird in report["birds"] if bird["bird"] not in used]
        if spare:
            say(f"In no pen: {', '.join(sorted(spare))}")
        say(f"All pens: {_all_pens(report)}")
        against = report["compared_with"]
        if against["mixed"] is not None:
            say(
                f"With hens of all {own.families} mixed the least would be {100 * against['mixed']:.1f} % (--no-moves)."
            )
        if not report["proved"]:
            say("This is the best plan that was found; it is not proved that there is no better one.")
    for words in report["notes"]:
        say(words)
    rotation = report["rotation"]
    if rotation["moves"]:
        say()
        say(f"Moving males among {own.families}, season {report['season']}:")
    for words in (*rotation["moves"], *rotation_words(rotation, own)):
        say(f"- {words}")
    say_problems(report["problems"])


def _families(pen: Mapping[str, Any], report: Mapping[str, Any], standing: Standing) -> str:
    """Whose hens these are and whose cocks; nothing where they are of several, or of none."""
    of = {bird["bird"]: bird["family"] for bird in report["birds"]}
    givers = {of[bird] for bird in pen["sires"]}
    home, giver = (standing.families.get(family or "") for family in (pen["family"], next(iter(givers))))
    if home is None or giver is None or len(givers) > 1:
        return ""
    return f" ({home.name}'s hens, {'cock' if len(pen['sires']) == 1 else 'cocks'} of {giver.name})"


def _all_pens(report: Mapping[str, Any]) -> str:
    against, not_known = report["compared_with"], report["not_known"]
    if report["mean_F"] is None and against["today"] is None and against["random"] is None:
        return "inbreeding not known, of these pens and of any other: nothing is written of the birds' forebears."
    mean = mean_words(report["mean_F"], not_known["plan"])
    today = not_known["today"] and f"as the pens stand today {mean_words(against['today'], not_known['today'])}, "
    return (
        f"inbreeding on average {mean}; {today or ''}mated at random "
        f"{mean_words(against['random'], not_known['matings'], 'matings')}, "
        f"at worst {mean_words(against['worst'], None)}."
    )


def say_plan(report: Mapping[str, Any], standing: Standing) -> None:
    """Eggs for each family with their chance, the days of setting, what is taken for granted."""
    if not report["targets"]:
        for words in report["assumptions"] or ["No family is in the book."]:
            say(words)
        return
    for target in report["targets"]:
        options = ", ".join(f"with {many(one['eggs'], 'egg')} {_chance(one['chance'])}" for one in target["options"])
        wish = f"{many(target['pullets'], 'pullet')} and {many(target['cockerels'], 'cockerel')}"
        say(f"{target['name']}: {many(target['eggs'], 'egg')} for {wish}")
        say(f"  {options}; {target['in_store']} in store now{_store_words(target)}")
        if target["parents"]:
            say(f"  {target['parents']['words']}")
        if target["placed"] < target["eggs"]:
            say(f"  Only {target['placed']} of them are in a setting below: {_chance(target['chance'])}.")
        if not target["enough"]:
            say("  Even so many do not give the chance wished for.")
    placed = sum(target["placed"] for target in report["targets"])
    short = f", of which {placed} are in a setting" if placed < report["eggs"] else ""
    say(f"In all {many(report['eggs'], 'egg')}{short}; {_chance(report['chance'])} chance that every wish comes true.")
    if report["settings"]:
        first, last = report["settings"][0]["set_on"], report["settings"][-1]["set_on"]
        until = max(setting["hatch_on"] for setting in report["settings"])
        say(f"Set from {first} to {last}, the last to hatch about {until}:")
    for setting in report["settings"]:
        place = standing.places[setting["place"]].name if setting["place"] else "an incubator"
        lots = ", ".join(f"{lot['n']} {standing.families[lot['family']].name}" for lot in setting["lots"])
        dates = f"lock down {setting['lockdown_on']}, hatch {setting['hatch_on']}"
        say(f"{setting['set_on']}: set {lots} in {place}; {dates}.")
    for words in report["assumptions"]:
        say(f"- {words}")


def _chance(p: float) -> str:
    """In percent; a plan is never certain, and never quite without hope."""
    return "over 99 %" if 0.995 <= p < 1 else "under 1 %" if 0 < p < 0.005 else f"{100 * p:.0f} %"


def _store_words(target: Mapping[str, Any]) -> str:
    """By when the hens have laid what is wanted."""
    store = target["store"]
    if store is None or target["in_store"] >= target["eggs"]:
        return ""
    if store["enough_on"] is None:
        return ", none kept in the last week"
    return f", about {store['pace_week']:.0f} a week: enough by {store['enough_on']}"


def _inbreeding(bird: Mapping[str, Any]) -> str:
    if bird["F"] is None:
        return "unknown"
    if not bird["completeness"]:
        return "founder"
    text = f"{100 * bird['F']:.1f} %"
    if bird["F_high"] - bird["F_low"] > 0.0005:
        text += f" ({100 * bird['F_low']:.1f} to {100 * bird['F_high']:.1f})"
    return text
