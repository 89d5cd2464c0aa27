"""Values of a row: days, counts, sexes, species as keepers write them. Each gives a value, or says what is wrong."""

import re
import unicodedata
from datetime import date

from broodline.book.told_days import day_told
from broodline.exchange.days_in import DaysRead, is_two_days, read_day
from broodline.exchange.table_in import Value
from broodline.trade.species import SPECIES

_COUNT = re.compile(r"(\d+)(?:[.,]0+)?", re.ASCII)
_NOTHING = ("", "-", "–", "—", "?", "n/a", "na", "n.a.", "none")
_FAULTS = ("#ref!", "#n/a", "#name?", "#value!", "#div/0!", "#null!", "#num!", "#spill!", "#calc!")
_SUM = re.compile(r"((grand|sub)[\s-]*)?(totals?|sums?|average|mean|gesamt|summe|somme|moyenne|∑|ø)\b[\s:=]*[\d.,\s%]*")
_SEXES = {
    "male": ("m", "male", "cock", "cockerel", "rooster", "drake", "gander", "tom", "stag", "1.0", "♂"),
    "female": ("f", "female", "hen", "pullet", "duck", "goose", "0.1", "♀"),
    "unknown": ("", "?", "u", "unknown", "chick", "0.0.1"),
}
_SPECIES_WORDS = {"chickens": "chicken", "fowl": "chicken", "hen": "chicken", "ducks": "duck", "quail": "coturnix"}
MOST_EGGS = 10_000
NEEDED_COUNTS = ("eggs", "hatched")


class Unread(Exception):
    """A value that cannot be read. field, message, remedy: for the keeper."""

    def __init__(self, field: str, message: str, remedy: str) -> None:
        super().__init__(message)
        self.field, self.message, self.remedy = field, message, remedy


def name_key(text: str) -> str:
    """What two spellings of one name share: letters large or small, composed or not, spaces one or many."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split())


def is_sum(text: str) -> bool:
    """Whether a row that begins so adds up the others.

    >>> is_sum("Total 120"), is_sum("Grand total:"), is_sum("Totnes")
    (True, True, False)
    """
    return _SUM.fullmatch(name_key(text)) is not None


def text_of(value: Value) -> str:
    """What stands in the cell, whole numbers without a point."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()


def sound(field: str, value: Value) -> Value:
    """The value of a cell. Raises Unread for a formula's fault, and for letters that were lost when it was saved."""
    if isinstance(value, str):
        if value.casefold() in _FAULTS:
            message = f"The cell shows the fault {value} of a formula."
            raise Unread(field, message, "Put the formula right, save the table, and choose it anew.")
        if "\ufffd" in value:
            raise Unread(field, f"Letters of “{value}” cannot be read.", "Save the table as .xlsx, or as CSV in UTF-8.")
    return value


def says_nothing(text: str) -> bool:
    """Whether a cell says no more than an empty one.

    >>> says_nothing("N/A"), says_nothing(""), says_nothing("0")
    (True, True, False)
    """
    return name_key(text) in _NOTHING


def day_of(field: str, value: Value, *, days: DaysRead, latest: date) -> date | None:
    """A day, None for an empty cell. Raises Unread, also for a day after `latest`."""
    if says_nothing(text_of(value)):
        return None
    if is_two_days(value, days):
        message = f"“{text_of(value)}” can be two days, and this table writes its days in two orders."
        raise Unread(field, message, "Say which order it is, or write it as 2025-03-08.")
    found = read_day(value, days)
    if found is None:
        raise Unread(field, f"“{text_of(value)}” is no day.", "Write it as 2025-03-08.")
    if found.year < 1900 or found > latest:
        raise Unread(field, f"{day_told(found, None)} lies in the future or long ago.", "Correct the year.")
    return found


def count_of(field: str, value: Value) -> int | None:
    """A whole number from 0, None for an empty cell. Raises Unread."""
    text = text_of(value)
    if says_nothing(text):
        return None
    if "%" in text:
        raise Unread(field, f"“{text}” is a share.", "Write how many, not which part of them.")
    found = None if isinstance(value, bool) else _COUNT.fullmatch(text)
    if found is None or int(found[1][:9]) > MOST_EGGS:
        empty = "." if field in NEEDED_COUNTS else ", or leave the cell empty."
        raise Unread(field, f"“{text}” is no count.", f"Write a whole number and nothing else{empty}")
    return int(found[1])


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
