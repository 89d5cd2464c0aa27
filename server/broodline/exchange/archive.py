"""The book as JSON lines: one entry a line, in the form phones send. Reading takes what is good and names the rest."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from broodline.book.wire import Entry, load_json, read_entry
from broodline.errors import EnvelopeError


@dataclass(frozen=True, slots=True)
class GoodLine:
    """A line that is an entry. number: counted from 1."""

    number: int
    entry: Entry


@dataclass(frozen=True, slots=True)
class BadLine:
    """A line that cannot be stored, with the field that is wrong and why. number: counted from 1."""

    number: int
    field: str
    message: str
    remedy: str

    def as_json(self) -> dict[str, Any]:
        """As answers tell it."""
        return {"line": self.number, "field": self.field, "message": self.message, "remedy": self.remedy}


Line = GoodLine | BadLine


def read_lines(lines: Iterable[bytes]) -> Iterator[Line]:
    """Every line that is not empty, read; never raises for what it holds."""
    for number, raw in enumerate(lines, start=1):
        text = raw.removeprefix(b"\xef\xbb\xbf") if number == 1 else raw  # some editors put a mark first
        if not text.strip():
            continue
        try:
            yield GoodLine(number, read_entry(load_json(text)))
        except EnvelopeError as fault:
            remedy = "Correct this line and import the file again; lines already taken are not taken twice."
            yield BadLine(number, fault.field, fault.message, remedy)


def write_line(canonical: bytes) -> bytes:
    """An entry as a line of an archive."""
    return canonical + b"\n"
