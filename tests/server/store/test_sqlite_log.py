"""The log in SQLite passes the suite, and keeps SQLite's own promises."""

import shutil
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings

from broodline.errors import Busy, DiskFull
from broodline.store.database import open_database
from broodline.store.sqlite_log import SqliteLog
from tests.server.store.log_machine import LogMachine
from tests.server.store.log_suite import HOLDING, OTHER, LogSuite, note, rows


class SqliteBench:
    """Two holdings in one file, as a club's server would have them."""

    def __init__(self, folder: Path | None = None):
        self.own = tempfile.TemporaryDirectory()
        self.path = (folder or Path(self.own.name)) / "book.db"
        self.epochs = 0
        self._open()
        for holding in (HOLDING, OTHER):
            self.connection.execute("INSERT INTO holdings VALUES (?, ?, 0, NULL, 0)", (holding, self._new_epoch()))

    def _open(self):
        self.connection = open_database(self.path)
        self.log = SqliteLog(self.connection, lambda: 1_772_000_000_000)

    def _new_epoch(self):
        self.epochs += 1
        return f"epoch-{self.epochs}"

    def reopen(self):
        self.connection.close()
        self._open()

    def restore(self, snapshot):
        """HOLDING as it was in the snapshot, under a new epoch; the other holding as it is now."""
        kept = self.connection.execute("SELECT * FROM log WHERE holding = ?", (OTHER,)).fetchall()
        apart = self.connection.execute("SELECT * FROM clashes WHERE holding = ?", (OTHER,)).fetchall()
        self.connection.close()
        shutil.copyfile(snapshot, self.path)
        self._open()
        for table, holding_rows in (("log", kept), ("clashes", apart)):
            self.connection.execute(f"DELETE FROM {table} WHERE holding = ?", (OTHER,))
            used = {row[0] for row in self.connection.execute(f"SELECT rowid FROM {table}")}
            for row in holding_rows:
                assert table == "clashes" or row[0] not in used, "two holdings share no position"
                self.connection.execute(f"INSERT INTO {table} VALUES ({','.join('?' * len(row))})", row)
        self.connection.execute("UPDATE holdings SET epoch = ? WHERE id = ?", (self._new_epoch(), HOLDING))

    def clashes(self, holding):
        return set(self.connection.execute("SELECT id, document FROM clashes WHERE holding = ?", (holding,)))

    def close(self):
        self.connection.close()
        self.own.cleanup()


@pytest.fixture
def bench(tmp_path):
    made = SqliteBench(tmp_path)
    yield made
    made.close()


class TestSqliteLog(LogSuite):
    pass


class SqliteLogMachine(LogMachine):
    open_bench = SqliteBench


TestSqliteLogMachine = SqliteLogMachine.TestCase
TestSqliteLogMachine.settings = settings(max_examples=25, stateful_step_count=20, deadline=None)


def test_a_position_is_never_given_twice_not_even_after_its_row_is_gone(bench):
    bench.log.append(HOLDING, [note(1), note(2)], "phone")
    bench.connection.execute("DELETE FROM log WHERE position = 2")
    (placed,) = bench.log.append(HOLDING, [note(3)], "phone")
    assert placed.position == 3


def test_the_log_sees_what_another_connection_wrote_a_moment_ago(bench):
    """The last link of the chain is read in the transaction that goes on from it, never from memory."""
    bench.log.append(HOLDING, [note(1)], "phone")
    beside = open_database(bench.path)
    try:
        SqliteLog(beside, lambda: 0).append(HOLDING, [note(2)], "import")
    finally:
        beside.close()
    bench.log.append(HOLDING, [note(3)], "phone")
    assert [position for position, _ in rows(bench.log)] == [1, 2, 3]
    from_nothing = SqliteBench()
    try:
        from_nothing.log.append(HOLDING, [note(1), note(2), note(3)], "phone")
        assert from_nothing.log.head(HOLDING).chain == bench.log.head(HOLDING).chain
    finally:
        from_nothing.close()


def test_a_full_disk_stores_nothing_of_the_batch_and_reading_goes_on(bench):
    """max_page_count makes SQLite answer SQLITE_FULL as a full disk does."""
    bench.log.append(HOLDING, [note(1)], "phone")
    (pages,) = bench.connection.execute("PRAGMA page_count").fetchone()
    bench.connection.execute(f"PRAGMA max_page_count = {pages + 2}")
    with pytest.raises(DiskFull):
        bench.log.append(HOLDING, [note(n, "x" * 4000) for n in range(2, 40)], "phone")
    assert rows(bench.log) == [(1, note(1).canonical)]
    bench.connection.execute("PRAGMA max_page_count = 100000")
    assert [p.position for p in bench.log.append(HOLDING, [note(2)], "phone")] == [2]


def test_a_pen_that_another_command_holds_is_waited_for_and_then_said_to_be_busy(bench):
    bench.connection.execute("PRAGMA busy_timeout = 50")
    beside = open_database(bench.path)
    try:
        beside.execute("BEGIN IMMEDIATE")
        with pytest.raises(Busy):
            bench.log.append(HOLDING, [note(1)], "phone")
        assert bench.log.count(HOLDING) == 0, "reading does not wait"
        beside.execute("ROLLBACK")
    finally:
        beside.close()
    assert bench.log.append(HOLDING, [note(1)], "phone")[0].status == "stored"


def test_who_brought_an_entry_is_kept_beside_it_and_not_in_it(bench):
    bench.log.append(HOLDING, [note(1, device="somebody-else")], "phone-7")
    bench.log.append(HOLDING, [note(1, device="somebody-else")], "phone-8")
    assert bench.connection.execute("SELECT brought_by FROM log").fetchall() == [("phone-7",)]
    assert rows(bench.log) == [(1, note(1, device="somebody-else").canonical)]


def test_no_question_takes_longer_in_a_longer_log(bench):
    """Rows are found by position: nothing sorts or passes over the log at every push and page."""

    def steps(work) -> int:
        taken = 0

        def step() -> int:
            nonlocal taken
            taken += 1
            return 0

        bench.connection.set_progress_handler(step, 1)
        work()
        bench.connection.set_progress_handler(None, 1)
        return taken

    def questions(number: int) -> list[int]:
        near_end = bench.log.head(HOLDING).cursor
        return [
            steps(lambda: bench.log.head(HOLDING)),
            steps(lambda: bench.log.append(HOLDING, [note(number)], "phone")),
            steps(lambda: bench.log.read(HOLDING, near_end, 500)),
            steps(lambda: bench.log.read(HOLDING, None, 5)),
        ]

    bench.log.append(HOLDING, [note(n) for n in range(1, 21)], "phone")
    short = questions(21)
    bench.log.append(HOLDING, [note(n) for n in range(22, 2000)], "phone")
    long = questions(2000)
    assert all(after <= before * 1.5 for before, after in zip(short, long, strict=True)), (short, long)
