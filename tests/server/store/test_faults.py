"""What SQLite says, in our words: only what is damaged is called so, or a keeper restores a book that is whole."""

import sqlite3

import pytest

from broodline.errors import BookDamaged, BroodlineError, Busy, DiskFull
from broodline.store.faults import typed


def fault(code, words="words"):
    raised = sqlite3.OperationalError(words)
    if code is not None:
        raised.sqlite_errorcode = code
    return raised


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        # the codes: sqlite.org/rescode.html
        (11, BookDamaged),
        (267, BookDamaged),  # SQLITE_CORRUPT_VTAB
        (26, BookDamaged),
        (13, DiskFull),
        (5, Busy),
        (10, Busy),
        (7, Busy),
        (9, Busy),
        (18, BroodlineError),
        (19, BroodlineError),
        (21, BroodlineError),
        (None, BroodlineError),
    ],
)
def test_a_code_says_what_it_is(code, expected):
    told = typed(fault(code))
    assert type(told) is expected
    if expected is not BookDamaged:
        assert "restore" not in told.remedy


def test_a_closed_book_is_not_called_damaged():
    connection = sqlite3.connect(":memory:")
    connection.close()
    with pytest.raises(sqlite3.ProgrammingError) as raised:
        connection.execute("SELECT 1")
    assert not isinstance(typed(raised.value), BookDamaged)


@pytest.mark.parametrize("statement", ["SELECT 1 FROM log", "SELECT cast(x'ff41' AS TEXT)"])
def test_a_table_that_is_gone_and_a_text_that_is_none_are_damage(statement):
    connection = sqlite3.connect(":memory:")
    with pytest.raises(sqlite3.Error) as raised:
        connection.execute(statement).fetchone()
    assert isinstance(typed(raised.value), BookDamaged)
