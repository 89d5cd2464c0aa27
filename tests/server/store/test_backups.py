"""Backups: verified before they are called one; restored into a new epoch, with nothing thrown away."""

import errno
import fcntl
import hashlib
import os
import shutil
import sqlite3
import stat
from pathlib import Path

import pytest

from broodline.errors import BookDamaged, Busy, ResetNeeded, WrongUse
from broodline.store import backups
from broodline.store.backups import restore
from broodline.store.photos import Picture
from broodline.store.server_lock import ServerLock
from broodline.store.shelf import open_shelf
from tests.server.store.log_suite import note, rows


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "book"


@pytest.fixture
def holding(shelf):
    return shelf.holdings.current().id


@pytest.fixture
def backup(shelf, holding, tmp_path):
    shelf.devices.add(holding, "d1", "phone", "keeper", "t1")
    shelf.devices.add(holding, "d2", "lost phone", "keeper", "t2")
    shelf.log.append(holding, [note(1), note(2)], "d1")
    shelf.devices.invite(holding, "0A1B2C3D", "keeper", 600_000)
    shelf.backups.take(tmp_path / "backup.db")
    return tmp_path / "backup.db"


def put_back(backup, folder, clock, chance):
    return restore(backup, folder, now_ms=clock.ms, random_bytes=chance)


def reopened(folder, clock, chance):
    return open_shelf(folder, now_ms=clock.ms, random_bytes=chance)


def test_a_backup_is_its_owners_alone_wherever_it_is_laid(backup, shelf, tmp_path):
    """Also one that takes the place of an older file which all could read."""
    assert stat.S_IMODE(backup.stat().st_mode) == 0o600
    (tmp_path / "older.db").touch(mode=0o644)
    shelf.backups.take(tmp_path / "older.db")
    assert stat.S_IMODE((tmp_path / "older.db").stat().st_mode) == 0o600


def test_a_backup_holds_the_same_log_and_the_book_knows_its_age(shelf, holding, backup, clock):
    copy = sqlite3.connect(backup)
    try:
        stored = "SELECT position, id, document, sha256, chain FROM log"
        assert copy.execute(stored).fetchall() == shelf.connection.execute(stored).fetchall()
        assert copy.execute("SELECT seq FROM sqlite_sequence WHERE name = 'log'").fetchone() == (2,)
    finally:
        copy.close()
    clock.go_on(hours=2)
    assert shelf.backups.age_ms() == 2 * 3_600_000


def test_pictures_come_back_with_the_backup(shelf, holding, folder, tmp_path, clock, chance):
    content = b"\xff\xd8\xff picture"
    sha256 = hashlib.sha256(content).hexdigest()
    assert shelf.photos.put(holding, sha256, Picture("image/jpeg", content), "d1")
    shelf.backups.take(tmp_path / "backup.db")
    shelf.close()
    put_back(tmp_path / "backup.db", folder, clock, chance)
    with reopened(folder, clock, chance) as restored:
        assert restored.photos.get(holding, sha256) == Picture("image/jpeg", content)


def test_a_backup_from_before_there_were_pictures_is_sound(shelf, folder, clock, chance):
    shelf.close()
    put_back(Path(__file__).parents[2] / "old_books" / "1" / "book.db", folder, clock, chance)
    with reopened(folder, clock, chance) as restored:
        assert restored.log.count(restored.holdings.current().id) > 0
        assert not restored.photos.has(restored.holdings.current().id, "0" * 64)


def test_a_backup_with_a_changed_picture_is_refused(shelf, holding, folder, tmp_path, clock, chance):
    content = b"\xff\xd8\xff picture"
    shelf.photos.put(holding, hashlib.sha256(content).hexdigest(), Picture("image/jpeg", content), None)
    shelf.backups.take(tmp_path / "backup.db")
    shelf.close()
    other = sqlite3.connect(tmp_path / "backup.db", isolation_level=None)
    other.execute("UPDATE photos SET content = x'ffd8ff00'")
    other.close()
    with pytest.raises(BookDamaged):
        put_back(tmp_path / "backup.db", folder, clock, chance)


def test_a_book_without_backups_says_so(shelf):
    assert shelf.backups.age_ms() is None


def test_a_book_that_does_not_verify_gives_no_backup_and_the_older_one_stays(shelf, backup, tmp_path):
    before = backup.read_bytes()
    shelf.connection.execute("UPDATE log SET document = x'00' WHERE position = 1")
    with pytest.raises(BookDamaged):
        shelf.backups.take(backup)
    assert backup.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir() if "unfinished" in path.name] == []


def test_a_restored_book_begins_a_new_epoch_and_keeps_the_replaced_one(shelf, holding, backup, folder, clock, chance):
    shelf.log.append(holding, [note(3)], "d1")
    cursor = shelf.log.head(holding).cursor
    shelf.close()
    replaced = put_back(backup, folder, clock, chance)
    with reopened(folder, clock, chance) as restored:
        assert restored.holdings.current().id == holding, "the holding comes with the backup"
        assert [document for _, document in rows(restored.log, holding)] == [note(1).canonical, note(2).canonical]
        with pytest.raises(ResetNeeded):
            restored.log.read(holding, cursor, 500)
    aside = sqlite3.connect(replaced)
    try:
        assert aside.execute("SELECT count(*) FROM log").fetchone() == (3,)
    finally:
        aside.close()


def test_what_was_written_but_not_yet_moved_into_the_file_is_kept_with_the_replaced_book(
    shelf, holding, backup, folder, clock, chance
):
    """The shelf stays open, as after a crash: entry 3 is only in the write-ahead file."""
    shelf.log.append(holding, [note(3)], "d1")
    replaced = put_back(backup, folder, clock, chance)
    aside = sqlite3.connect(replaced)
    try:
        assert aside.execute("SELECT count(*) FROM log").fetchone() == (3,)
    finally:
        aside.close()


def test_devices_revoked_since_the_backup_stay_revoked_and_old_codes_are_dead(shelf, backup, folder, clock, chance):
    shelf.devices.revoke("d2")
    shelf.close()
    put_back(backup, folder, clock, chance)
    with reopened(folder, clock, chance) as restored:
        assert restored.devices.by_token("t1") is not None
        assert restored.devices.by_token("t2") is None
        assert restored.connection.execute("SELECT count(*) FROM codes").fetchone() == (0,)


def test_thermometers_and_calendars_ended_since_the_backup_do_not_come_back(
    shelf, backup, folder, clock, chance, tmp_path
):
    shelf.sensors.add("s1", "place", "Probe", "probe-1")
    shelf.sensors.add("s2", "place", "Probe", "probe-2")
    shelf.calendars.make("d1", "feed-1")
    shelf.calendars.make("d2", "feed-2")
    copy = tmp_path / "later.db"
    shelf.backups.take(copy)
    shelf.sensors.revoke("s1")
    shelf.calendars.end("d1")
    shelf.close()
    put_back(copy, folder, clock, chance)
    with reopened(folder, clock, chance) as restored:
        assert [restored.sensors.by_token(f"probe-{n}") is not None for n in (1, 2)] == [False, True]
        assert [restored.calendars.by_token(f"feed-{n}") is not None for n in (1, 2)] == [False, True]


def test_a_damaged_book_can_be_replaced(shelf, backup, folder, clock, chance):
    shelf.close()
    (folder / "book.db").write_bytes(b"not a database at all " * 300)
    replaced = put_back(backup, folder, clock, chance)
    assert replaced.read_bytes().startswith(b"not a database")
    with reopened(folder, clock, chance) as restored:
        assert restored.log.count(restored.holdings.current().id) == 2


def test_nothing_is_restored_while_a_server_runs(shelf, backup, folder, clock, chance):
    shelf.close()
    before = (folder / "book.db").read_bytes()
    with ServerLock(folder), pytest.raises(Busy):
        put_back(backup, folder, clock, chance)
    assert (folder / "book.db").read_bytes() == before


@pytest.mark.parametrize("harm", ["cut", "changed", "foreign"])
def test_a_backup_that_does_not_verify_is_refused_and_the_book_stays(shelf, backup, folder, clock, chance, harm):
    shelf.close()
    before = (folder / "book.db").read_bytes()
    if harm == "cut":
        backup.write_bytes(backup.read_bytes()[:5000])
    elif harm == "changed":
        other = sqlite3.connect(backup, isolation_level=None)
        other.execute("DELETE FROM log WHERE position = 1")
        other.close()
    else:
        backup.unlink()
        other = sqlite3.connect(backup)
        other.execute("CREATE TABLE letters (words)")
        other.close()
    with pytest.raises(BookDamaged):
        put_back(backup, folder, clock, chance)
    assert (folder / "book.db").read_bytes() == before
    assert sorted(path.name for path in folder.iterdir()) == ["book.db", "commands.lock", "server.lock"]


def test_a_demo_and_a_real_book_never_replace_each_other(shelf, backup, tmp_path, clock, chance):
    with open_shelf(tmp_path / "demo", now_ms=clock.ms, random_bytes=chance, demo=True) as demo:
        demo.backups.take(tmp_path / "demo-backup.db")
    with pytest.raises(WrongUse):
        put_back(backup, tmp_path / "demo", clock, chance)
    shelf.close()
    with pytest.raises(WrongUse):
        put_back(tmp_path / "demo-backup.db", tmp_path / "book", clock, chance)


def test_a_backup_that_is_not_there_is_wrong_use(tmp_path, clock, chance):
    with pytest.raises(WrongUse):
        put_back(tmp_path / "nothing.db", tmp_path / "book", clock, chance)


def test_a_backup_can_begin_a_folder(shelf, holding, backup, tmp_path, clock, chance):
    assert put_back(backup, tmp_path / "new machine", clock, chance) is None
    with reopened(tmp_path / "new machine", clock, chance) as restored:
        assert restored.log.count(holding) == 2


def test_a_copy_of_another_history_is_no_backup(shelf, holding, tmp_path, clock, chance, monkeypatch):
    """As if SQLite had copied something else: sound in itself, but not this book."""
    other = tmp_path / "other"
    with open_shelf(other, now_ms=clock.ms, random_bytes=chance) as strange:
        strange.log.append(strange.holdings.current().id, [note(7)], "phone")
        strange.log.snapshot(strange.holdings.current().id, tmp_path / "strange.db")
    shelf.log.append(holding, [note(1)], "phone")
    monkeypatch.setattr(backups, "_require_sound", lambda copy: shutil.copyfile(tmp_path / "strange.db", copy))
    with pytest.raises(BookDamaged, match="another history"):
        shelf.backups.take(tmp_path / "backup.db")
    assert not (tmp_path / "backup.db").exists()


@pytest.mark.parametrize("code", [errno.EINVAL, errno.ENOTSUP])
def test_a_share_that_cannot_flush_folders_takes_backups(shelf, backup, tmp_path, monkeypatch, code):
    """fsync(2): EINVAL where the descriptor's file system does not support it."""
    really = os.fsync

    def fsync(descriptor):
        if stat.S_ISDIR(os.fstat(descriptor).st_mode):
            raise OSError(code, os.strerror(code))
        assert fcntl.fcntl(descriptor, fcntl.F_GETFL) & os.O_RDWR, "Windows flushes only what is open for writing"
        really(descriptor)

    monkeypatch.setattr(os, "fsync", fsync)
    shelf.backups.take(tmp_path / "again.db")
    assert (tmp_path / "again.db").exists()
