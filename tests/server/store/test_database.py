"""The file's promises: how it is opened, how its tables came to be, and what is refused."""

import subprocess
import sys
from pathlib import Path

import pytest

from broodline.errors import BookDamaged, BroodlineError, Busy
from broodline.store.database import open_database, reading, writing
from broodline.store.shelf import open_shelf

PACKAGE = Path(__file__).parents[3] / "server" / "broodline"


@pytest.fixture
def connection(tmp_path):
    opened = open_database(tmp_path / "book.db")
    yield opened
    opened.close()


def setting(connection, name):
    return connection.execute(f"PRAGMA {name}").fetchone()[0]


def test_a_commit_is_on_the_disk_when_it_returns(connection):
    assert setting(connection, "journal_mode") == "wal"
    assert setting(connection, "synchronous") == 2, "FULL"
    assert setting(connection, "foreign_keys") == 1
    assert setting(connection, "trusted_schema") == 0
    assert setting(connection, "busy_timeout") == 5000
    assert setting(connection, "mmap_size") == 0


def test_only_the_servers_writer_moves_pages_out_of_the_write_ahead_file(connection, tmp_path):
    assert setting(connection, "wal_autocheckpoint") == 0
    writer = open_database(tmp_path / "book.db", checkpoints=True)
    assert setting(writer, "wal_autocheckpoint") == 1000
    writer.close()


def test_positions_are_never_given_twice_by_the_table_itself(connection):
    """Without this keyword SQLite gives the number of a deleted last row again (sqlite.org/autoinc.html)."""
    (sql,) = connection.execute("SELECT sql FROM sqlite_master WHERE name = 'log'").fetchone()
    assert "position INTEGER PRIMARY KEY AUTOINCREMENT" in " ".join(sql.split())


def test_no_step_rebuilds_a_table():
    """sqlite-utils' transform() drops AUTOINCREMENT, so nothing in this storey may use it."""
    used = [path.name for path in (PACKAGE / "store").glob("*.py") if ".transform(" in path.read_text()]
    assert used == []


def test_every_table_of_ours_is_strict(connection):
    """A text in a column of numbers is refused (sqlite.org/stricttables.html)."""
    tables = dict(connection.execute("SELECT name, strict FROM pragma_table_list WHERE type = 'table'"))
    ours = {name for name in tables if not name.startswith(("sqlite_", "_sqlite_"))}
    assert ours == {
        *("holdings", "log", "clashes", "devices", "codes", "backups", "photos", "subscriptions", "reminders"),
        *("calendars", "sensors", "kept_readings"),
    }
    assert all(tables[name] for name in ours)


def test_opening_again_changes_nothing(connection, tmp_path):
    def look(opened):
        schema = opened.execute("SELECT name, sql FROM sqlite_master ORDER BY name").fetchall()
        return schema, opened.execute("SELECT name, applied_at FROM _sqlite_migrations").fetchall()

    before = look(connection)
    again = open_database(tmp_path / "book.db")
    assert look(again) == before
    again.close()


def test_two_processes_that_open_a_new_folder_at_once_make_one_book(tmp_path):
    """Both find no tables; one makes them, the other waits and then finds them."""
    words = (
        "import secrets, sys, pathlib; from broodline.store.shelf import open_shelf;"
        "print(open_shelf(pathlib.Path(sys.argv[1]), now_ms=lambda: 1,"
        " random_bytes=secrets.token_bytes).holdings.current().id)"
    )
    started = [
        subprocess.Popen([sys.executable, "-c", words, str(tmp_path)], stdout=subprocess.PIPE, text=True)
        for _ in range(3)
    ]
    told = [process.communicate(timeout=60)[0].strip() for process in started]
    assert [process.returncode for process in started] == [0, 0, 0]
    assert len(set(told)) == 1
    assert len(told[0]) == 32


def test_a_book_of_a_newer_version_is_left_alone(connection, tmp_path):
    connection.execute("INSERT INTO _sqlite_migrations VALUES (99, 'broodline', 'm099_tomorrow', 'then')")
    with pytest.raises(BookDamaged) as refused:
        open_database(tmp_path / "book.db")
    assert refused.value.code == "newer"
    assert "Update Broodline" in refused.value.remedy


def test_a_file_that_is_no_database_is_said_to_be_damaged(tmp_path):
    (tmp_path / "book.db").write_bytes(b"a letter to the vet " * 100)
    with pytest.raises(BookDamaged):
        open_database(tmp_path / "book.db")


def test_a_folder_that_cannot_be_made_is_said_so_in_words(tmp_path, clock, chance):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Busy) as refused:
        open_shelf(tmp_path / "file" / "book", now_ms=clock.ms, random_bytes=chance)
    assert "--data" in refused.value.remedy


def half_done(connection):
    with writing(connection):
        connection.execute("INSERT INTO backups VALUES (1)")
        raise ZeroDivisionError


def test_a_fault_inside_a_transaction_leaves_nothing_behind(connection):
    with pytest.raises(ZeroDivisionError):
        half_done(connection)
    assert not connection.in_transaction
    with reading(connection):
        assert connection.execute("SELECT count(*) FROM backups").fetchone() == (0,)


def test_what_sqlite_refuses_is_told_as_an_error_of_ours(connection):
    with pytest.raises(BroodlineError, match="may be whole") as refused, writing(connection):
        connection.execute("INSERT INTO log VALUES (1, 'no such holding', 'x', x'00', '', '', NULL, 0)")
    assert not isinstance(refused.value, BookDamaged)
    assert not connection.in_transaction
