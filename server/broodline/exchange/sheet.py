"""A sheet: named columns with types, and rows. What spreadsheets and data packages are written from.

Text that a spreadsheet would take for a formula gets an apostrophe before it, in every form of sheet: cells are opened
by people who trust them, and names in a book come from many hands.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

# What Table Schema (frictionless data, v1) calls the types of fields; a datetime is UTC.
FieldType = Literal["string", "integer", "number", "date", "datetime", "boolean"]
Cell = str | int | float | bool | date | datetime | None

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
_SHIELD = "'"


@dataclass(frozen=True, slots=True)
class Column:
    """name: for programs. title: for people. words: what the figures mean, with their unit."""

    name: str
    type: FieldType
    title: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """rows: one cell a column, of the column's type or None. key: the column that names a row, or ""."""

    name: str
    title: str
    columns: Sequence[Column]
    rows: Sequence[Sequence[Cell]]
    key: str = ""


def shielded(text: str) -> str:
    """Text that no spreadsheet takes for a formula.

    >>> shielded("=1+1"), shielded("Rowan")
    ("'=1+1", 'Rowan')
    """
    return _SHIELD + text if _is_formula(text) else text


def unshielded(text: str) -> str:
    """What `shielded` was given.

    >>> unshielded("'=1+1"), unshielded("'t Veld")
    ('=1+1', "'t Veld")
    """
    return text[1:] if text.startswith(_SHIELD) and _is_formula(text[1:]) else text


def _is_formula(text: str) -> bool:
    """Also with apostrophes before it, so that what was shielded can always be had back."""
    return text.lstrip(_SHIELD).startswith(FORMULA_STARTS)
