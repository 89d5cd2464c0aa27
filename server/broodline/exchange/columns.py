"""Which column of a table holds what: suggested from its heading, or told by the keeper.

A table is of one kind: families, birds, or the counts of past hatches.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from broodline.errors import EnvelopeError
from broodline.exchange.headings import plain
from broodline.exchange.table_in import TableIn

Kind = Literal["families", "birds", "hatches"]
KINDS: tuple[Kind, ...] = get_args(Kind)  # also the order in which they are taken in


@dataclass(frozen=True, slots=True)
class Field:
    """name: for options and answers. words: headings that mean it, in small letters without signs. needed: or no row
    can be read."""

    name: str
    words: tuple[str, ...]
    needed: bool = False


_SPECIES = Field("species", ("species", "poultry", "kind of bird"))
_BREED = Field("breed", ("breed",))
_VARIETY = Field("variety", ("variety", "colour variety", "color", "colour", "plumage"))
_FAMILY = ("family", "line", "strain", "family name", "line name", "strain name", "bloodline", "group", "pen")
FIELDS: Mapping[Kind, tuple[Field, ...]] = {
    "families": (
        Field("name", ("name", *_FAMILY), needed=True),
        _SPECIES,
        Field("breed", ("breed",)),
        _VARIETY,
        Field("shell", ("shell", "shell colour", "shell color", "egg colour", "egg color")),
        Field("sign", ("sign", "mark", "egg mark", "sign on eggs", "initial", "letter")),
    ),
    "birds": (
        Field("name", ("name", "bird", "bird name", "known by")),
        Field("ring", ("ring", "band", "ring number", "band number", "leg ring", "leg band", "tag", "ring no", "no")),
        Field("ring_colour", ("ring colour", "ring color", "band color", "band colour")),
        Field("leg", ("leg", "ring leg", "side")),
        Field("sex", ("sex", "gender", "m f", "cock hen")),
        Field("family", _FAMILY),
        _SPECIES,
        _BREED,
        _VARIETY,
        Field(
            "hatched_on", ("hatched on", "hatched", "hatch date", "born", "date of hatch", "hatch day", "birth date")
        ),
        Field("sire", ("sire", "father", "cock", "rooster", "dad")),
        Field("dam", ("dam", "mother", "hen", "mum", "mom")),
        Field("from", ("from", "origin", "breeder", "bought from", "source")),
        Field("left_on", ("left on", "died on", "gone on", "date left")),
        Field("left_how", ("left", "how it left", "fate", "status")),
    ),
    "hatches": (
        Field("set_on", ("set on", "set", "set date", "date set", "date", "day set", "into incubator"), needed=True),
        Field("family", _FAMILY, needed=True),
        _SPECIES,
        _BREED,
        Field("eggs", ("eggs", "eggs set", "number set", "set eggs", "n", "no of eggs", "number of eggs"), needed=True),
        Field("place", ("place", "incubator", "machine", "where")),
        Field("clear", ("clear", "clears", "infertile", "clear eggs", "not fertile", "unfertile")),
        Field("blood_ring", ("blood ring", "blood rings", "early dead", "died early", "quitters early", "rings")),
        Field("quitter", ("quitter", "quitters", "dead at candling", "died at candling", "dead in egg")),
        Field("cracked", ("cracked", "broken", "cracks")),
        Field("rotten", ("rotten", "bad", "bad eggs")),
        Field("unhatched", ("unhatched", "dead in shell", "not hatched", "late dead", "died late", "did not hatch")),
        Field("hatched", ("hatched", "chicks", "chicks hatched", "number hatched", "hatch"), needed=True),
        Field("died_first_week", ("died first week", "died in the first week", "died by day 7", "losses", "died")),
        Field("kept", ("kept", "reared", "grown", "kept birds")),
        Field("sold", ("sold", "chicks sold", "sold chicks", "sold or given", "given away")),
        Field("note", ("note", "notes", "remarks", "comment", "comments")),
    ),
}


KNOWN = frozenset(word for fields in FIELDS.values() for field in fields for word in field.words)

# One of each is seen, or a sheet among others is about something else.
_SURE: Mapping[Kind, tuple[tuple[str, ...], ...]] = {
    "families": (("species", "breed"),),
    "birds": (("name", "ring"), ("sex", "hatched_on")),
    "hatches": (),
}


@dataclass(frozen=True, slots=True)
class Matched:
    """A table with its kind, and where each field stands. columns: field -> place of the column."""

    table: TableIn
    kind: Kind
    columns: Mapping[str, int]

    @property
    def missing(self) -> list[str]:
        """Fields without which nothing can be read."""
        return [name for name in self.needed if name not in self.columns]

    @property
    def needed(self) -> list[str]:
        """Fields that every row needs."""
        return [field.name for field in FIELDS[self.kind] if field.needed]

    @property
    def is_sure(self) -> bool:
        """Whether enough of the headings are known for a sheet among others to be taken for one of its kind."""
        return not self.missing and all(any(name in self.columns for name in some) for some in _SURE[self.kind])

    @property
    def passed_over(self) -> list[str]:
        """Headings that nothing is read from."""
        used = set(self.columns.values())
        return [name for place, name in enumerate(self.table.headings) if name and place not in used]


def match_columns(table: TableIn, kind: Kind | None, told: Mapping[str, str]) -> Matched:
    """kind: None finds it. told: field -> heading, which wins over what headings suggest; "" for a column that is not
    to be read. Raises EnvelopeError for a field or heading that is not there."""
    if kind is not None:
        return _matched(table, kind, told)
    found = [_matched(table, one, _known_to(one, told)) for one in KINDS]
    return max(found, key=lambda one: (one.is_sure, not one.missing, len(one.columns), one.kind == "hatches"))


def _known_to(kind: Kind, told: Mapping[str, str]) -> dict[str, str]:
    return {field.name: told[field.name] for field in FIELDS[kind] if field.name in told}


def _matched(table: TableIn, kind: Kind, told: Mapping[str, str]) -> Matched:
    names = {field.name for field in FIELDS[kind]}
    if unknown := sorted(set(told) - names):
        raise EnvelopeError(
            "columns", f"{kind} have nothing named {unknown[0]}.", remedy=f"They have: {', '.join(sorted(names))}."
        )
    columns: dict[str, int] = {}
    for name, heading in told.items():
        if heading:
            columns[name] = _place_of(table, heading)
    for headings in _ways(table):
        for rank in range(max(len(field.words) for field in FIELDS[kind])):
            for field in FIELDS[kind]:
                if field.name in told or field.name in columns or rank >= len(field.words):
                    continue
                place = next((n for n, text in enumerate(headings) if text == field.words[rank]), None)
                if place is not None and place not in columns.values():
                    columns[field.name] = place
    return Matched(table, kind, columns)


def _ways(table: TableIn) -> list[list[str]]:
    """The headings as they are matched: with what stands above them first, "Eggs" over "set", then by themselves."""
    alone = [plain(heading) for heading in table.headings]
    if not table.above:
        return [alone]
    return [[plain(f"{above} {own}") for above, own in zip(table.above, table.headings, strict=True)], alone]


def _place_of(table: TableIn, heading: str) -> int:
    for place, name in enumerate(table.headings):
        if plain(name) == plain(heading):
            return place
    there = ", ".join(name for name in table.headings if name)
    raise EnvelopeError("columns", f"No column is headed {heading}.", remedy=f"The headings are: {there}.")
