"""What rows of tables are taken in with: the book as it stands, entries made so far, and what is wrong with a row."""

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from broodline.book.birds import birds_of
from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.exchange.columns import Matched
from broodline.exchange.drafts import Drafts
from broodline.exchange.row_values import Unread, day_first, day_of, text_of
from broodline.exchange.table_in import TableRow, Value
from broodline.trade.calendar import local_date


@dataclass(frozen=True, slots=True)
class BadRow:
    """What is wrong with a row. number: as the spreadsheet counts. taken: the row was taken in without this field."""

    sheet: str
    number: int
    field: str
    message: str
    remedy: str
    taken: bool = False


@dataclass(slots=True)
class Taking:
    """One import. families, birds, places: what a row may name, in small letters -> id, of the book and of the file."""

    standing: Standing
    drafts: Drafts
    today: date
    species: str | None
    breed: str | None
    bad: list[BadRow] = field(default_factory=list)
    families: dict[str, str] = field(default_factory=dict)
    birds: dict[str, str] = field(default_factory=dict)
    places: dict[str, str] = field(default_factory=dict)
    species_of: dict[str, str] = field(default_factory=dict)  # family id -> species
    eggs_set: set[tuple[date, str, str]] = field(default_factory=set)  # day, place and family, in small letters

    def __post_init__(self) -> None:
        for one, family in self.standing.families.items():
            self.families[family.name.casefold()] = one
            self.species_of[one] = family.species
        for one, place in self.standing.places.items():
            self.places[place.name.casefold()] = one
        for setting in self.standing.settings.values():
            where = self.standing.places.get(self.standing.root_of.get(setting.place, setting.place))
            on = date.fromisoformat(local_date(instant(setting.set_at_ms), self.standing.keeper.zone))
            for lot in setting.lots:
                whose = self.standing.families.get(self.standing.lots[lot].family or "")
                if where is not None and whose is not None:
                    self.eggs_set.add((on, where.name.casefold(), whose.name.casefold()))
        for one, bird in birds_of(self.standing, None).items():
            for name in (bird.body.name, *(tag.text for tag in bird.body.tags or ())):
                if name:
                    self.birds[name.casefold()] = one

    def refuse(self, row: "Row", fault: Unread, *, taken: bool = False) -> None:
        """Note what is wrong with a row."""
        sheet = row.matched.table.name
        self.bad.append(BadRow(sheet, row.row.number, fault.field, fault.message, fault.remedy, taken))


@dataclass(frozen=True, slots=True)
class Row:
    """One row, its fields by name."""

    matched: Matched
    row: TableRow
    days_first: bool

    def value(self, name: str) -> Value:
        """None where there is no such column."""
        place = self.matched.columns.get(name)
        return None if place is None else self.row.values[place]

    def text(self, name: str) -> str:
        """Never None."""
        return text_of(self.value(name))

    def day(self, name: str, latest: date) -> date | None:
        """Raises Unread."""
        return day_of(name, self.value(name), days_first=self.days_first, latest=latest)


def rows_of(matched: Matched, *, american: bool, days_first: bool | None) -> list[Row]:
    """All rows of a table. days_first: the keeper said so; None: told by any day of the table that can be read in one
    way only, else by the country."""
    if days_first is None:
        places = [place for name, place in matched.columns.items() if name.endswith("_on")]
        days_first = day_first((row.values[n] for row in matched.table.rows for n in places), american=american)
    return [Row(matched, row, days_first) for row in matched.table.rows]


def without_empty(body: dict[str, Any]) -> dict[str, Any]:
    """The body without fields that say nothing."""
    return {name: value for name, value in body.items() if value not in (None, "", [])}
