"""What tables brought into the book, found by what a file says now: also where it was corrected since, or where the
breed that was told of its rows is not told again.

What a table brought is known by its ids. Of a file's rows it is that of the same day, machine and family; families and
machines by their names.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from broodline.book.imported import FOUNDED_BY_HATCHES, UNDATED, is_imported, is_of, is_unnamed_machine
from broodline.book.moments import instant
from broodline.book.standing import Head, Setting, Standing
from broodline.exchange.family_names import loose_key
from broodline.exchange.row_values import name_key
from broodline.trade.calendar import local_date
from broodline.trade.species import SPECIES

_OPENED_DAYS = 3


@dataclass(slots=True)
class Claims:
    """What the rows of a file speak of, read or refused. hatches: day, machine and family, by their keys. families:
    names of families that have a row of their own. places: machines, by their keys."""

    hatches: set[tuple[date, str, str]] = field(default_factory=set)
    families: set[str] = field(default_factory=set)
    places: set[str] = field(default_factory=set)

    def hatch(self, on: date, place: str, family: str) -> None:
        """A row of past hatches."""
        self.hatches.add((on, name_key(place), loose_key(family)))
        self.places.add(name_key(place))


@dataclass(frozen=True, slots=True)
class Brought:
    """roots: what goes as a whole. parts: heads of which only some lots go, with the body that stays."""

    roots: frozenset[str]
    parts: tuple[tuple[Head, dict[str, Any]], ...]


def day_of_setting(standing: Standing, setting: Setting) -> date:
    """The day its eggs were set, in the holding."""
    return date.fromisoformat(local_date(instant(setting.set_at_ms), standing.keeper.zone))


def place_of_setting(standing: Standing, setting: Setting) -> str:
    """The key of its machine's name."""
    place = standing.places.get(standing.root_of.get(setting.place, setting.place))
    return "" if place is None else name_key(place.name)


def opened_on(on: date, species: str) -> date:
    """The day after which nobody can open the eggs any more that were set on that day."""
    return on + timedelta(days=SPECIES[species].period_days[1] + _OPENED_DAYS)


def brought_by(claims: Claims, standing: Standing) -> Brought:
    """What the book has of a file's rows."""
    settings = [one for one in standing.settings.values() if is_imported(one.id)]
    lots = {lot for one in settings for lot in one.lots if _key(standing, one, lot) in claims.hatches}
    gone = [one for one in settings if one.lots and lots.issuperset(one.lots)]
    opened = {(one.place, opened_on(day_of_setting(standing, one), one.species).isoformat()) for one in gone}
    roots = {one.id for one in gone}
    whose = {loose for _, _, loose in claims.hatches}
    parts: list[tuple[Head, dict[str, Any]]] = []
    for head in _imported(standing, "looked", "care", "family", "place"):
        body: Any = head.body
        if (
            (head.kind == "looked" and body.lot in lots)
            or (head.kind == "care" and body.task == "open" and (body.place, body.on) in opened)
            or (head.kind == "family" and is_of(head.root, UNDATED) and name_key(body.name) in claims.families)
            or (head.kind == "family" and is_of(head.root, FOUNDED_BY_HATCHES) and loose_key(body.name) in whose)
            or (head.kind == "place" and _is_machine(head.root) and name_key(body.name) in claims.places)
        ):
            roots.add(head.root)
    for head in _imported(standing, "set", "moved"):
        if head.root not in roots:
            _part(head, "lots" if head.kind == "set" else "moves", lots, roots, parts)
    return Brought(frozenset(roots), tuple(parts))


def _part(head: Head, name: str, lots: set[str], roots: set[str], parts: list[tuple[Head, dict[str, Any]]]) -> None:
    body = head.body.model_dump(mode="json", by_alias=True, exclude_none=True)
    stays = [one for one in body[name] if one.get("lot") not in lots]
    if not stays and body[name]:
        roots.add(head.root)
    elif len(stays) < len(body[name]):
        parts.append((head, {**body, name: stays}))


def _key(standing: Standing, setting: Setting, lot: str) -> tuple[date, str, str]:
    family = standing.families.get(standing.lots[lot].family or "")
    name = "" if family is None else loose_key(family.name)
    return day_of_setting(standing, setting), place_of_setting(standing, setting), name


def _is_machine(root: str) -> bool:
    return is_of(root, UNDATED) or is_unnamed_machine(root)


def _imported(standing: Standing, *kinds: str) -> Iterable[Head]:
    return (head for kind in kinds for head in standing.heads.get(kind, ()) if is_imported(head.root))
