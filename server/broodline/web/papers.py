"""Papers put together: what reports tell, in the words and order of each template. For routes and commands."""

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import date, datetime, timedelta
from typing import Any

from broodline.book.moments import instant
from broodline.book.own_words import own_words
from broodline.book.standing import Standing
from broodline.book.told_days import told_alone
from broodline.errors import EnvelopeError
from broodline.exchange.cell_words import in_words
from broodline.exchange.typeset import PAPERS, Paper, Printed, print_paper, qr_picture
from broodline.reports.air_sentences import air_sentences
from broodline.reports.away_sheet import away_sheet
from broodline.reports.bird_sheet import bird_sheet
from broodline.reports.inspection import inspection
from broodline.reports.marks_sheet import marks_sheet
from broodline.reports.matings import Wishes
from broodline.reports.matings_sheet import matings_sheet
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from broodline.reports.tray_cards import tray_cards
from broodline.trade.calendar import day_asked, local_date, local_time
from broodline.web.season_told import season_told
from broodline.web.setting_told import setting_told

_TALLIES: Mapping[str, tuple[str, ...]] = {
    "Candling": ("live", "clear", "blood ring", "dead", "cracked", "not sure"),
    "The hatch": ("hatched", "helped out", "pipped", "not yet"),
    "Opening": ("no germ", "dead early", "dead midway", "dead late", "pipped inside", "pipped outside", "rotten"),
}
_IN = ("set", "locked")
_COUNTED: Mapping[str, tuple[str, ...]] = {
    "Opening": (*_IN, "unhatched", "clear", "blood_ring", "quitter", "rotten"),  # as the app's: tally-plan.ts, PILES
}
_STATEMENT = "Given in good faith from the book of its breeder. Chances of parents are told where they are not certain."


@dataclass(frozen=True, slots=True)
class Wanted:
    """paper: None takes the country's. origin: where the book is served, for QR pictures; None leaves them out. boxes:
    one stands for each letter that the fonts lack; else such a paper is refused."""

    now: datetime
    paper: Paper | None = None
    origin: str | None = None
    boxes: bool = False


def season_paper(standing: Standing, year: int, wanted: Wanted) -> Printed:
    """The season that starts in `year`."""
    told = season_told(season_report(standing, year, wanted.now), own_words(standing.keeper))
    return _printed("season", standing, told, wanted)


def setting_paper(standing: Standing, setting: str, wanted: Wanted) -> Printed:
    """One hatch. Raises NotFound."""
    report = setting_report(standing, setting, wanted.now)
    known = standing.settings[report["setting"]]
    air = [] if report["air"] is None else list(air_sentences(report["air"], standing))
    told = {
        **setting_told(report, own_words(standing.keeper)),
        "set_words": local_time(instant(known.set_at_ms), standing.keeper.zone),
        "air_told": air,
    }
    told["trays"] = _trays(report)
    return _printed("setting", standing, told, wanted)


def _trays(report: Mapping[str, Any]) -> list[dict[str, Any]]:
    """[{name, points}] of each tray that was weighed; the name of one with all eggs is empty."""
    families = {lot["lot"]: lot["family_name"] or "unknown" for lot in report["lots"]}
    points: dict[str | None, list[Mapping[str, Any]]] = {}
    for point in () if report["weight_loss"] is None else report["weight_loss"]["points"]:
        points.setdefault(point["lot"], []).append(point)
    alone = len(points) == 1
    return [{"name": "" if alone else families.get(lot or "", "all"), "points": own} for lot, own in points.items()]


def cards_paper(standing: Standing, setting: str, wanted: Wanted) -> Printed:
    """Cards for trays and brooders. Raises NotFound."""
    told = tray_cards(standing, setting, wanted.now)
    for card in told["cards"]:
        path = f"/setting/{told['setting']}" if card["kind"] == "tray" else f"/brood/{card['lot']}"
        card["qr"] = _code(wanted, path)
    return _printed("cards", standing, told, wanted)


def tally_paper(standing: Standing, setting: str, wanted: Wanted) -> Printed:
    """A card to count on by hand. Raises NotFound."""
    told = tray_cards(standing, setting, wanted.now)
    rows = [card for card in told["cards"] if card["kind"] == "tray"]
    parts = [
        {
            "title": title,
            "head": "To open" if title in _COUNTED else "Eggs in",
            "columns": columns,
            "eggs": [_held(standing, row["lot"], _COUNTED.get(title, _IN)) for row in rows],
        }
        for title, columns in _TALLIES.items()
    ]
    title = f"Count by hand: {told['place']}"
    told = {
        "title": title,
        "place": told["place"],
        "over": f"Set {told_alone(told['set'], standing.keeper.region)}",
        "rows": rows,
        "runs": standing.settings[told["setting"]].runs,
        "parts": parts,
        "qr": _code(wanted, f"/setting/{told['setting']}"),
    }
    return _printed("tally", standing, told, wanted)


def _held(standing: Standing, lot: str, counted: tuple[str, ...]) -> int:
    """What a row of the card has to add up to today: its eggs in those stages."""
    stages = standing.lots[lot].stages
    return sum(max(0, stages.get(stage, 0)) for stage in counted)


def away_paper(standing: Standing, first: date, last: date, wanted: Wanted) -> Printed:
    """What is due while the keeper is away, both days included."""
    told = away_sheet(standing, first, last, wanted.now)
    return _printed("away", standing, {**told, "from": first.isoformat(), "until": last.isoformat()}, wanted)


def inspection_paper(standing: Standing, first: date, last: date, wanted: Wanted) -> Printed:
    """For an inspector, both days included; of days still to come nothing can be told."""
    last = max(first, min(last, date.fromisoformat(local_date(wanted.now, standing.keeper.zone))))
    told = inspection(standing, first, last)
    told["deaths"] = [{**one, "cause": in_words("cause", one["cause"])} for one in told["deaths"]]
    return _printed("inspection", standing, {**told, "from": first.isoformat(), "until": last.isoformat()}, wanted)


def marks_paper(standing: Standing, year: int, wanted: Wanted) -> Printed:
    """Marks put on in a season, and the keeper's key."""
    return _printed("marks", standing, marks_sheet(standing, year), wanted)


def matings_paper(standing: Standing, wishes: Wishes, wanted: Wanted) -> Printed:
    """Pens for next season, within what the keeper wishes."""
    return _printed("matings", standing, matings_sheet(standing, wishes, wanted.now), wanted)


def bird_paper(standing: Standing, bird: str, wanted: Wanted, code: str | None = None) -> Printed:
    """Certificate of hatch and parents' sheet. code: what its QR picture holds, in place of an address. Raises
    NotFound."""
    told = bird_sheet(standing, bird, wanted.now)
    picture = _code(wanted, f"/bird/{told['bird']['id']}") if code is None else qr_picture(code)
    told = {**told, "qr": picture, "wide": code is not None, "statement": _STATEMENT}
    return _printed("bird", standing, told, wanted)


PAPERS_BY_ID: Mapping[str, Callable[[Standing, str, Wanted], Printed]] = {
    "setting": setting_paper,
    "cards": cards_paper,
    "tally": tally_paper,
    "pedigree": bird_paper,
}
PAPERS_BY_YEAR = {"season": season_paper, "marks": marks_paper}
PAPERS_BY_DAYS = {"away": (away_paper, 7), "inspection": (inspection_paper, -365)}  # with the days usually meant


def wanted_paper(text: str | None) -> Paper | None:
    """The size of sheets, as it was asked for. Raises EnvelopeError."""
    for paper in PAPERS:
        if text == paper:
            return paper
    if text is None:
        return None
    raise EnvelopeError("paper", f"{text} is no size of paper.", remedy=f"Ask for one of: {', '.join(PAPERS)}.")


def wanted_days(first: str | None, last: str | None, today: date, ahead_days: int) -> tuple[date, date]:
    """Two days in order. ahead_days: what is taken where one is not said, from today on or, below zero, until today.
    Raises EnvelopeError."""
    try:
        span = timedelta(days=abs(ahead_days))
        one = day_asked(first) if first else today - (span if ahead_days < 0 else timedelta(0))
        other = day_asked(last) if last else max(one, today if ahead_days < 0 else one + span)
    except ValueError as fault:
        raise EnvelopeError("from", "A day cannot be read.", remedy="Write days as 2026-03-08.") from fault
    if other < one:
        raise EnvelopeError("until", "The last day lies before the first.", remedy="Give the earlier day first.")
    return one, other


def _code(wanted: Wanted, path: str) -> str | None:
    """The QR picture of a page of the app; None where no phone could open it."""
    return None if wanted.origin is None else qr_picture(wanted.origin + path)


def _printed(name: str, standing: Standing, told: Mapping[str, Any], wanted: Wanted) -> Printed:
    keeper = standing.keeper
    words = {"own": asdict(own_words(keeper)), "holding": keeper.holding, "made": local_date(wanted.now, keeper.zone)}
    paper = wanted.paper or ("us-letter" if keeper.region == "us" else "a4")
    return print_paper(name, _dated({**told, **words}, keeper.region), paper=paper, now=wanted.now, boxes=wanted.boxes)


def _dated(part: Any, region: str | None) -> Any:
    """The same with days and times as the region writes them."""
    match part:
        case str():
            return told_alone(part, region)
        case Mapping():
            return {name: _dated(below, region) for name, below in part.items()}
        case list() | tuple():
            return [_dated(below, region) for below in part]
        case _:
            return part
