"""What is said before a server starts, about SQLite and about the file."""

import sqlite3

import pytest

from broodline.store.start_check import has_reset_fault, warnings_at_start
from tests.server.store.log_suite import note


@pytest.fixture
def book(shelf, monkeypatch):
    monkeypatch.setattr("sqlite3.sqlite_version_info", (3, 51, 3))
    shelf.log.append(shelf.holdings.current().id, [note(n, "x" * 3000) for n in range(1, 20)], "phone")
    shelf.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return shelf


@pytest.mark.parametrize(
    ("version", "faulty"),
    [
        ((3, 6, 23), False),
        ((3, 7, 0), True),
        ((3, 40, 1), True),
        ((3, 44, 5), True),
        ((3, 44, 6), False),
        ((3, 50, 6), True),
        ((3, 50, 7), False),
        ((3, 51, 2), True),
        ((3, 51, 3), False),
        ((4, 0, 0), False),
    ],
)
def test_versions_with_the_fault_are_known(version, faulty):
    assert has_reset_fault(version) is faulty


def test_a_sound_book_on_a_mended_sqlite_gives_no_word(book):
    assert warnings_at_start(book.connection) == []


def test_an_old_sqlite_is_said_in_plain_words(book, monkeypatch):
    monkeypatch.setattr("sqlite3.sqlite_version_info", (3, 40, 1))
    (words,) = warnings_at_start(book.connection)
    assert "SQLite 3.40.1" in words
    assert "update" in words


def test_a_lost_end_is_said(book):
    book.connection.execute("DELETE FROM log WHERE position > 15")
    (words,) = warnings_at_start(book.connection)
    assert "broodline check" in words


def test_torn_pages_are_said(book, tmp_path):
    file = tmp_path / "book" / "book.db"
    torn = bytearray(file.read_bytes())
    torn[8 * 4096 : 12 * 4096] = bytes(4 * 4096)
    copy = tmp_path / "torn.db"
    copy.write_bytes(torn)
    connection = sqlite3.connect(copy, isolation_level=None)
    (words,) = warnings_at_start(connection)
    connection.close()
    assert "damaged" in words
