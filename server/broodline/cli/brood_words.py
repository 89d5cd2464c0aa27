"""A brood and the weights of birds as text: what to give today, what is due, what was lost, and how even they grow."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.footnotes import Footnotes, say_parts
from broodline.cli.printing import say, say_table
from broodline.cli.report_words import percent, say_problems, stage_counts
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.trade.units import GRAMS_PER_POUND, SQUARE_METRES_PER_SQUARE_FOOT, to_fahrenheit, to_ounces

Words = Iterator[str]
_FEW_GRAMS = 100
_LEFT = {"died": "died", "culled": "culled", "sold": "sold", "given": "given", "lost": "missing"}
_MOST_PAIRS = 8


def say_brood(report: Mapping[str, Any], standing: Standing) -> None:
    """One batch of chicks, in a keeper's words."""
    age = report["age_days"]
    on = report["hatched_at"] and local_date(datetime.fromisoformat(report["hatched_at"]), standing.keeper.zone)
    if age is not None and age < 0:
        say(f"{report['family_name'] or 'Family not known'}: not hatched by then, but on {on}.")
        say_problems(report["problems"])
        return
    hatched = f"hatched {on}, {many(age, 'day')} old" if on else "hatch day not written"
    say(f"{report['family_name'] or 'Family not known'}: {_alive(report)}, {hatched}.")
    for words in _whereabouts(report):
        say(words)
    if report["birds_left"]:
        gone = ", ".join(f"{n} {_LEFT[how]}" for how, n in report["birds_left"].items())
        say(f"Of those kept, since then: {gone}.")
    notes = Footnotes()
    if report["shared"] is not None:
        n, families = report["shared"]["n"], report["shared"]["families"]
        say(f"Of {families} {n} more: room, feed and water are for those too.")
    is_grown = report["young"] == 0 and report["shared"] is None
    parts = (
        ("Heat", () if is_grown else _heat(report["heat"], standing, notes)),
        ("Feed and water", () if is_grown else _feed(report, standing, notes)),
        ("Room", () if is_grown else _space(report["space"], standing, notes)),
        ("Losses", _losses(report, notes)),
        ("Parents", _parents(report["parents"])),
        ("Take care", (f"{one['words']} {notes.of(one['source'])}" for one in report["cautions"])),
        ("To do", (f"{task['due']}: {task['words']}" for task in report["tasks"])),
    )
    say_parts(parts, notes)
    say_problems(report["problems"])


def _whereabouts(report: Mapping[str, Any]) -> Words:
    """Where they are and in which stages; of counts that cannot be, only the places that somebody named."""
    for place in report["places"]:
        others = [other["n"] for other in place["with"]]
        company = "other batches" if None in others else f"{sum(others)} of other batches"
        there = f"{place['place_name'] or 'a place nobody entered'}{f', with {company}' if others else ''}"
        if place["n"] is not None:
            yield f"{place['n']}{' of family not known' if len(place['lots']) > 1 else ''} in {there}."
        elif place["place"]:
            yield f"In {there}: how many is not told."
    if report["alive"] is not None:
        yield f"In all: {stage_counts(report['stages'], report['not_written'])}."


def say_growth(report: Mapping[str, Any], standing: Standing) -> None:
    """Weights by batch, sex and day; what the curve says; the birds known by themselves."""
    if not report["groups"]:
        say("No bird was weighed yet.")
        say_problems(report["problems"])
        return
    say("Compare a bird only with those of its own batch and sex.")
    say_table(
        ("family", "sex", "on", "age", "birds", "mean", "spread", "within 10 %"),
        [
            (
                group["family_name"] or "not known",
                _sex(group["sex"]),
                group["on"],
                "" if group["age_days"] is None else many(group["age_days"], "day"),
                group["n"],
                _mass(group["mean_g"], standing),
                "" if group["cv_pct"] is None else f"{group['cv_pct']:.0f} %",
                f"{group['within_10_pct']:.0f} %",
            )
            for group in report["groups"]
        ],
    )
    for words in dict.fromkeys(_curve(group, standing) for group in report["groups"]):
        say(words)
    if report["birds"]:
        say()
        say_table(
            ("bird", "weight", "of its group's mean", "rank", "of"),
            [
                (
                    bird["label"],
                    _mass(bird["mass_g"], standing),
                    f"{bird['of_mean_pct']:.0f} %",
                    bird["rank"],
                    bird["group"]["n"],
                )
                for bird in report["birds"]
            ],
        )
        slow = [bird["label"] for bird in report["birds"] if bird["slow"]]
        if slow:
            say(f"More than a tenth lighter than their own batch and sex: {', '.join(slow)}.")
    say_problems(report["problems"])


def _heat(heat: Mapping[str, Any] | None, standing: Standing, notes: Footnotes) -> Words:
    if heat is None:
        return
    if heat["by_chicks"]:
        ends = f"{heat['off_from']} and {heat['off_on']} {notes.of(heat['source'])}"
        yield f"On, as much as the chicks say: no figure was read for this age. It commonly ends between {ends}"
        yield "A little less each time they lie spread."
    else:
        yield f"{_degrees(heat['low_c'], heat['high_c'], standing)} {heat['where']} {notes.of(heat['source'])}"
    following = heat["next"]
    if following is not None and following["low_c"] is not None:
        yield f"From {following['on']}: {_degrees(following['low_c'], following['high_c'], standing)}."
    elif following is not None and following["by_chicks"] and not heat["by_chicks"]:
        yield f"From {following['on']} on, as much as the chicks say."
    elif following is not None and not following["by_chicks"]:
        yield f"From {following['on']} none, if feathered and the room is mild."
    yield from (look["words"] for look in heat["looks"])
    yield f"What such looks say: {heat['looks_source']}."


def _feed(report: Mapping[str, Any], standing: Standing, notes: Footnotes) -> Words:
    feed, water = report["feed"], report["water"]
    pounds = standing.keeper.mass == "oz"
    if feed["today_g"] is not None:
        marks = " ".join(notes.of(source) for source in feed["sources"])
        size = GRAMS_PER_POUND if pounds else 1000
        yield f"Feed today: {_range(feed['today_g'], size, 'lb' if pounds else 'kg')} {marks}"
        yield f"That is for {_kinds(feed)}. {feed['memory'] or ''}".strip()
    if feed["four_weeks_kg"] is not None:
        size = GRAMS_PER_POUND / 1000 if pounds else 1
        told = _range(feed["four_weeks_kg"], size, "lb" if pounds else "kg")
        yield f"Feed for the next four weeks: {told}, for {_kinds(feed['four_weeks'])}."
    meat = feed.get("meat")
    if meat is not None and meat["four_weeks_kg"] is not None:
        size, marks = GRAMS_PER_POUND / 1000 if pounds else 1, " ".join(notes.of(one) for one in meat["sources"])
        told = _range(meat["four_weeks_kg"], size, "lb" if pounds else "kg")
        yield f"Fast growing meat birds in four weeks: {told} {marks} {meat['memory'] or ''}".strip()
    yield feed["words"]
    if feed.get("protein"):
        low, high = feed["protein"]["pct"]
        marks = " ".join(notes.of(source) for source in feed["protein"]["sources"])
        yield f"Protein, {feed['protein']['stage']}: {low:g} to {high:g} % {marks}"
    if feed.get("note"):
        yield feed["note"]
    if water["range_ml"] is not None:
        marks = " ".join(notes.of(source) for source in water["sources"])
        yield f"Water a day: {_range(water['range_ml'], 1000, 'litres')}, half as much again in great heat {marks}"
        yield f"That is for {_kinds(water)}. {water['words']} {water['memory'] or ''}".strip()


def _space(space: Mapping[str, Any] | None, standing: Standing, notes: Footnotes) -> Words:
    if space is None:
        return
    feet = standing.keeper.temperature == "F"
    marks = " ".join(notes.of(source) for source in space["sources"])
    if space["floor_m2"] is not None:
        size, unit = (SQUARE_METRES_PER_SQUARE_FOOT, "ft²") if feet else (1, "m²")
        yield f"Floor: {_range(space['floor_m2'], size, unit)} {marks}"
    for part, name in (("feeder_cm", "Feeder edge"), ("drinker_cm", "Drinker edge")):
        if space[part] is not None:
            size, unit = (2.54, "in") if feet else (1, "cm")
            yield f"{name}: {_range(space[part], size, unit)}"
    if space["next_on"] is not None:
        yield f"They need more room from {space['next_on']}."


def _losses(report: Mapping[str, Any], notes: Footnotes) -> Words:
    week = report["first_week"]
    yield f"First week, died or missing: {week['words']}"
    if week["together"] is not None:
        yield f"First week of {week['together']['families']}: {week['together']['words']}"
        if week["together"]["advice"]:
            yield week["together"]["advice"]
    if week["commercial"] is not None:
        yield f"{week['commercial']['words']} {notes.of(week['commercial']['source'])}"
    if week["advice"]:
        yield week["advice"]
    yield from _survival(report["survival"]["points"])
    together = report["survival"]["together"]
    if together is not None:
        yield from (f"{together['families']}: {words}" for words in _survival(together["points"]))
    if report["survival_by"]["words"]:
        yield report["survival_by"]["words"]
    watch = report["to_watch"]
    for words in watch["words"]:
        yield f"{words} {notes.of(watch['source'])}" if watch["source"] and words is watch["words"][-1] else words
    for alarm in report["alarms"]:
        yield f"{alarm['on']}: {alarm['words']} {alarm['think_of']}"


def _survival(points: Sequence[Mapping[str, Any]]) -> Words:
    """The share alive after the last death: no interval is told of nobody."""
    if not points:
        return
    of, last = points[0]["at_risk"], points[-1]
    if last["low"] is None:
        yield f"None of {of} alive after day {last['day']}."
    else:
        yield f"Alive after day {last['day']}: {percent({**last, 'n': of})}"


def _kinds(told: Mapping[str, Any]) -> str:
    """Of which birds the sources speak, each once."""
    return ", ".join(dict.fromkeys(one["kind"] for one in told["by_source"]))


def _alive(report: Mapping[str, Any]) -> str:
    """How many live; chicks gone of whom nobody knows the family may have been theirs."""
    if report["alive"] is None:
        return "how many live is not told, these counts cannot be"
    return f"{' to '.join(str(n) for n in dict.fromkeys((report['alive_least'], report['alive'])))} alive"


def _parents(parents: Mapping[str, Any]) -> Words:
    for pair in parents["pairs"][:_MOST_PAIRS]:
        sire, dam = pair["sire_label"] or "a cock not known", pair["dam_label"] or "a hen not known"
        yield f"{sire} and {dam}: {100 * pair['chance']:.0f} %"
    if len(parents["pairs"]) > _MOST_PAIRS:
        yield f"and {len(parents['pairs']) - _MOST_PAIRS} less likely pairs."
    yield from parents["notes"]


def _curve(group: Mapping[str, Any], standing: Standing) -> str:
    whose = f"{group['family_name'] or 'Family not known'}, {_sex(group['sex'])}"
    fit = group["fit"]
    if fit is None:
        return f"{whose}: no growth curve. {group['refused']}"
    grown = _mass(fit["parameters"]["A"], standing)
    return f"{whose}: fastest growth on day {fit['inflection_day']:.0f}; grown, about {grown} by this curve."


def _sex(sex: str) -> str:
    return {"male": "male", "female": "female"}.get(sex, "not sexed")


def _degrees(low_c: float, high_c: float, standing: Standing) -> str:
    scale = standing.keeper.temperature
    ends = [f"{to_fahrenheit(end) if scale == 'F' else end:.0f}" for end in (low_c, high_c)]
    return f"{' to '.join(dict.fromkeys(ends))} °{scale}"


def _mass(grams: float, standing: Standing) -> str:
    if standing.keeper.mass == "oz":
        return f"{to_ounces(grams):.1f} oz"
    return f"{grams:.0f} g" if grams >= _FEW_GRAMS else f"{grams:.1f} g"


def _range(ends: Sequence[float], size: float, unit: str) -> str:
    """Two figures, as rough as sources that differ allow."""
    told = [f"{end / size:.2g}" if end / size < 10 else f"{end / size:.0f}" for end in ends]
    return f"{' to '.join(dict.fromkeys(told))} {unit}"
