"""Cards of a setting: what stands on the card of each family's tray, and of the basket its chicks go to."""

from datetime import datetime
from typing import Any

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.errors import NotFound
from broodline.reports.setting import setting_report
from broodline.trade.calendar import local_time


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
                lines = [["Set", set_at], ["Hatched", blank], ["Chicks", blank], ["Mark", blank]]
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
