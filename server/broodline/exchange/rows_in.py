"""What rows of tables are taken in with: the book as it stands, entries made so far, and what is wrong with a row."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from broodline.book.birds import birds_of
from broodline.book.imported import is_imported
from broodline.book.standing import Standing
from broodline.book.told_days import day_told
from broodline.exchange.brought import Claims, day_of_setting, place_of_setting
from broodline.exchange.columns import Matched
from broodline.exchange.days_in import DaysRead, Order, days_read
from broodline.exchange.drafts import Drafts
from broodline.exchange.family_names import FamilyNames
from broodline.exchange.headings import plain
from broodline.exchange.row_values import Unread, count_of, day_of, is_sum, name_key, sound, text_of
from broodline.exchange.table_in import Line, Value, is_empty


@dataclass(frozen=True, slots=True)
class BadRow:
    """What is wrong with a row. number: as the spreadsheet counts; 0 for the whole sheet. taken: the row was taken in
    without this field. as_read: it was taken in whole, and this only says how it was read."""

    sheet: str
    number: int
    field: str
    message: str
    remedy: str
    taken: bool = False
    as_read: bool = False


@dataclass(slots=True)
class Taking:
    """One import. birds, places: what a row may name -> id, of the book and of the file, under their `name_key`.
    twice: names that more than one bird is known by. asked: "species", "breed" where rows do not say them."""

    standing: Standing
    drafts: Drafts
    today: date
    species: str | None
    breed: str | None
    bad: list[BadRow] = field(default_factory=list)
    families: FamilyNames = field(default_factory=FamilyNames)
    birds: dict[str, str] = field(default_factory=dict)
    twice: set[str] = field(default_factory=set)
    places: dict[str, str] = field(default_factory=dict)
    species_of: dict[str, str] = field(default_factory=dict)  # family id -> species
    eggs_set: set[tuple[date, str, str]] = field(
        default_factory=set
    )  # in the app: day, place and family, by their keys
    claims: Claims = field(default_factory=Claims)
    lots_read: set[str] = field(default_factory=set)  # of the book, that a row of the file has said
    asked: set[str] = field(default_factory=set)
    read_as: set[tuple[str, str]] = field(default_factory=set)  # sheet and spelling that were told

    def __post_init__(self) -> None:
        for one, family in self.standing.families.items():
            self.families.add(family.name, one)
            self.species_of[one] = family.species
        for one, place in self.standing.places.items():
            self.places[name_key(place.name)] = one
        for setting in self.standing.settings.values():
            if is_imported(setting.id):
                continue
            on, where = day_of_setting(self.standing, setting), place_of_setting(self.standing, setting)
            for lot in setting.lots:
                whose = self.standing.families.get(self.standing.lots[lot].family or "")
                if whose is not None:
                    self.eggs_set.add((on, where, name_key(whose.name)))
        for one, bird in birds_of(self.standing, None).items():
            for name in {
                name_key(text) for text in (bird.body.name, *(tag.text for tag in bird.body.tags or ())) if text
            }:
                if self.birds.setdefault(name, one) != one:
                    self.twice.add(name)

    def told(self, day: date) -> str:
        """A day in the words of the keeper's region."""
        return day_told(day, self.standing.keeper.region)

    def refuse(self, row: "Row", fault: Unread, *, taken: bool = False, as_read: bool = False) -> None:
        """Note what is wrong with a row, or how it was read."""
        one = BadRow(row.matched.table.name, row.line.number, fault.field, fault.message, fault.remedy, taken, as_read)
        self.bad.append(one)

    def whose(self, row: "Row", name: str) -> str | None:
        """The family a row names, also in other words, which is told once a spelling; None for a new one. Raises
        Unread where it may be several."""
        known = self.families.known(name)
        if known is None and (known := self.families.near(name)) is not None:
            self.tell_reading(row, name, self.families.names[known])
        return known

    def tell_reading(self, row: "Row", name: str, read: str) -> None:
        """That a name was read as another, once for each spelling of a sheet."""
        fault = Unread(
            "family", f"“{name}” was read as {read}.", "If they are two, give each a row among the families."
        )
        told = (row.matched.table.name, name)
        if told not in self.read_as:
            self.read_as.add(told)
            self.refuse(row, fault, taken=True, as_read=True)


@dataclass(frozen=True, slots=True)
class Row:
    """One row, its fields by name."""

    matched: Matched
    line: Line
    days: DaysRead

    def value(self, name: str) -> Value:
        """None where there is no such column."""
        place = self.matched.columns.get(name)
        return None if place is None else self.line.values[place]

    def text(self, name: str) -> str:
        """Never None."""
        return text_of(self.value(name))

    def day(self, name: str, latest: date) -> date | None:
        """Raises Unread."""
        return day_of(name, self.value(name), days=self.days, latest=latest)

    def count(self, name: str) -> int | None:
        """Raises Unread, also where the column is headed as one of shares."""
        place = self.matched.columns.get(name)
        heading = "" if place is None else self.matched.table.headings[place]
        found = count_of(name, self.value(name))
        if found is not None and {"percent", "pct", "rate"} & set(plain(heading).split()):
            message = f"The column “{heading}” holds shares, not counts."
            raise Unread(name, message, "Choose the column that says how many.")
        return found


def rows_of(matched: Matched, *, american: bool, dates: Order | None) -> list[Row]:
    """All rows of a table. dates: the order of days in digits that the keeper told; None: told by any day of the table
    that can be read in one way only, else by the country."""
    table = matched.table
    places = [place for name, place in matched.columns.items() if name.endswith("_on")]
    cells = (row.values[n] for row in table.rows for n in places)
    days = days_read(cells, american=american, told=dates, serial_from=table.serial_from)
    return [Row(matched, line, days) for line in table.rows]


def usable(taking: Taking, rows: Iterable[Row]) -> list[Row]:
    """Those that are neither sums of the others nor damaged; the others are told."""
    found = []
    for row in rows:
        first = next((value for value in row.line.values if not is_empty(value)), None)
        if isinstance(first, str) and is_sum(first):
            field_of = next((name for name, n in row.matched.columns.items() if row.line.values[n] == first), "")
            message = f"“{first}” adds up other rows, and was left out."
            remedy = "Nothing is to be done, unless that is a name: then write it otherwise."
            taking.refuse(row, Unread(field_of or next(iter(row.matched.columns)), message, remedy), as_read=True)
            continue
        try:
            for name in row.matched.columns:
                sound(name, row.value(name))
        except Unread as fault:
            taking.refuse(row, fault)
            continue
        found.append(row)
    return found


def without_empty(body: dict[str, Any]) -> dict[str, Any]:
    """The body without fields that say nothing."""
    return {name: value for name, value in body.items() if value not in (None, "", [])}
