"""Every book that a released version left behind opens, migrates and adds up as it did then."""

import io
import json
import shutil
import sqlite3
from contextlib import redirect_stdout
from pathlib import Path

import pytest

from broodline.book.fold import fold
from broodline.book.standing import standing_json
from broodline.book.wire import read_entry
from broodline.cli.main import run
from broodline.store.sensors import Kept
from broodline.store.shelf import open_shelf

OLD_BOOKS = sorted(path.parent for path in (Path(__file__).parents[2] / "old_books").glob("*/book.db"))


def test_there_is_a_book_of_each_schema():
    assert [book.name for book in OLD_BOOKS] == [str(number) for number in range(1, len(OLD_BOOKS) + 1)]
    assert OLD_BOOKS != []


@pytest.mark.parametrize("old", OLD_BOOKS, ids=lambda book: book.name)
def test_the_servers_book_adds_up_as_it_did(old, tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    shutil.copy(old / "book.db", folder / "book.db")
    with redirect_stdout(io.StringIO()):
        assert run(["check", "--data", str(folder)]) == 0
        assert run(["export", str(tmp_path / "all.jsonl"), "--data", str(folder)]) == 0
    lines = (tmp_path / "all.jsonl").read_text(encoding="utf-8").splitlines()
    entries = [read_entry(json.loads(line)) for line in lines]
    assert [entry.canonical.decode() for entry in entries] == lines
    assert standing_json(fold(entries)) == json.loads((old / "standing.json").read_text(encoding="utf-8"))


def test_what_a_thermometer_said_before_the_step_is_still_compared_with(tmp_path):
    """Book 3 is of the schema that remembered the last reading alone."""
    shutil.copy(OLD_BOOKS[2] / "book.db", tmp_path / "book.db")
    with sqlite3.connect(tmp_path / "book.db") as before:
        before.execute("INSERT INTO sensors VALUES ('s', 'box', 'Probe', 'hash', 1, 2, 2000, 1000, 1, NULL)")
    before.close()
    with open_shelf(tmp_path, now_ms=lambda: 3000, random_bytes=bytes) as shelf:
        assert shelf.sensors.nearest_kept("box", 5000) == Kept(1000, "beyond")
        assert shelf.sensors.nearest_kept("loft", 5000) is None


def test_what_was_kept_before_its_tier_was_is_within_or_like_no_other(tmp_path):
    """A book of the step before: its readings say whether they lay outside the band, and no more."""
    with open_shelf(tmp_path, now_ms=lambda: 3000, random_bytes=bytes):
        pass
    with sqlite3.connect(tmp_path / "book.db") as before:
        before.execute("ALTER TABLE kept_readings DROP COLUMN band")
        before.execute("DELETE FROM _sqlite_migrations WHERE name LIKE 'm008%'")
        before.execute("INSERT INTO kept_readings VALUES ('box', 1000, 0), ('box', 2000, 1), ('box', 3000, NULL)")
    before.close()
    with open_shelf(tmp_path, now_ms=lambda: 3000, random_bytes=bytes) as shelf:
        kept = [shelf.sensors.nearest_kept("box", at_ms) for at_ms in (1000, 2000, 3000)]
    assert kept == [Kept(1000, "within"), Kept(2000, "beyond"), Kept(3000, None)]


@pytest.mark.parametrize("old", OLD_BOOKS, ids=lambda book: book.name)
def test_the_phones_dump_holds_the_same_entries(old):
    databases = json.loads((old / "phone.json").read_text(encoding="utf-8"))
    [book] = [
        one for name, one in databases.items() if name.startswith("broodline:") and one["stores"]["entries"]["rows"]
    ]
    entries = [read_entry(json.loads(row["text"])) for _, row in book["stores"]["entries"]["rows"]]
    assert standing_json(fold(entries)) == json.loads((old / "standing.json").read_text(encoding="utf-8"))
    assert sum(row["position"] is None for _, row in book["stores"]["entries"]["rows"]) == 1
