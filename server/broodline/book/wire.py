"""Entries as bytes: one canonical form, the same in both languages, and the rules of the envelope.

Canonical form: JSON, UTF-8, no spaces, keys sorted by code point at every depth, whole numbers without a point
(37.0 is 37, -0 is 0), other numbers in their shortest form.
tests/vectors/canonical.json binds it to pwa/src/book/wire.ts.
"""

import hashlib
import json
import math
import re
from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple

from pydantic_core import from_json

from broodline.errors import EnvelopeError

LARGEST_WHOLE = 2**53 - 1
SMALLEST_FRACTION = 0.0001
LARGEST_FRACTION = 1e15
DEEPEST = 32
LARGEST_ENTRY_BYTES = 8192
LEVELS_AROUND_AN_ENTRY = 2  # a batch is an object with a list of entries
LONGEST_NAME = 100

_UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
_MOMENT = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?Z")
_SURROGATE = re.compile("[\ud800-\udfff]")
ENVELOPE = ("id", "v", "kind", "device", "at", "zone", "skew_ms", "amends", "void", "body")


class Entry(NamedTuple):
    """One immutable line of the book. `canonical` is the whole entry as bytes, fields of newer apps included.

    more: its envelope holds fields this version does not know.
    A tuple with names, because a long book has hundreds of thousands: made five times as fast as a frozen dataclass.
    """

    id: str
    v: int
    kind: str
    device: str
    at: str
    zone: str
    skew_ms: int | None
    amends: str | None
    void: bool
    body: Mapping[str, Any]
    canonical: bytes
    more: bool

    @property
    def sha256(self) -> str:
        """The content hash, 64 hex digits."""
        return content_hash(self.canonical)


def content_hash(canonical: bytes) -> str:
    """SHA-256 over canonical bytes, as 64 hex digits."""
    return hashlib.sha256(canonical).hexdigest()


def canonical_bytes(value: object) -> bytes:
    """The canonical bytes of a JSON value.

    Raises EnvelopeError where the value has no canonical form: NaN and infinities, numbers out of range, lone
    surrogates, keys that are no text, more than 32 levels, anything that is not JSON.
    """
    return _dump(_normal(value, "$", 1))


def parse_json(raw: bytes) -> object:
    """Read JSON strictly into normal form (whole floats become whole numbers).

    Raises EnvelopeError for bytes that are no UTF-8 or no JSON, doubled keys, and every value without a canonical form.
    """
    return _normal(load_json(raw), "$", 1 - LEVELS_AROUND_AN_ENTRY)


def load_json(raw: bytes) -> object:
    """Read JSON strictly, its values as they are written: `read_entry` brings those of an entry into normal form.

    Raises EnvelopeError for bytes that are no UTF-8 or no JSON, doubled keys, NaN and endless whole numbers.
    """
    try:
        value: object = json.loads(
            raw.decode("utf-8"), object_pairs_hook=_pairs, parse_constant=_refuse_constant, parse_int=_whole
        )
        return value
    except UnicodeDecodeError as fault:
        raise EnvelopeError("$", "The text is not UTF-8.") from fault
    except json.JSONDecodeError as fault:
        raise EnvelopeError("$", f"The text is not JSON: {fault.msg} at character {fault.pos}.") from fault
    except RecursionError as fault:
        raise EnvelopeError("$", f"Nested more than {DEEPEST} levels deep.") from fault


def read_entry(value: object) -> Entry:
    """Check an entry's envelope and give it its shape; the body's meaning is judged later, by the fold.

    Raises EnvelopeError with the field that is wrong.
    """
    document = _normal(_complete(value), "$", 1)
    return checked_entry(document, _dump(document))


def _complete(value: object) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise EnvelopeError("$", "An entry is a JSON object.")
    for field in ENVELOPE:
        if field not in value:
            raise EnvelopeError(field, f"The entry has no field '{field}'.")
    return value


def checked_entry(document: dict[str, Any], canonical: bytes) -> Entry:
    """The entry of a document in normal form that has all fields. Raises EnvelopeError for its size or a field."""
    if len(canonical) > LARGEST_ENTRY_BYTES:
        raise EnvelopeError("$", f"The entry takes {len(canonical)} bytes; {LARGEST_ENTRY_BYTES} are allowed.")
    _check_envelope(document)
    return _entry_of(document, canonical)


def stored_entry(canonical: bytes) -> Entry:
    """An entry from bytes that `read_entry` made earlier; nothing is checked again.

    pydantic's parser reads canonical bytes as json does, in a third of the time.
    """
    return _entry_of(from_json(canonical), canonical)


def _entry_of(document: Mapping[str, Any], canonical: bytes) -> Entry:
    return Entry(
        document["id"],
        document["v"],
        document["kind"],
        document["device"],
        document["at"],
        document["zone"],
        document["skew_ms"],
        document["amends"],
        document["void"],
        document["body"],
        canonical,
        len(document) > len(ENVELOPE),
    )


def _check_envelope(entry: dict[str, Any]) -> None:
    skew_ms, amends = entry["skew_ms"], entry["amends"]
    if not _is_uuid7(entry["id"]):
        raise EnvelopeError("id", "The id must be a UUIDv7 in lower case.")
    if type(entry["v"]) is not int or entry["v"] < 1:
        raise EnvelopeError("v", "v must be a whole number, 1 or more.")
    for field in ("kind", "device", "zone"):
        text = entry[field]
        if type(text) is not str or not 1 <= len(text) <= LONGEST_NAME:
            raise EnvelopeError(field, f"{field} must be text of 1 to {LONGEST_NAME} characters.")
    if not _is_moment(entry["at"]):
        raise EnvelopeError("at", "at must be a UTC time such as 2026-03-08T19:40:12.345Z.")
    if skew_ms is not None and type(skew_ms) is not int:
        raise EnvelopeError("skew_ms", "skew_ms must be a whole number of milliseconds, or null.")
    if amends is not None and not _is_uuid7(amends):
        raise EnvelopeError("amends", "amends must be the id of an entry (a UUIDv7 in lower case), or null.")
    if type(entry["void"]) is not bool:
        raise EnvelopeError("void", "void must be true or false.")
    if type(entry["body"]) is not dict:
        raise EnvelopeError("body", "The body must be a JSON object.")


def _is_uuid7(value: object) -> bool:
    return isinstance(value, str) and _UUID7.fullmatch(value) is not None


def _is_moment(value: object) -> bool:
    if not isinstance(value, str) or not _MOMENT.fullmatch(value) or value.startswith("0000"):
        return False
    try:
        datetime.fromisoformat(value[:19])
    except ValueError:
        return False
    return True


_ENCODER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), allow_nan=False, sort_keys=True)


def _dump(normal: object) -> bytes:
    return _ENCODER.encode(normal).encode("utf-8")


def _normal(value: object, where: str, depth: int) -> Any:
    """The value with its numbers in normal form; raises EnvelopeError where it has no canonical form."""
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, str):
        return _text(value, where)
    if isinstance(value, int | float):
        return _number(value, where)
    if isinstance(value, list | dict):
        if depth > DEEPEST:
            raise EnvelopeError(where, f"Nested more than {DEEPEST} levels deep.")
        if isinstance(value, list):
            return [_normal(part, where, depth + 1) for part in value]
        return {_text(key, where): _normal(part, str(key), depth + 1) for key, part in value.items()}
    raise EnvelopeError(where, f"{type(value).__name__} is not a JSON value.")


def _text(value: object, where: str) -> str:
    if not isinstance(value, str):
        raise EnvelopeError(where, "A key must be text.")
    if not value.isascii() and _SURROGATE.search(value):
        raise EnvelopeError(where, "The text holds half of a character (a lone surrogate).")
    return value


def _number(value: int | float, where: str) -> int | float:
    if isinstance(value, float):
        if not math.isfinite(value):
            raise EnvelopeError(where, "Not a finite number.")
        if not value.is_integer():
            if not SMALLEST_FRACTION <= abs(value) < LARGEST_FRACTION:
                raise EnvelopeError(where, f"The number {value!r} is out of range.")
            return value
        value = int(value)
    if abs(value) > LARGEST_WHOLE:
        raise EnvelopeError(where, "A whole number may be at most 9007199254740991.")
    return value


def _pairs(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        doubled = next(key for key, _ in pairs if sum(key == other for other, _ in pairs) > 1)
        raise EnvelopeError(doubled, f"The key '{doubled}' stands twice in one object.")
    return found


def _refuse_constant(word: str) -> object:
    raise EnvelopeError("$", f"{word} is not a number in JSON.")


def _whole(digits: str) -> int:
    if len(digits) > 17:
        raise EnvelopeError("$", "A whole number may be at most 9007199254740991.")
    return int(digits)
