"""`broodline check` on files that were really damaged: it says where, in words, and leaves with 1."""

import sqlite3

import pytest

from broodline.store.shelf import open_shelf
from tests.server.cli.commands import broodline
from tests.server.conftest import Counted, HandClock
from tests.server.store.log_suite import note

ENTRIES = 400
PAGE = 4096


@pytest.fixture
def folder(tmp_path):
    data = tmp_path / "book"
    with open_shelf(data, now_ms=HandClock().ms, random_bytes=Counted()) as shelf:
        shelf.log.append(shelf.holdings.current().id, [note(n, f"egg number {n};") for n in range(1, ENTRIES + 1)], "p")
        shelf.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return data


def checked(folder):
    done = broodline("check", "--data", folder)
    assert done.code == 1
    assert "Traceback" not in done.out + done.err
    return [line for line in done.out.splitlines() if line.startswith("DAMAGED: ")], done.out


def run_in(folder, statement):
    connection = sqlite3.connect(folder / "book.db", isolation_level=None)
    connection.execute(statement)
    connection.close()


def test_one_flipped_byte_in_an_entry_names_the_entry(folder):
    file = folder / "book.db"
    stored = file.read_bytes()
    assert stored.count(b"egg number 137;") == 1
    file.write_bytes(stored.replace(b"egg number 137;", b"egg number 737;"))
    (told,), _ = checked(folder)
    assert told == f"DAMAGED: The entry {note(137).id} at position 137 is not what was stored."


def test_a_row_that_is_gone_says_before_which_position(folder):
    run_in(folder, "DELETE FROM log WHERE position = 200")
    (told,), _ = checked(folder)
    assert told == "DAMAGED: Entries are missing or were changed before position 201."


def test_a_wrong_link_says_where_the_chain_breaks(folder):
    run_in(folder, "UPDATE log SET chain = sha256 WHERE position = 300")
    (told,), _ = checked(folder)
    assert told == "DAMAGED: Entries are missing or were changed before position 300."


def test_a_lost_end_says_how_far_the_book_reaches(folder):
    run_in(folder, "DELETE FROM log WHERE position > 390")
    (told,), _ = checked(folder)
    assert told == "DAMAGED: The last entries are gone: position 400 was given, 390 is the last kept."


@pytest.mark.parametrize("pages_kept", [0.1, 0.5, 0.9])
def test_a_file_cut_short_is_said_to_be_damaged_and_what_helps_is_said(folder, pages_kept):
    file = folder / "book.db"
    stored = file.read_bytes()
    file.write_bytes(stored[: int(len(stored) / PAGE * pages_kept) * PAGE])
    told, words = checked(folder)
    assert told
    assert words.count("restore the last backup") == 1


def test_a_sound_book_is_not_said_to_be_damaged(folder):
    assert broodline("check", "--data", folder).code == 0
