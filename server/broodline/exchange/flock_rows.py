"""Families and birds from rows of a table."""

from collections.abc import Sequence
from datetime import time
from typing import Any

from broodline.exchange.row_values import Unread, sex_of, species_of
from broodline.exchange.rows_in import Row, Taking, without_empty

_SHELLS = {"white": "white", "tinted": "tinted", "cream": "tinted", "brown": "brown", "dark": "dark", "blue": "blue"}
_SHELLS |= {"green": "blue", "olive": "other", "other": "other", "dark brown": "dark"}
_LEFT = {"died": "died", "dead": "died", "culled": "culled", "sold": "sold", "given": "given", "gift": "given"}
_LEFT |= {"lost": "lost", "missing": "lost", "lent": "lent"}
_HERE = frozenset(("", "here", "alive", "kept", "breeding", "yes", "no", "active"))


def take_families(taking: Taking, rows: Sequence[Row]) -> None:
    """A family that the book knows by name stays as it is."""
    for row in rows:
        try:
            _take_family(taking, row)
        except Unread as fault:
            taking.refuse(row, fault)


def _take_family(taking: Taking, row: Row) -> None:
    name = row.text("name")
    if not name:
        raise Unread("name", "The row names no family.", "Give it a name, or delete the row.")
    species = species_of(row.value("species")) or taking.species
    breed = row.text("breed") or taking.breed
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
    add_family(taking, body)


def add_family(taking: Taking, body: dict[str, Any]) -> str:
    """The family's id: of the book's where it has one of that name, else of a new one."""
    known = taking.families.get(body["name"].casefold())
    one = taking.drafts.name_once("family", body)
    if known is not None and known != one:
        return known
    taking.drafts.put(one, "family", body)
    taking.families[body["name"].casefold()] = one
    taking.species_of[one] = body["species"]
    return one


def take_birds(taking: Taking, rows: Sequence[Row]) -> None:
    """Parents are taken in before their young, in whatever order the rows stand."""
    named: dict[str, Row] = {}
    for row in rows:
        for key in _names(row):
            named.setdefault(key, row)
            taking.birds.pop(key, None)  # the file's own birds first, also when it is read again
    done: set[int] = set()
    for row in rows:
        _take_bird(taking, row, named, done, ())


def _take_bird(taking: Taking, row: Row, named: dict[str, Row], done: set[int], young: tuple[int, ...]) -> None:
    if row.row.number in done or row.row.number in young or len(young) > 100:
        return
    for parent in ("sire", "dam"):
        above = named.get(row.text(parent).casefold())
        if above is not None:
            _take_bird(taking, above, named, done, (*young, row.row.number))
    done.add(row.row.number)
    try:
        _write_bird(taking, row)
    except Unread as fault:
        taking.refuse(row, fault)


def _write_bird(taking: Taking, row: Row) -> None:
    if not _names(row):
        raise Unread("name", "The row has neither a name nor a ring.", "Give the bird one of them.")
    hatched = row.day("hatched_on", taking.today)
    left = row.day("left_on", taking.today)
    how = row.text("left_how").casefold()
    if how not in _HERE and how not in _LEFT:
        raise Unread("left_how", f"“{how}” does not say how it left.", f"Write one of: {', '.join(sorted(_LEFT))}.")
    if how in _LEFT and left is None:
        raise Unread("left_on", "Nothing says on which day it left.", "Add a column with the day, even if about.")
    family = row.text("family")
    if family and family.casefold() not in taking.families:
        raise Unread(
            "family", f"There is no family named {family}.", "Take the families in first, or correct the name."
        )
    ring = {"kind": "ring", "colour": row.text("ring_colour"), "leg": _leg(row), "text": row.text("ring")}
    body = without_empty(
        {
            "name": row.text("name"),
            "sex": sex_of(row.value("sex")),
            "family": taking.families.get(family.casefold()),
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
        gone = {"bird": one, "on": left.isoformat(), "how": _LEFT.get(how, "died")}
        taking.drafts.write("left", gone, left, time(12))


def _names(row: Row) -> list[str]:
    return [text.casefold() for text in (row.text("name"), row.text("ring")) if text]


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
    one = taking.birds.get(text.casefold())
    if one is None:
        fault = Unread(name, f"No bird is known as {text}.", "Give that bird a row, or name it as the book does.")
        taking.refuse(row, fault, taken=True)
        return []
    return [{"bird": one}]
