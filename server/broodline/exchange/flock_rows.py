"""Families and birds from rows of a table."""

from collections import Counter
from collections.abc import Sequence
from datetime import date, time
from typing import Any

from broodline.exchange.family_names import loose_key
from broodline.exchange.headings import plain
from broodline.exchange.row_values import Unread, name_key, sex_of, species_of
from broodline.exchange.rows_in import Row, Taking, usable, without_empty

_SHELLS = {"white": "white", "tinted": "tinted", "cream": "tinted", "brown": "brown", "dark": "dark", "blue": "blue"}
_SHELLS |= {"green": "blue", "olive": "other", "other": "other", "dark brown": "dark"}
_LEFT = {"died": "died", "dead": "died", "culled": "culled", "sold": "sold", "given": "given", "gift": "given"}
_LEFT |= {"lost": "lost", "missing": "lost", "lent": "lent"}
_HERE = frozenset(("here", "alive", "kept", "breeding", "no", "active"))


def take_families(taking: Taking, rows: Sequence[Row]) -> None:
    """A family that the book knows by name stays as it is; what the row says otherwise is told."""
    for row in usable(taking, rows):
        try:
            _take_family(taking, row)
        except Unread as fault:
            taking.refuse(row, fault)


def _take_family(taking: Taking, row: Row) -> None:
    name = row.text("name")
    if not name:
        raise Unread("name", "The row names no family.", "Give it a name, or delete the row.")
    taking.claims.families.add(name_key(name))
    species, breed = said_or_asked(taking, species_of(row.value("species")), row.text("breed"))
    if species is None:
        raise Unread("species", f"Nothing says which species {name} is.", "Add a column, or say it once for all rows.")
    if not breed:
        raise Unread("breed", f"Nothing says which breed {name} is.", "Add a column, or say it once for all rows.")
    shell = row.text("shell").casefold()
    if shell and shell not in _SHELLS:
        raise Unread("shell", f"The shell “{shell}” is not known.", f"Write one of: {', '.join(sorted(_SHELLS))}.")
    body = without_empty(
        {
            "name": name,
            "species": species,
            "breed": breed,
            "variety": row.text("variety"),
            "shell": _SHELLS.get(shell),
            "sign": row.text("sign"),
        }
    )
    near = taking.families.loose.get(loose_key(name))
    if taking.families.known(name) is None and near:
        other = taking.families.names[next(iter(near))]
        fault = Unread("name", f"{name} and {other} are taken for two families.", "If they are one, delete this row.")
        taking.refuse(row, fault, taken=True, as_read=True)
    one = add_family(taking, body)
    for field in ("species", "breed", "variety", "shell", "sign"):
        kept = known_of(taking, one, field)
        if row.text(field) and body[field] != kept:
            message = f"{name} is known with {f'the {field} {kept}' if kept else f'no {field}'}."
            remedy = "Change the family in the app, or give this row a name of its own."
            taking.refuse(row, Unread(field, message, remedy), taken=True)


def known_of(taking: Taking, one: str, field: str) -> str | None:
    """What the book, or else the file, has of a family."""
    draft, known = taking.drafts.entries.get(one), taking.standing.families.get(one)
    text = getattr(known, field) if known is not None else None if draft is None else draft.body.get(field)
    return None if text is None else str(text)


def said_or_asked(taking: Taking, species: str | None, breed: str) -> tuple[str | None, str | None]:
    """What a row says of both, else what the keeper says of all rows, who is asked then."""
    taking.asked |= {name for name, said in (("species", species), ("breed", breed)) if not said}
    return species or taking.species, breed or taking.breed


def add_family(taking: Taking, body: dict[str, Any], day: date | None = None) -> str:
    """The family's id: of the book's where it has one of that name, else of a new one. day: marks a new one's id."""
    known = taking.families.known(body["name"])
    one = taking.drafts.name_once("family", body, day)
    if known is not None and known != one:
        return known
    taking.drafts.put(one, "family", body)
    taking.families.add(body["name"], one)
    taking.species_of[one] = body["species"]
    return one


def take_birds(taking: Taking, rows: Sequence[Row]) -> None:
    """Parents are taken in before their young, in whatever order the rows stand."""
    rows = usable(taking, rows)
    named: dict[str, Row] = {}
    times = Counter(key for row in rows for key in set(_names(row)))
    for row in rows:
        for key in _names(row):
            named.setdefault(key, row)
            taking.birds.pop(key, None)  # the file's own birds first, also when it is read again
            taking.twice.discard(key)
    taking.twice |= {key for key, n in times.items() if n > 1}
    done: set[int] = set()
    for row in rows:
        _take_bird(taking, row, named, done, ())


def _take_bird(taking: Taking, row: Row, named: dict[str, Row], done: set[int], young: tuple[int, ...]) -> None:
    if row.line.number in done or row.line.number in young or len(young) > 100:
        return
    for parent in ("sire", "dam"):
        above = named.get(name_key(row.text(parent)))
        if above is not None:
            _take_bird(taking, above, named, done, (*young, row.line.number))
    done.add(row.line.number)
    try:
        _write_bird(taking, row)
    except Unread as fault:
        taking.refuse(row, fault)


def _write_bird(taking: Taking, row: Row) -> None:
    if not _names(row):
        raise Unread("name", "The row has neither a name nor a ring.", "Give the bird one of them.")
    hatched = row.day("hatched_on", taking.today)
    left = row.day("left_on", taking.today)
    how = _how_left(row)
    if how and how not in _HERE and how not in _LEFT:
        raise Unread("left_how", f"“{how}” does not say how it left.", f"Write one of: {', '.join(sorted(_LEFT))}.")
    if how in _LEFT and left is None:
        raise Unread("left_on", "Nothing says on which day it left.", "Add a column with the day, even if about.")
    if left is not None and how not in _LEFT:
        message = f"It left on {left.isoformat()}, and " + (f"“{how}” says it is here." if how else "nothing says how.")
        raise Unread("left_how", message, f"Write one of: {', '.join(sorted(_LEFT))}; or delete the day.")
    family = row.text("family")
    whose = taking.whose(row, family) if family else None
    if family and whose is None:
        raise Unread(
            "family", f"There is no family named {family}.", "Take the families in first, or correct the name."
        )
    ring = {"kind": "ring", "colour": row.text("ring_colour"), "leg": _leg(row), "text": row.text("ring")}
    body = without_empty(
        {
            "name": row.text("name"),
            "sex": sex_of(row.value("sex")),
            "family": whose,
            "species": species_of(row.value("species")),
            "breed": row.text("breed"),
            "variety": row.text("variety"),
            "hatched_on": None if hatched is None else hatched.isoformat(),
            "tags": [without_empty(ring)] if row.text("ring") else [],
            "sires": _parent(taking, row, "sire"),
            "dams": _parent(taking, row, "dam"),
            "origin": without_empty({"holding": row.text("from")}) or None,
        }
    )
    said = {**body, **{name: row.text(name) for name in ("family", "sire", "dam")}, "sires": None, "dams": None}
    one = taking.drafts.write("bird", body, hatched, said=said)
    for key in _names(row):
        taking.birds.setdefault(key, one)
    if left is not None:
        gone = {"bird": one, "on": left.isoformat(), "how": _LEFT[how]}
        taking.drafts.write("left", gone, left, time(12))


def _names(row: Row) -> list[str]:
    return [name_key(text) for text in (row.text("name"), row.text("ring")) if text]


def _how_left(row: Row) -> str:
    """As the row says; a column headed "died on" says it of all days in it."""
    how, place = row.text("left_how").casefold(), row.matched.columns.get("left_on")
    if not how and place is not None and row.text("left_on"):
        return next((word for word in plain(row.matched.table.headings[place]).split() if word in _LEFT), "")
    return how


def _leg(row: Row) -> str | None:
    text = row.text("leg").casefold()
    for leg in ("left", "right"):
        if text in (leg, leg[0]):
            return leg
    if text:
        raise Unread("leg", f"“{text}” is no leg.", "Write left or right.")
    return None


def _parent(taking: Taking, row: Row, name: str) -> list[dict[str, str]]:
    text = row.text(name)
    if not text:
        return []
    one = taking.birds.get(name_key(text))
    twice = name_key(text) in taking.twice
    if one is None or twice:
        message = f"{'Several birds are' if twice else 'No bird is'} known as {text}."
        fault = Unread(name, message, "Name it by a ring that no other wears." if twice
                       else "Give that bird a row, or name it as the book does.")  # fmt: skip
        taking.refuse(row, fault, taken=True)
        return []
    return [{"bird": one}]
