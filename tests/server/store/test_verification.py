"""What check finds: each way a file can lose or change an entry, done on purpose."""

import pytest

from broodline.book.wire import content_hash
from broodline.store.verification import MOST_SHOWN, find_faults
from tests.server.store.log_suite import note


@pytest.fixture
def book(shelf):
    shelf.log.append(shelf.holdings.current().id, [note(n) for n in range(1, 31)], "phone")
    assert find_faults(shelf.connection) == []
    return shelf.connection


def codes(connection):
    return [fault.code for fault in find_faults(connection)]


def test_an_empty_book_is_sound(shelf):
    assert find_faults(shelf.connection) == []


def test_a_changed_entry_is_found_by_its_hash(book):
    book.execute("UPDATE log SET document = cast(replace(document, 'entry 7', 'entry 8') AS BLOB) WHERE position = 7")
    (fault,) = find_faults(book)
    assert fault.code == "hash"
    assert "position 7" in fault.message


def test_a_changed_entry_with_its_hash_made_to_fit_is_found_by_the_chain(book):
    changed = note(7, "something else").canonical
    book.execute("UPDATE log SET document = ?, sha256 = ? WHERE position = 7", (changed, content_hash(changed)))
    (fault,) = find_faults(book)
    assert fault.code == "chain"
    assert "position 7" in fault.message


def test_an_entry_under_another_id_is_found(book):
    book.execute("UPDATE log SET id = ? WHERE position = 7", (note(99).id,))
    assert codes(book) == ["hash", "chain"]


def test_bytes_that_are_no_entry_are_found(book):
    book.execute("UPDATE log SET document = x'ff00', sha256 = ? WHERE position = 7", (content_hash(b"\xff\x00"),))
    assert codes(book) == ["hash", "chain"]


def test_a_missing_entry_in_the_middle_is_found_by_the_chain(book):
    book.execute("DELETE FROM log WHERE position = 7")
    (fault,) = find_faults(book)
    assert fault.code == "chain"
    assert "before position 8" in fault.message


def test_missing_entries_at_the_end_are_found_by_the_positions_that_were_given(book):
    book.execute("DELETE FROM log WHERE position > 28")
    (fault,) = find_faults(book)
    assert fault.code == "lost"
    assert "position 30 was given, 28 is the last kept" in fault.message


def test_a_row_of_a_holding_that_is_gone_is_found(book):
    book.execute("PRAGMA foreign_keys = OFF")
    book.execute("UPDATE holdings SET id = 'another-holding'")
    assert set(codes(book)) == {"reference"}


def test_no_sort_of_fault_fills_the_screen(book):
    book.execute("UPDATE log SET document = x'00'")
    assert codes(book).count("hash") == MOST_SHOWN


def test_a_file_with_torn_pages_is_found(book, tmp_path):
    copy = tmp_path / "copy.db"
    book.execute("VACUUM INTO ?", (str(copy),))
    torn = bytearray(copy.read_bytes())
    torn[-4096 * 3 : -4096] = b"\xa5" * 4096 * 2
    copy.write_bytes(torn)
    connection = type(book)(copy, isolation_level=None)
    try:
        assert "integrity" in codes(connection)
    finally:
        connection.close()


@pytest.mark.parametrize("column", ["position", "holding", "id", "document", "sha256", "chain"])
@pytest.mark.parametrize("value", ["NULL", "5", "1.5", "'text'", "x'ff'"])
def test_a_cell_of_any_sort_is_a_fault_and_no_crash(book, column, value):
    """As a damaged page can show it: the table is made anew without its rules, which keep such cells out."""
    if (column, value) in (("position", "1.5"), ("holding", "'text'")):
        return  # those are sorts that these columns have
    columns = [row[1] for row in book.execute("PRAGMA table_info(log)")]
    kept = ", ".join(f"{value} AS {name}" if name == column else name for name in columns)
    book.execute(f"CREATE TABLE loose AS SELECT {kept} FROM log WHERE position = 7")
    book.execute(f"INSERT INTO loose SELECT {', '.join(columns)} FROM log WHERE position <> 7")
    book.execute("DROP TABLE log")
    book.execute("ALTER TABLE loose RENAME TO log")
    assert find_faults(book)


def test_a_picture_without_bytes_is_a_fault_and_no_crash(book):
    book.execute("DROP TABLE photos")
    book.execute("CREATE TABLE photos (sha256, content)")
    book.execute("INSERT INTO photos VALUES ('a', NULL)")
    assert codes(book) == ["integrity"]
