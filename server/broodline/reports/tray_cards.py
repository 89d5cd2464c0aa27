"""Cards of a setting: what stands on the card of each family's tray, and of the basket its chicks go to."""

from datetime import datetime
from typing import Any, cast

from broodline.book.bodies_flock import Marked
from broodline.book.hatch_day import hatched_on
from broodline.book.marks import living
from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.errors import NotFound
from broodline.reports.marks_sheet import ring_words, webs_words
from broodline.reports.setting import setting_report
from broodline.trade.calendar import local_date, local_time


def tray_cards(standing: Standing, setting_id: str, now: datetime) -> dict[str, Any]:
    """{setting, set, place, cards: [{title, family, sign, lot, kind: "tray" or "brooder", n, lines: [[what, value]]}]}.

    now: aware. Raises NotFound.
    """
    report = setting_report(standing, setting_id, now)
    setting = standing.settings.get(standing.root_of.get(setting_id, setting_id))
    if setting is None:
        raise NotFound("There is no such setting.")
    dates = report["calendar"]
    place = report["place_name"] or "a place that is not in the book"
    set_at = local_time(instant(setting.set_at_ms), standing.keeper.zone)
    window = dict.fromkeys(day for day in (dates["hatch_from"], dates["hatch_to"]) if day is not None)
    cards = []
    for kind in ("tray", "brooder"):
        for lot in (standing.lots[name] for name in setting.lots):
            family = standing.families.get(lot.family or "")
            lines = [["Eggs", str(lot.n)], ["Set", set_at], ["Lockdown", dates["lockdown"] or "not known"]]
            lines += [["Hatch", " to ".join(window) or "not known"]]
            if kind == "brooder":
                blank = "____________"
                hatched = hatched_on(standing, lot)
                now_alive = (
                    f"{living(lot)} on {day_told(local_date(now, standing.keeper.zone), standing.keeper.region)}"
                )
                lines = [["Set", set_at], ["Hatched", hatched or blank]]
                lines += [
                    ["Chicks", blank if hatched is None else now_alive],
                    ["Mark", _marks(standing, lot.id) or blank],
                ]
            cards.append(
                {
                    "kind": kind,
                    "title": place[:1].upper() + place[1:] if kind == "tray" else f"Chicks from {place}",
                    "family": "unknown family" if family is None else family.name,
                    "sign": lot.sign or (None if family is None else family.sign),
                    "lot": lot.id,
                    "n": lot.n,
                    "lines": lines,
                }
            )
    return {"setting": setting.id, "set": set_at, "place": place, "cards": cards}


def _marks(standing: Standing, lot: str) -> str:
    """What chicks of a batch wear: marks looked at again or replaced are left out."""
    heads = [(head.root, cast(Marked, head.body)) for head in standing.heads.get("marked", ())]
    gone = {standing.root_of.get(one.replaces, one.replaces) for _, one in heads if one.replaces is not None}
    told = []
    for root, one in heads:
        if one.lot == lot and not one.recheck and root not in gone:
            told += [webs_words(one.webs)] if one.webs is not None else []
            told += [ring_words(one.tag)] if one.tag is not None else []
    return "; ".join(dict.fromkeys(told))
