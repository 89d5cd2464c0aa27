"""Backups that were opened and verified before they are called one, and the way back from them."""

import errno
import json
import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from broodline.errors import BookDamaged, WrongUse
from broodline.store.database import FILE_NAME, open_database, reading, writing
from broodline.store.faults import typed_faults
from broodline.store.holdings import Holdings
from broodline.store.server_lock import NoCommands, ServerLock
from broodline.store.verification import find_faults

_COMPANIONS = ("", "-wal", "-shm")


class Backups:
    """Taking backups of one open book, and knowing how old the last one is."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def take(self, destination: Path) -> None:
        """Write a verified copy to `destination`, whole or not at all, while others go on writing. It is its owner's
        alone: it holds the flock, and the tokens' fingerprints.

        Raises BookDamaged where the copy does not verify; then nothing is left behind and an older file stays.
        """
        unfinished = destination.with_name(destination.name + ".unfinished")
        unfinished.unlink(missing_ok=True)
        try:
            with suppress(OSError):  # where it cannot be made SQLite says so, with words of our own
                os.close(os.open(unfinished, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
            with typed_faults():
                self._connection.execute("VACUUM INTO ?", (str(unfinished),))
            _require_sound(unfinished)
            self._require_own_history(unfinished)
            _flush(unfinished)
            os.replace(unfinished, destination)
            _flush(destination.parent)
        finally:
            _remove(unfinished)
        with writing(self._connection):
            self._connection.execute("INSERT OR REPLACE INTO backups VALUES (?)", (self._now_ms(),))

    def _require_own_history(self, copy: Path) -> None:
        """Raise BookDamaged unless the copy's log is this book's up to some place, entry by entry.

        The chain there proves it. The same entries fold to the same standing, so that is proved with it.
        """
        with typed_faults():
            copied = sqlite3.connect(copy, isolation_level=None)
            try:
                end = copied.execute("SELECT position, chain FROM log ORDER BY position DESC LIMIT 1").fetchone()
            finally:
                copied.close()
            if (
                end is not None
                and not self._connection.execute("SELECT 1 FROM log WHERE position = ? AND chain = ?", end).fetchone()
            ):
                raise BookDamaged("The copy holds another history than the book.", remedy="Try the backup again.")

    def age_ms(self) -> int | None:
        """How long ago the last backup was taken, or None where there is none."""
        with reading(self._connection):
            (taken_ms,) = self._connection.execute("SELECT max(taken_ms) FROM backups").fetchone()
        return None if taken_ms is None else max(0, self._now_ms() - taken_ms)


def restore(
    backup: Path,
    data_dir: Path,
    *,
    now_ms: Callable[[], int],
    random_bytes: Callable[[int], bytes],
    other_holding: bool = False,
) -> Path | None:
    """Put a backup in the book's place. Returns where the replaced book was laid, or None where there was none.

    What lies in the write-ahead file beside the backup, as beside a book's file copied by hand, is part of it. The
    history begins a new epoch, so that phones notice and bring back what is newer than the backup. Devices that were
    revoked since stay revoked. Raises Busy while a server or another command works here, BookDamaged for a backup that
    does not verify, WrongUse where one side is a demo and the other is not, or where the backup is another holding's
    and `other_holding` does not say that this is meant; then nothing was changed.
    """
    if not backup.is_file():
        raise WrongUse(f"There is no file {backup}.", remedy="Name the backup to restore.")
    data_dir.mkdir(parents=True, exist_ok=True, mode=0o700)
    with ServerLock(data_dir), NoCommands(data_dir):
        book, fresh = data_dir / FILE_NAME, data_dir / (FILE_NAME + ".restoring")
        _remove(fresh)
        try:
            _copy_with_write_ahead(backup, fresh)
            _require_sound(fresh)
            left = _left_behind(book)
            _require_same_kind(fresh, left, other_holding)
            _renew(fresh, left, now_ms, random_bytes)
            _flush(fresh)
            replaced = _lay_aside(book, now_ms())
            os.replace(fresh, book)
            _flush(data_dir)
        finally:
            _remove(fresh)
    return replaced


def _copy_with_write_ahead(backup: Path, fresh: Path) -> None:
    """Copy a book's file and what was not yet moved into it; SQLite reads that in when the copy is opened."""
    shutil.copyfile(backup, fresh)
    ahead = backup.with_name(backup.name + "-wal")
    if ahead.is_file():
        shutil.copyfile(ahead, fresh.with_name(fresh.name + "-wal"))


def remove_book(data_dir: Path) -> None:
    """Delete the book of a folder for good. Only for a demo that is made anew."""
    _remove(data_dir / FILE_NAME)


def _require_sound(copy: Path) -> None:
    """Raise BookDamaged unless the copy opens and everything in it verifies."""
    with typed_faults():
        connection = sqlite3.connect(copy, isolation_level=None)
        try:
            connection.execute("PRAGMA foreign_keys = ON")
            faults = find_faults(connection)
        finally:
            connection.close()
    if faults:
        raise BookDamaged(f"The copy does not verify: {faults[0].message}", remedy="Use another backup.")


@dataclass(frozen=True, slots=True)
class _LeftBehind:
    """What of the replaced book must not come to life again. calendars: the addresses it still had; None: not known."""

    demo: bool | None = None
    holding: str | None = None  # None: not known, or nothing was ever written for it
    devices: tuple[tuple[int, str], ...] = ()
    sensors: tuple[tuple[int, str], ...] = ()
    calendars: tuple[str, ...] | None = None


def _left_behind(book: Path) -> _LeftBehind:
    """Of the book to be replaced: whether it is a demo's, and what was ended in it. One too damaged to say has none."""
    found = _LeftBehind()
    if not book.exists():
        return found
    try:
        connection = sqlite3.connect(book, isolation_level=None)
        try:
            demo = connection.execute("SELECT demo FROM holdings").fetchone()
            found = replace(found, demo=bool(demo[0]) if demo else None, devices=_revoked(connection, "devices"))
            written = connection.execute("SELECT holding FROM log LIMIT 1").fetchone()
            found = replace(found, holding=written[0] if written else None)
            found = replace(found, sensors=_revoked(connection, "sensors"))
            tokens = connection.execute("SELECT token_sha256 FROM calendars").fetchall()
            return replace(found, calendars=tuple(row[0] for row in tokens))
        finally:
            connection.close()
    except sqlite3.DatabaseError:  # damaged, or from before there were thermometers and calendars
        return found


def _revoked(connection: sqlite3.Connection, table: str) -> tuple[tuple[int, str], ...]:
    return tuple(connection.execute(f"SELECT revoked_ms, id FROM {table} WHERE revoked_ms IS NOT NULL").fetchall())


def _require_same_kind(fresh: Path, left: _LeftBehind, other_holding: bool) -> None:
    """Raise WrongUse where the copy would take the place of a book it is no copy of."""
    with typed_faults():
        connection = sqlite3.connect(fresh, isolation_level=None)
        try:
            row = connection.execute("SELECT id, demo FROM holdings").fetchone()
        finally:
            connection.close()
    if row is None:
        raise BookDamaged("The copy names no holding.", remedy="Use another backup.")
    if left.demo is not None and bool(row[1]) is not left.demo:
        raise WrongUse(
            "A demo's book and a real one never replace each other.", remedy="Name another folder with --data."
        )
    if left.holding not in (None, row[0]) and not other_holding:
        raise WrongUse(
            "That is the backup of another holding's book, and this folder has a book of its own.",
            remedy="Name another folder with --data, or say --other-holding if it shall replace this one.",
        )


def _renew(
    fresh: Path,
    left: _LeftBehind,
    now_ms: Callable[[], int],
    random_bytes: Callable[[int], bytes],
) -> None:
    """Make the copy the beginning of a new epoch, without old codes and with all revocations."""
    connection = open_database(fresh, checkpoints=True)
    try:
        Holdings(connection, now_ms, random_bytes).turn_epoch()
        with writing(connection):
            connection.execute("DELETE FROM codes")
            for table, revoked in (("devices", left.devices), ("sensors", left.sensors)):
                connection.executemany(f"UPDATE {table} SET revoked_ms = coalesce(revoked_ms, ?) WHERE id = ?", revoked)
            if left.calendars is not None:
                held = json.dumps(left.calendars)
                connection.execute(
                    "DELETE FROM calendars WHERE token_sha256 NOT IN (SELECT value FROM json_each(?))", (held,)
                )
        with typed_faults():
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        connection.close()


def _lay_aside(book: Path, now_ms: int) -> Path | None:
    """Rename the replaced book with what lies in its write-ahead file; nothing of it is lost."""
    if not book.exists():
        return None
    aside = book.with_name(f"replaced-{now_ms}.db")
    for ending in _COMPANIONS:
        part = book.with_name(book.name + ending)
        if part.exists():
            os.replace(part, aside.with_name(aside.name + ending))
    return aside


def _remove(copy: Path) -> None:
    for ending in _COMPANIONS:
        copy.with_name(copy.name + ending).unlink(missing_ok=True)


def _flush(path: Path) -> None:
    """Ask the disk to keep the file, or the folder's list of files. (Windows cannot open a folder; it keeps order.)"""
    if os.name == "nt" and path.is_dir():
        return
    folder = path.is_dir()
    descriptor = os.open(path, os.O_RDONLY if folder else os.O_RDWR)  # Windows flushes only what is open for writing
    try:
        os.fsync(descriptor)
    except OSError as fault:
        # Shares on a network and some other file systems cannot flush a folder; the file itself was flushed.
        if not folder or fault.errno not in (errno.EINVAL, errno.ENOTSUP, errno.EBADF):
            raise
    finally:
        os.close(descriptor)
