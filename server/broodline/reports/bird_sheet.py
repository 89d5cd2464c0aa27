"""A bird on paper: what is written of it, its candidate parents and grandparents, and the egg it came from."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, Literal

from broodline.book.birds import bird_id, birds_of
from broodline.book.own_words import own_words
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.errors import NotFound
from broodline.reports.family import family_report
from broodline.reports.flock_pedigree import Flock, FlockBird, flock_of
from broodline.trade.calendar import local_date
from broodline.trade.counted import many

GENERATIONS = 2
LIKELY = 0.005  # a parent less likely than that is left out of the paper
_ROLES: tuple[Literal["sire", "dam"], ...] = ("sire", "dam")
_SEXES = {"male": "cock", "female": "hen", "unknown": "sex not known"}


def bird_sheet(standing: Standing, name: str, now: datetime) -> dict[str, Any]:
    """{title, bird: {id, label, what}, lines: [[what, value]], forebears: [{role, label, chance, what, above: [the
    same]}], inbreeding, egg}: parents and grandparents, each with the chance that it is one. now: aware. Raises
    NotFound."""
    today = local_date(now, standing.keeper.zone)
    flock = flock_of(standing, today)
    one = flock.birds.get(bird_id(standing, name))
    body = birds_of(standing, today)[one.id].body if one is not None else None
    if one is None or body is None:
        raise NotFound("There is no such bird.")
    tags = [" ".join(filter(None, (tag.leg, tag.colour, tag.kind, tag.text))) for tag in body.tags or ()]
    family = standing.families.get(one.family or "")
    lines: list[list[str | None]] = [
        ["Breed", ", ".join(filter(None, (one.kind, body.variety or (None if family is None else family.variety))))],
        [own_words(standing.keeper).family.capitalize(), None if family is None else family.name],
        ["Sex", _SEXES[one.sex]],
        ["Hatched", one.hatched_on],
        ["Rings and tags", "; ".join(tags)],
        ["Webs marked", ", ".join(body.webs or ())],
        ["Carries", ", ".join(one.carries)],
        ["Came from", None if body.origin is None else body.origin.holding],
    ]
    found = next(bird for bird in family_report(standing, now)["birds"] if bird["bird"] == one.id)
    hatched = [lot for of in body.lots or () if (lot := standing.lots.get(of.lot)) is not None and lot.setting]
    return {
        "title": "Certificate of hatch" if hatched else "Pedigree",
        "bird": {"id": one.id, "label": one.label, "what": _what(standing, one)},
        "lines": [line for line in lines if line[1]],
        "forebears": _forebears(standing, flock, one, GENERATIONS),
        "inbreeding": _inbreeding(found),
        "egg": _egg(standing, body),
    }


def _forebears(standing: Standing, flock: Flock, one: FlockBird, deep: int) -> list[dict[str, Any]]:
    """Sires before dams, the likelier first; each with its own forebears, `deep` generations in all."""
    told: list[dict[str, Any]] = []
    for role in _ROLES:
        for name, chance in one.parents.chances(role).items():
            above = flock.birds.get(name or "")
            if name is None or above is None or chance < LIKELY:
                continue
            told.append(
                {
                    "role": role,
                    "label": above.label,
                    "what": _what(standing, above),
                    "chance": None if chance > 1 - LIKELY else f"{chance * 100:.0f} %",
                    "above": _forebears(standing, flock, above, deep - 1) if deep > 1 else [],
                }
            )
    return told


def _what(standing: Standing, one: FlockBird) -> str:
    family = standing.families.get(one.family or "")
    hatched = f"hatched {day_told(one.hatched_on, standing.keeper.region)}" if one.hatched_on else None
    return ", ".join(filter(None, (family.name if family else None, _SEXES[one.sex], hatched)))


def _inbreeding(found: Mapping[str, Any]) -> str:
    """With how far back it is known: without that, 0 % would read as "not inbred"."""
    if found["F"] is None:
        return "unknown, since nothing is written of the forebears"
    low, high = found["F_low"], found["F_high"]
    told = f"{found['F'] * 100:.1f} %"
    if round(low, 3) != round(high, 3):
        told += f" ({low * 100:.1f} to {high * 100:.1f} %, as the parents turn out)"
    if not found["completeness"]:
        return "a founder of the line here: its own forebears are not known"
    return f"{told}, with {found['completeness']:.1f} generations of forebears known"


def _egg(standing: Standing, body: Any) -> str | None:
    """Of a bird of one batch only."""
    lots = body.lots or []
    lot = standing.lots.get(lots[0].lot) if len(lots) == 1 else None
    setting = standing.settings.get(lot.setting or "") if lot is not None else None
    if lot is None or setting is None:
        return None
    laid = " to ".join(
        day_told(day, standing.keeper.region) for day in dict.fromkeys((lot.laid_from, lot.laid_to)) if day
    )
    hatched = sum(lot.stages.get(stage, 0) for stage in CHICK_STAGES)
    return f"One of {many(lot.n, 'egg')}{f', laid {laid}' if laid else ''}, of which {hatched + lot.missing} hatched."
