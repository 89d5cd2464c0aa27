"""Which mark means which family: the keeper's key, what was put on in a season, and what its birds wear.

A bird that is written down with its ring has no day on which it was put on: it counts for the season of its hatch, or
where nobody knows that and it is no founder and did not come from elsewhere, for the one in which it was written down.
"""

from collections.abc import Mapping, Sequence
from typing import Any, cast

from broodline.book.birds import OneBird, bird_id, birds_of, lot_of
from broodline.book.bodies_flock import Bird, Came, Marked, Tag
from broodline.book.hatch_day import hatched_on
from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.reports.season_year import season_year
from broodline.trade.calendar import local_date
from broodline.trade.counted import many

WEBS = {"LO": "left outer", "LI": "left inner", "RI": "right inner", "RO": "right outer"}


def marks_sheet(standing: Standing, year: int) -> dict[str, Any]:
    """{year, key: [{webs, label, words}], marked: [{on, who, webs, words}], worn: [{who, family, hatched,
    words}]}; rechecks are left out, and of `worn` birds whose mark is told among `marked`. hatched: a day or None."""
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
        ring = "" if one.tag is None else ring_words(one.tag)
        words = "; ".join(filter(None, (webs_words(one.webs or []) if one.webs is not None else "", ring)))
        marked.append({"on": on, "who": who, "webs": list(one.webs or ()), "words": words or "a mark"})
    key = []
    for pattern, label in (standing.keeper.mark_key or {}).items():
        webs = [web for web in WEBS if web in pattern.replace(",", " ").replace("+", " ").replace("-", " ").split()]
        key.append({"webs": webs, "label": label, "words": webs_words(webs)})
    marked.sort(key=lambda row: (str(row["on"]), str(row["who"])))
    return {"year": year, "key": key, "marked": marked, "worn": _worn(standing, birds, year)}


def _worn(standing: Standing, birds: Mapping[str, OneBird], year: int) -> list[dict[str, Any]]:
    """Rings and webs with which birds of the season were written down, in the order of their hatch."""
    came = {bird_id(standing, one) for head in standing.heads.get("came", ()) if (one := cast(Came, head.body).bird)}
    tags: dict[str, list[str]] = {}
    written: dict[str, str] = {}
    for head in standing.heads.get("bird", ()):
        one = bird_id(standing, head.root)
        written.setdefault(one, local_date(instant(head.at_ms), standing.keeper.zone))
        told = tags.setdefault(one, [])
        told += [ring for tag in cast(Bird, head.body).tags or () if (ring := ring_words(tag)) not in told]
    rows = []
    for bird in birds.values():
        lot = standing.lots.get(lot_of(bird.body) or "")
        hatched = bird.body.hatched_on or (None if lot is None else hatched_on(standing, lot))
        older = bird.body.founder or bird.body.origin is not None or bird.id in came
        own = hatched or (None if older else written[bird.id])
        words = [*([webs_words(bird.body.webs)] if bird.body.webs else ()), *tags[bird.id]]
        if words and own and season_year(own, standing.keeper.season_starts or 1) == year:
            family = standing.families.get(standing.root_of.get(bird.body.family or "", bird.body.family or ""))
            name = None if family is None else family.name
            rows.append({"who": bird.label, "family": name, "hatched": hatched, "words": "; ".join(words)})
    return sorted(rows, key=lambda row: (str(row["hatched"] or ""), str(row["family"] or ""), str(row["who"])))


def ring_words(tag: Tag) -> str:
    """A ring, tag or chip: leg, colour, kind and what stands on it."""
    return " ".join(filter(None, (tag.leg, tag.colour, tag.kind, tag.text)))


def webs_words(webs: Sequence[Any]) -> str:
    """Webs with a hole, in words."""
    return ", ".join(WEBS[web] for web in WEBS if web in webs) or "no web"
