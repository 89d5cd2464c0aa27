"""Days as keepers write them: in digits of any order, with the month's name, or as the number a workbook counts by.

03/04/2025 is two days. The order is told by the table's other days where one of them can be read in one way only; it is
never mixed within a table.
"""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal, get_args

from broodline.exchange.table_in import SERIAL_FROM, Value

Order = Literal["dmy", "mdy", "ymd"]
ORDERS: tuple[Order, ...] = get_args(Order)

_DIGITS = re.compile(r"(\d{1,4})\.?[-./\s]\s?(\d{1,2})\.?[-./\s]\s?(\d{1,4})")
_CLOCK = re.compile(r"[t\s]\s*\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*([ap]m|z)?$")
_WEEKDAY, _YEAR = r"(?:[^\W\d]+\.?,?\s+)?", r"[\s.,'-]+(\d{4}|\d{2})"
_DAY_MONTH = re.compile(_WEEKDAY + r"(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s.-]*(?:of\s+)?([^\W\d]+)" + _YEAR)
_MONTH_DAY = re.compile(_WEEKDAY + r"([^\W\d]+)[\s.-]+(\d{1,2})(?:st|nd|rd|th)?" + _YEAR)
_SERIALS = range(20_000, 65_000)  # 1954 to 2077; from 1904 on, 1958 to 2081
# Names of months in English, German and French; any beginning of three letters that can mean one month only is read.
_MONTHS = (
    ("january", "januar", "jänner", "janvier"),
    ("february", "februar", "feber", "février", "fevrier"),
    ("march", "märz", "maerz", "mars", "mrz"),
    ("april", "avril"),
    ("may", "mai"),
    ("june", "juni", "juin"),
    ("july", "juli", "juillet"),
    ("august", "août", "aout"),
    ("september", "septembre"),
    ("october", "oktober", "octobre"),
    ("november", "novembre"),
    ("december", "dezember", "décembre", "decembre"),
)


@dataclass(frozen=True, slots=True)
class DaysRead:
    """How a table's days in digits are read. order: None where they contradict each other, and what can be read in two
    ways is refused. open: the orders that all of them leave open; several are a question to the keeper."""

    order: Order | None
    open: tuple[Order, ...]
    serial_from: date = SERIAL_FROM


def days_read(values: Iterable[Value], *, american: bool, told: Order | None, serial_from: date) -> DaysRead:
    """From all cells of a table's columns of days. american: the month first where nothing else says."""
    left: set[Order] = set(ORDERS)
    there = False
    for value in values:
        found = _DIGITS.fullmatch(_tidy(value)) if isinstance(value, str) else None
        if found is not None and len(found[1]) < 3 and (able := _orders(found)):
            there, left = True, left & able
    left_open = tuple(order for order in ORDERS if order in left) or ORDERS if there else ()
    usual: Order = "mdy" if american else "dmy"
    order = told or (usual if usual in left else next((one for one in ORDERS if one in left), None))
    return DaysRead(order, left_open, serial_from)


def read_day(value: Value, days: DaysRead) -> date | None:
    """None for what is no day, or could be two."""
    if isinstance(value, date):
        return value
    text = _tidy(value)
    if text.isdigit():
        return days.serial_from + timedelta(days=int(text)) if int(text) in _SERIALS else None
    if (named := _DAY_MONTH.fullmatch(text)) and (month := _month(named[2])):
        return _day(_year(named[3]), month, int(named[1]))
    if (named := _MONTH_DAY.fullmatch(text)) and (month := _month(named[1])):
        return _day(_year(named[3]), month, int(named[2]))
    found = _DIGITS.fullmatch(text)
    if found is None:
        return None
    if len(found[1]) == 4:
        return _in_order(found, "ymd")
    if days.order is not None:
        return _in_order(found, days.order)
    able = {_in_order(found, order) for order in _orders(found)}
    return next(iter(able)) if len(able) == 1 else None


def is_two_days(value: Value, days: DaysRead) -> bool:
    """Whether it is refused only because nothing says which of two days it is."""
    found = _DIGITS.fullmatch(_tidy(value))
    return days.order is None and found is not None and len(found[1]) < 3 and len(_orders(found)) > 1


def is_open(value: Value) -> bool:
    """Whether a cell by itself can be read as two days or more."""
    found = _DIGITS.fullmatch(_tidy(value)) if isinstance(value, str) else None
    return found is not None and len(found[1]) < 3 and len({_in_order(found, one) for one in _orders(found)}) > 1


def _tidy(value: Value) -> str:
    """Without the time of day, small letters, one space."""
    if isinstance(value, float) and not isinstance(value, bool):
        return str(int(value)) if value >= 0 else ""  # the part after the point is the time of day
    text = unicodedata.normalize("NFC", "" if value is None else str(value)).casefold()
    return _CLOCK.sub("", " ".join(text.split())).strip()


def _orders(found: re.Match[str]) -> set[Order]:
    return {order for order in ORDERS if _in_order(found, order) is not None}


def _in_order(found: re.Match[str], order: Order) -> date | None:
    parts = dict(zip(order, found.groups(), strict=True))
    if len(parts["y"]) not in (2, 4) or len(parts["d"]) > 2 or len(parts["m"]) > 2:
        return None
    return _day(_year(parts["y"]), int(parts["m"]), int(parts["d"]))


def _year(text: str) -> int:
    return int(text) + (2000 if len(text) == 2 else 0)


def _month(word: str) -> int | None:
    names = [at for at, month in enumerate(_MONTHS, start=1) if word in month]
    if not names and len(word) >= 3:
        begins = (at for at, month in enumerate(_MONTHS, start=1) if any(name.startswith(word) for name in month))
        names = list(begins)
    return names[0] if len(names) == 1 else None


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
