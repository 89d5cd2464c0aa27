"""SQLite's own errors, turned into the error family, so that no storey above has to know them."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from broodline.errors import BookDamaged, BroodlineError, Busy, DiskFull

_LOW_BYTE = 0xFF  # extended result codes keep the plain code in their low byte (sqlite.org/rescode.html)

# Where there is no room for the index of the write-ahead file, SQLite calls it an error of the disk.
_NO_ROOM_BESIDE = frozenset({sqlite3.SQLITE_IOERR_SHMSIZE})

_DAMAGE = frozenset({sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB})
_WORDS_OF_DAMAGE = ("no such table", "no such column", "Could not decode")  # these have no code of their own
_LOOK = "Try again. If it stays so, `broodline check` says whether the book is whole."


@contextmanager
def typed_faults() -> Iterator[None]:
    """Run database work; raise one of our family where SQLite gives up."""
    try:
        yield
    except sqlite3.Error as fault:
        raise typed(fault) from fault


def typed(fault: sqlite3.Error) -> BroodlineError:
    """The error of our family that says the same."""
    code = getattr(fault, "sqlite_errorcode", 0)
    plain = code & _LOW_BYTE
    if plain == sqlite3.SQLITE_FULL or code in _NO_ROOM_BESIDE:
        return DiskFull("There is no room left to write the book.")
    if plain in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return Busy("The book is being written by another command.")
    if plain in (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH):
        return Busy(
            "The book's folder cannot be opened or written.",
            remedy="Check that the folder exists and that this user may write in it.",
        )
    if plain == sqlite3.SQLITE_IOERR:
        return Busy("The disk did not answer.", remedy="Check the disk of the server, then try again.")
    if plain in (sqlite3.SQLITE_NOMEM, sqlite3.SQLITE_INTERRUPT):
        return Busy("The machine had no room or time to read the book.", remedy="Close other programs, then try again.")
    if plain in _DAMAGE or str(fault).startswith(_WORDS_OF_DAMAGE):
        return BookDamaged(f"The book's file does not read as it should: {fault}.")
    return BroodlineError(f"Something went wrong with the book's file, which may be whole: {fault}.", remedy=_LOOK)
