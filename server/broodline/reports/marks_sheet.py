"""Which mark means which family: the keeper's key, and what was put on in a season."""

from typing import Any, cast

from broodline.book.birds import bird_id, birds_of
from broodline.book.bodies_flock import Marked
from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.reports.season_year import season_year
from broodline.trade.calendar import local_date
from broodline.trade.counted import many

WEBS = {"LO": "left outer", "LI": "left inner", "RI": "right inner", "RO": "right outer"}


def marks_sheet(standing: Standing, year: int) -> dict[str, Any]:
    """{year, key: [{webs, label, words}], marked: [{on, who, webs, words}]}; rechecks are left out."""
    birds = birds_of(standing, None)
    marked = []
    for head in standing.heads.get("marked", ()):
        one = cast(Marked, head.body)
        on = one.on or local_date(instant(head.at_ms), standing.keeper.zone)
        if one.recheck or season_year(on, standing.keeper.season_starts or 1) != year:
            continue
        lot = standing.lots.get(one.lot or "")
        family = standing.families.get(lot.family or "") if lot is not None else None
        bird = birds.get(bird_id(standing, one.bird)) if one.bird else None
        who = bird.label if bird is not None else family.name if family is not None else "unknown family"
        if one.lot and one.n:
            who = f"{who}, {many(one.n, 'chick')}"
        tag = one.tag
        ring = "" if tag is None else " ".join(filter(None, (tag.leg, tag.colour, tag.kind, tag.text)))
        words = "; ".join(filter(None, (_words(one.webs or []) if one.webs is not None else "", ring)))
        marked.append({"on": on, "who": who, "webs": list(one.webs or ()), "words": words or "a mark"})
    key = []
    for pattern, label in (standing.keeper.mark_key or {}).items():
        webs = [web for web in WEBS if web in pattern.replace(",", " ").replace("+", " ").replace("-", " ").split()]
        key.append({"webs": webs, "label": label, "words": _words(webs)})
    return {"year": year, "key": key, "marked": sorted(marked, key=lambda row: (str(row["on"]), str(row["who"])))}


def _words(webs: list[Any]) -> str:
    return ", ".join(WEBS[web] for web in WEBS if web in webs) or "no web"
