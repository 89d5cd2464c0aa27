"""One setting as text: what was set, what is due when, how it went, and why it may have gone so."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.footnotes import Footnotes, say_parts
from broodline.cli.printing import say, say_table
from broodline.cli.report_words import percent, say_problems, stage_counts
from broodline.reports.air_sentences import air_sentences
from broodline.trade.calendar import local_time
from broodline.trade.counted import many

Words = Iterator[str]


_GUIDANCE = {"hot": "Too warm", "cold": "Too cool", "power_cut": "Power cut"}


def say_setting(report: Mapping[str, Any], standing: Standing) -> None:
    """The whole story of one setting, in a keeper's words."""
    calendar = report["calendar"]
    place = report["place_name"] or "a place nobody entered"
    set_at = local_time(datetime.fromisoformat(report["set_at"]), standing.keeper.zone)
    say(f"{report['species_name']} eggs in {place}, set {set_at}.")
    say(str(report["summary"]))
    if calendar["candle"]:
        say(f"To candle: {', '.join(calendar['candle'])}.")
    if calendar["lockdown"]:
        say(f"Lockdown, by the species: {calendar['lockdown']}.")
    if calendar["hatch_from"]:
        days = " to ".join(dict.fromkeys((calendar["hatch_from"], calendar["hatch_to"])))
        say(f"Hatch, by the species: {days}.")
    say()
    rows = [(lot["family_name"] or "family not known", lot) for lot in report["lots"]]
    say_table(
        ("family", "eggs", "fertility", "hatch of set", "hatch of fertile", "where they are"),
        [
            (
                name,
                lot["n"],
                percent(lot["fertility"]),
                _hatched(lot["hatch_of_set"]),
                _hatched(lot["hatch_of_fertile"]),
                stage_counts(lot["stages"], lot["not_written"]),
            )
            for name, lot in [*rows, ("all", report["total"])]
        ],
    )
    say(report["total"]["closing"]["words"])
    notes = Footnotes()
    parts = (
        ("The hatch", _hatch(report, standing, notes)),
        ("Weight loss", _weight_loss(report["weight_loss"], notes)),
        ("Eggs brought up", _brought_up(report["brought_up"], notes)),
        ("The air", _air(report["air"], standing, notes)),
        ("What stands out in the losses", _pattern(report["pattern"], notes)),
        ("To bear in mind", (f"{note['words']} {notes.of(note['source'])}" for note in report["notes"])),
    )
    say_parts(parts, notes)
    say_problems(report["problems"])


def _hatched(rate: Mapping[str, Any]) -> str:
    """A rate of hatching; no chick out of a setting that still runs is no finding."""
    return "not yet" if rate.get("so_far") and rate["k"] == 0 else percent(rate)


def _hatch(report: Mapping[str, Any], standing: Standing, notes: Footnotes) -> Words:
    hatch, forecast = report["hatch"], report["forecast"]
    if forecast is not None and (hatch is None or report["so_far"]):
        yield forecast["words"]
    if hatch is None:
        return
    looks = f"{hatch['checks']} look{'s' if hatch['checks'] != 1 else ''}"
    if hatch["first_h"] is None:
        yield f"No chick at {looks} so far."
        return
    set_at = datetime.fromisoformat(report["set_at"]).timestamp()
    first, last = (
        local_time(datetime.fromtimestamp(set_at + hatch[end] * 3600).astimezone(), standing.keeper.zone)
        for end in ("first_h", "last_h")
    )
    yield f"{many(hatch['hatched'], 'chick')} at {looks}: the first seen {first}, the last {last}."
    total = report["total"]
    if total["weak"] or total["helped"]:
        yield f"Of these {total['weak']} weak, {total['helped']} helped out."
    if hatch["median_h"] is not None:
        yield (
            f"Half were out by about {hatch['median_h']:.0f} hours ({hatch['median_h'] / 24:.1f} days) after setting, "
            f"nine of ten within {hatch['spread_h']:.0f} hours."
        )
    if hatch["later_h"] is not None and not hatch["meanings"]:
        way = "later" if hatch["later_h"] > 0 else "earlier"
        yield f"That is {abs(hatch['later_h']):.0f} hours {way} than the species' usual time; half a day is common."
    for meaning in hatch["meanings"]:
        yield f"{meaning['words']} That may come from: {_causes(meaning['causes'], notes)}."
    if forecast is not None and not report["so_far"]:
        yield f"What was foretold: {forecast['words']}"


def _brought_up(found: Mapping[str, Any] | None, notes: Footnotes) -> Words:
    if found is not None:
        yield f"{found['words']} {' '.join(notes.of(source) for source in found['sources'])}"


def _weight_loss(loss: Mapping[str, Any] | None, notes: Footnotes) -> Words:
    if loss is None:
        return
    later = [point for point in loss["points"] if point["loss_pct"] or point["day"] >= 1]
    if later:
        points = ", ".join(f"{point['loss_pct']:.1f} % by day {point['day']:.0f}" for point in later)
        yield f"Lost of the first weight: {points}. A weighing is sure to about {2 * loss['error_pct']:.1f} points."
    else:
        yield "Weighed once; the next weighing tells how much they lose."
    if loss["target_pct"] is not None:
        low, high = loss["corridor_pct"]
        yield (
            f"Wished by lockdown on day {loss['by_day']:g}: {loss['target_pct']:.1f} %, within {low:.1f} to "
            f"{high:.1f} % {notes.of(loss['source'])}."
        )
    if loss["projected_pct"] is not None:
        low, high = loss["projected_band_pct"]
        yield f"At this pace {loss['projected_pct']:.1f} % by then, likely {low:.1f} to {high:.1f} %."
    yield from loss["notes"]
    if loss["advice"] is not None:
        yield loss["advice"]


def _air(air: Mapping[str, Any] | None, standing: Standing, notes: Footnotes) -> Words:
    if air is None:
        return
    yield from air_sentences(air, standing)
    yield from (gauge["words"] for gauge in air["gauges"])
    for row in air["guidance"]:
        about = row["about"].removesuffix("_forced").removesuffix("_still")
        yield f"{_GUIDANCE[about]}: {row['words']} {notes.of(row['source'])}"
    if air["excursions"]:
        yield air["judgement"]
        yield "Published: " + "; ".join(f"{one['words']} {notes.of(one['source'])}" for one in air["published"]) + "."


def _pattern(pattern: Sequence[Mapping[str, Any]], notes: Footnotes) -> Words:
    for one in pattern:
        yield (
            f"{one['finding'].capitalize()}: {one['evidence']} {notes.of(one['source'])} "
            f"Often seen with: {_causes(one['causes'], notes)}."
        )


def _causes(causes: Sequence[Mapping[str, Any]], notes: Footnotes) -> str:
    return "; ".join(f"{cause['words']} {notes.of(cause['source'])}" for cause in causes)
