"""What a keeper says of a file before it is read: sheet by sheet what it holds, its columns, the order of its days."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, get_args

from broodline.errors import EnvelopeError
from broodline.exchange.columns import KINDS, Kind
from broodline.exchange.days_in import ORDERS, Order
from broodline.exchange.row_values import Unread, name_key, species_of

NOT_OURS = "none"  # the kind of a sheet that is not for this book


@dataclass(frozen=True, slots=True)
class SheetTold:
    """kind: None finds it. is_ours: False for a sheet that is not to be read. columns: field -> heading. dates: the
    order of days in digits, None finds it."""

    kind: Kind | None = None
    is_ours: bool = True
    columns: Mapping[str, str] = field(default_factory=dict)
    dates: Order | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """kind, columns: of a file with one table. dates: of all its tables. species, breed: of rows that say none.
    sheets: what is said of one sheet wins. only: the one sheet that is read, None for all."""

    kind: Kind | None = None
    columns: Mapping[str, str] = field(default_factory=dict)
    dates: Order | None = None
    species: str | None = None
    breed: str | None = None
    sheets: Mapping[str, SheetTold] = field(default_factory=dict)
    only: str | None = None

    def of(self, sheet: str) -> SheetTold:
        """What is said of a sheet, by its name."""
        key = name_key(sheet)
        own = next((told for name, told in self.sheets.items() if name_key(name) == key), None)
        if own is None:
            return SheetTold(self.kind, columns=self.columns, dates=self.dates)
        return SheetTold(own.kind, own.is_ours, own.columns, own.dates or self.dates)


def read_told(words: Mapping[str, Any]) -> Told:
    """From a request or the command line: kind, columns, dates ("dmy", "mdy", "ymd"), species, breed, sheet, and
    sheets: {name: {kind or "none", columns, dates}}. Raises EnvelopeError."""
    whole = _read_sheet(words)
    texts = [words.get(name) for name in ("species", "breed", "sheet")]
    if not all(text is None or isinstance(text, str) for text in texts):
        raise EnvelopeError("breed", "Species, breed and sheet are words.", remedy="Say them as text.")
    try:
        species = species_of(texts[0])
    except Unread as fault:
        raise EnvelopeError("species", fault.message, remedy=fault.remedy) from fault
    sheets = words.get("sheets") or {}
    if not isinstance(sheets, Mapping) or not all(isinstance(one, Mapping) for one in sheets.values()):
        raise EnvelopeError("sheets", "Sheets cannot be read.", remedy='Say them as {"Sheet1": {"kind": "birds"}}.')
    each = {str(name): _read_sheet(one) for name, one in sheets.items()}
    return Told(whole.kind, whole.columns, whole.dates, species, texts[1] or None, each, texts[2] or None)


def _read_sheet(words: Mapping[str, Any]) -> SheetTold:
    kind, dates, columns = words.get("kind"), words.get("dates"), words.get("columns") or {}
    if kind not in (None, NOT_OURS, *get_args(Kind)):
        raise EnvelopeError("kind", f"{kind} is no kind of table.", remedy=f"Say one of: {', '.join(KINDS)}, none.")
    if dates not in (None, *ORDERS):
        raise EnvelopeError("dates", f"{dates} is no order of days.", remedy=f"Say one of: {', '.join(ORDERS)}.")
    if not isinstance(columns, Mapping) or not all(isinstance(part, str) for pair in columns.items() for part in pair):
        raise EnvelopeError("columns", "Columns cannot be read.", remedy='Say them as {"family": "Line"}.')
    return SheetTold(None if kind == NOT_OURS else kind, kind != NOT_OURS, columns, dates)
