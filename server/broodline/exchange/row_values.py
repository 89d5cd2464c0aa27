"""Values of a row: days, counts, sexes, species as keepers write them. Each gives a value, or says what is wrong."""

import re
from collections.abc import Iterable
from datetime import date

from broodline.exchange.table_in import Value
from broodline.trade.species import SPECIES

_NUMBERS = re.compile(r"(\d{1,4})[-./\s](\d{1,2})[-./\s](\d{1,4})")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_WITH_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[\s.-]+([a-z]{3,9})[\s.,-]+(\d{4})")
_SEXES = {
    "male": ("m", "male", "cock", "cockerel", "rooster", "drake", "gander", "tom", "stag", "1.0", "♂"),
    "female": ("f", "female", "hen", "pullet", "duck", "goose", "0.1", "♀"),
    "unknown": ("", "?", "u", "unknown", "chick", "0.0.1"),
}
_SPECIES_WORDS = {"chickens": "chicken", "fowl": "chicken", "hen": "chicken", "ducks": "duck", "quail": "coturnix"}
MOST_EGGS = 10_000


class Unread(Exception):
    """A value that cannot be read. field, message, remedy: for the keeper."""

    def __init__(self, field: str, message: str, remedy: str) -> None:
        super().__init__(message)
        self.field, self.message, self.remedy = field, message, remedy


def day_first(values: Iterable[Value], *, american: bool) -> bool:
    """Whether days stand before months in a column: told by any day over 12, else by the country."""
    for value in values:
        found = _NUMBERS.fullmatch(str(value).strip()) if isinstance(value, str) else None
        if found is not None and len(found[1]) < 3:
            if int(found[1]) > 12:
                return True
            if int(found[2]) > 12:
                return False
    return not american


def text_of(value: Value) -> str:
    """What stands in the cell, whole numbers without a point."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()


def day_of(field: str, value: Value, *, days_first: bool, latest: date) -> date | None:
    """A day, None for an empty cell. Raises Unread, also for a day after `latest`."""
    if isinstance(value, date):
        found: date | None = value
    else:
        text = text_of(value).casefold()
        if not text:
            return None
        found = _written_day(text, days_first)
    if found is None:
        raise Unread(field, f"“{text_of(value)}” is no day.", "Write it as 2025-03-08.")
    if found.year < 1900 or found > latest:
        raise Unread(field, f"{found.isoformat()} lies in the future or long ago.", "Correct the year.")
    return found


def count_of(field: str, value: Value) -> int | None:
    """A whole number from 0, None for an empty cell. Raises Unread."""
    text = text_of(value)
    if not text or text == "-":
        return None
    if isinstance(value, bool) or not (text.isascii() and text.isdigit()) or int(text[:9]) > MOST_EGGS:
        raise Unread(field, f"“{text}” is no count.", "Write a whole number, and nothing else, in this column.")
    return int(text)


def sex_of(value: Value) -> str:
    """The sex. Raises Unread."""
    text = text_of(value).casefold()
    for sex, words in _SEXES.items():
        if text in words:
            return sex
    raise Unread("sex", f"“{text_of(value)}” is no sex.", "Write male, female or unknown.")


def species_of(value: Value) -> str | None:
    """The code of the species, None for an empty cell. Raises Unread."""
    text = text_of(value).casefold()
    if not text:
        return None
    text = _SPECIES_WORDS.get(text, text)
    for code, species in SPECIES.items():
        if text in (code, species.name.casefold()):
            return code
    raise Unread("species", f"The species “{text_of(value)}” is not known.", f"Write one of: {', '.join(SPECIES)}.")


def _written_day(text: str, days_first: bool) -> date | None:
    named = _WITH_MONTH.fullmatch(text)
    if named is not None and named[2][:3] in _MONTHS:
        return _day(int(named[3]), _MONTHS.index(named[2][:3]) + 1, int(named[1]))
    found = _NUMBERS.fullmatch(text.removesuffix(" 00:00:00").removesuffix("t00:00:00"))
    if found is None:
        return None
    if len(found[1]) == 4:
        return _day(int(found[1]), int(found[2]), int(found[3]))
    year = int(found[3]) + (2000 if len(found[3]) <= 2 else 0)
    first, second = int(found[1]), int(found[2])
    return _day(year, second, first) if days_first else _day(year, first, second)


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
