"""`check`, `backup`, `restore` and the demo: what they say and their exit codes."""

import json
import os
import sqlite3
from argparse import Namespace
from datetime import UTC, datetime, timedelta

import pytest

from broodline.cli import demo
from broodline.cli.place import open_book
from broodline.errors import Busy
from broodline.settings import demo_data_dir, user_data_dir
from broodline.store.database import open_database
from broodline.store.server_lock import ServerLock
from tests.server.cli.commands import apart, broodline, document, write_lines


@pytest.fixture
def folder(tmp_path):
    data = tmp_path / "book"
    broodline("import", write_lines(tmp_path / "in.jsonl", *[document(n) for n in range(1, 6)]), "--data", data)
    return data


def harm(folder, statement):
    connection = sqlite3.connect(folder / "book.db", isolation_level=None)
    connection.execute(statement)
    connection.close()


def test_a_sound_book_is_said_to_be_sound(folder):
    done = broodline("check", "--data", folder, "--json")
    assert (done.code, done.json) == (0, {"ok": True, "entries": 5, "faults": [], "problems": []})
    assert "5 entries" in broodline("check", "--data", folder).out


def test_what_does_not_add_up_is_listed_and_is_no_fault(folder, tmp_path):
    odd = {**document(9), "kind": "moved", "body": {"moves": [{"lot": "x", "from": "set", "to": "clear", "n": 50}]}}
    broodline("import", write_lines(tmp_path / "odd.jsonl", odd), "--data", folder)
    done = broodline("check", "--data", folder, "--json")
    assert done.code == 0
    assert done.json["problems"]
    words = broodline("check", "--data", folder)
    assert words.code == 0
    assert done.json["problems"][0]["message"] in words.out


def test_what_cannot_be_about_birds_is_listed_with_the_rest(folder, tmp_path):
    odd = {**document(9), "kind": "weighed", "body": {"birds": [{"mass_g": 40_000}], "on": "2026-03-08"}}
    broodline("import", write_lines(tmp_path / "odd.jsonl", odd), "--data", folder)
    done = broodline("check", "--data", folder, "--json")
    assert (done.code, [one["code"] for one in done.json["problems"]]) == (0, ["weight_odd"])


def test_what_a_report_alone_works_out_is_listed_too(folder, tmp_path):
    body = {"place": "x", "species": "dragon", "set_at": "2026-03-01T08:00:00Z"}
    lots = [{"lot": "01950000-0000-7000-9000-000000000001", "family": "y", "n": 5}]
    odd = {**document(9), "kind": "set", "body": {**body, "lots": lots}}
    broodline("import", write_lines(tmp_path / "odd.jsonl", odd), "--data", folder)
    done = broodline("check", "--data", folder, "--json")
    assert done.code == 0
    assert "unknown_species" in [one["code"] for one in done.json["problems"]]
    assert "dragon" in broodline("check", "--data", folder).out


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM log WHERE position = 2",
        "DELETE FROM log WHERE position = 5",
        "UPDATE log SET document = x'7b7d' WHERE position = 2",
        "UPDATE log SET chain = sha256 WHERE position = 2",
        "DROP TABLE log",
    ],
)
def test_what_is_lost_or_changed_is_a_fault(folder, statement):
    harm(folder, statement)
    done = broodline("check", "--data", folder, "--json")
    assert done.code == 1
    assert done.json["faults"]
    words = broodline("check", "--data", folder)
    assert words.code == 1
    assert "DAMAGED" in words.out


def test_a_file_that_is_no_book_is_a_fault(folder):
    (folder / "book.db").write_bytes(b"no book " * 1000)
    assert broodline("check", "--data", folder).code == 1


def test_backup_and_restore(folder, tmp_path):
    assert broodline("backup", tmp_path / "b.db", "--data", folder).code == 0
    harm(folder, "DELETE FROM log WHERE position = 2")
    assert broodline("backup", tmp_path / "c.db", "--data", folder).code == 1
    assert not (tmp_path / "c.db").exists()
    assert broodline("restore", tmp_path / "b.db", "--data", folder).code == 0
    assert broodline("check", "--data", folder).code == 0
    assert broodline("restore", tmp_path / "nothing.db", "--data", folder).code == 2
    (tmp_path / "broken.db").write_bytes(b"x" * 9000)
    assert broodline("restore", tmp_path / "broken.db", "--data", folder).code == 1
    assert broodline("backup", tmp_path / "no folder" / "b.db", "--data", folder).code == 2


@pytest.mark.parametrize("name", ["book.db", "BOOK.DB", "book.db-wal", "server.lock", "push-key.pem", "house/ca.pem"])
def test_nothing_is_written_over_the_books_own_files(folder, tmp_path, name):
    """Neither by a way round through another name of the folder, nor through a link."""
    (folder / "house").mkdir()
    (tmp_path / "by another name").symlink_to(folder)
    for command in (("backup",), ("export",), ("paper", "inspection", "-o")):
        for place in (folder, tmp_path / "by another name"):
            done = broodline(*command, place / name, "--data", folder)
            assert (done.code, done.out) == (2, ""), (command, done)
    assert broodline("check", "--data", folder).code == 0


def test_the_books_file_is_not_written_over_through_links(folder, tmp_path):
    (tmp_path / "link.db").symlink_to(folder / "book.db")
    os.link(folder / "book.db", tmp_path / "twin.db")
    for name in ("link.db", "twin.db"):
        done = broodline("backup", tmp_path / name, "--data", folder)
        assert (done.code, "a file of the book itself" in done.err) == (2, True)


def test_a_backup_is_not_laid_over_another_folders_book_that_is_open(folder, tmp_path):
    """SQLite would play what lies in the write-ahead file beside it over the copy."""
    other = open_database(tmp_path / "other.db")
    done = broodline("backup", tmp_path / "other.db", "--data", folder)
    other.close()
    assert (done.code, "a book in use" in done.err) == (2, True)


def test_a_backup_may_lie_in_the_data_folder_under_a_name_of_its_own(folder):
    for _ in range(2):
        assert broodline("backup", folder / "monday.db", "--data", folder).code == 0


def test_another_holdings_backup_is_restored_only_with_its_own_word(folder, tmp_path):
    other = tmp_path / "other"
    broodline("import", write_lines(tmp_path / "in.jsonl", document(9)), "--data", other)
    broodline("backup", tmp_path / "b.db", "--data", folder)
    refused = broodline("restore", tmp_path / "b.db", "--data", other)
    assert (refused.code, "--other-holding" in refused.err) == (2, True)
    assert broodline("restore", tmp_path / "b.db", "--data", other, "--other-holding", "--json").json["entries"] == 5


def test_no_restore_beside_a_command_that_writes(folder, tmp_path):
    broodline("backup", tmp_path / "b.db", "--data", folder)
    with open_book(Namespace(data=folder)):
        beside = broodline("restore", tmp_path / "b.db", "--data", folder)
    assert (beside.code, "Another command is at work" in beside.err) == (2, True)


def test_the_demo_is_written_checked_and_dated_by_today(tmp_path):
    told = broodline("demo", "--no-serve", "--data", tmp_path / "demo", "--json")
    assert told.code == 0
    assert told.json["entries"] > 100
    assert broodline("check", "--data", tmp_path / "demo").code == 0
    newest = max(entry["at"] for entry in exported(tmp_path))
    age = datetime.now(UTC) - datetime.fromisoformat(newest)
    assert timedelta(0) <= age < timedelta(days=2)


def exported(tmp_path):
    broodline("export", tmp_path / "out.jsonl", "--data", tmp_path / "demo")
    return [json.loads(line) for line in (tmp_path / "out.jsonl").read_text().splitlines()]


def test_the_demo_keeps_what_was_tried_today_and_begins_anew_on_another_day(tmp_path):
    folder, now = tmp_path / "demo", datetime(2026, 5, 5, 22, 30, tzinfo=UTC)
    entries = demo.prepare(folder, now)
    broodline("import", write_lines(tmp_path / "in.jsonl", document(1)), "--data", folder)
    assert demo.prepare(folder, now) == entries + 1
    assert demo.prepare(folder, now, fresh=True) == entries
    broodline("import", write_lines(tmp_path / "in.jsonl", document(1)), "--data", folder)
    assert demo.prepare(folder, now + timedelta(days=1)) == entries


def test_the_demo_that_is_served_is_not_made_anew_under_its_feet(tmp_path):
    folder, now = tmp_path / "demo", datetime(2026, 5, 5, 22, 30, tzinfo=UTC)
    entries = demo.prepare(folder, now)
    with ServerLock(folder):
        assert demo.prepare(folder, now) == entries
        with pytest.raises(Busy):
            demo.prepare(folder, now, fresh=True)


def test_the_demo_takes_no_real_book(folder):
    before = (folder / "book.db").read_bytes()
    for words in (("demo", "--no-serve"), ("demo", "--no-serve", "--fresh"), ("demo", "--port", "0")):
        done = broodline(*words, "--data", folder)
        assert done.code == 2
        assert "real book" in done.err
    assert (folder / "book.db").read_bytes() == before


def test_each_platform_has_its_own_folder_and_the_demo_another(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "xdg"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "local"))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    expected = {
        "linux": tmp_path / "xdg" / "broodline",
        "darwin": tmp_path / "home" / "Library" / "Application Support" / "Broodline",
        "win32": tmp_path / "local" / "Broodline",
    }
    for platform, folder in expected.items():
        monkeypatch.setattr("sys.platform", platform)
        assert user_data_dir() == folder
        assert demo_data_dir() != folder
        assert demo_data_dir().parent == folder.parent
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.delenv("XDG_DATA_HOME")
    assert user_data_dir() == tmp_path / "home" / ".local" / "share" / "broodline"


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("hatch",),
        ("pair", "--role", "owner"),
        ("devices", "forget"),
        ("devices", "revoke"),
        ("devices", "lost"),
        ("devices", "rename", "x"),
        ("devices", "revoke", "x", "y"),
    ],
)
def test_words_that_are_no_command_are_wrong_use(tmp_path, monkeypatch, words):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert broodline(*words).code == 2


def test_revoking_a_device_that_is_not_there_is_wrong_use(folder):
    assert broodline("devices", "revoke", "nobody", "--data", folder).code == 2


def test_help_names_every_command():
    done = apart("--help")
    assert done.code == 0
    for command in ("demo", "serve", "pair", "devices", "check", "report", "import", "export", "backup", "restore"):
        assert f"\n    {command} " in done.out
