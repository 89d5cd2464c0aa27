"""The shelf: everything that is kept in one data folder, behind one connection."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType

from broodline.errors import Busy
from broodline.store.backups import Backups
from broodline.store.calendars import Calendars
from broodline.store.database import FILE_NAME, open_database
from broodline.store.devices import Devices
from broodline.store.holdings import Holdings
from broodline.store.photos import Photos
from broodline.store.reminders import Reminders
from broodline.store.sensors import Sensors
from broodline.store.sqlite_log import SqliteLog


@dataclass(frozen=True, slots=True)
class Shelf:
    """One connection's view of the folder. Closed by `close` or at the end of a `with` block."""

    connection: sqlite3.Connection
    holdings: Holdings
    log: SqliteLog
    devices: Devices
    backups: Backups
    photos: Photos
    reminders: Reminders
    calendars: Calendars
    sensors: Sensors

    def close(self) -> None:
        """Give the connection back."""
        self.connection.close()

    def __enter__(self) -> "Shelf":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


def make_folder(data_dir: Path) -> None:
    """Make the folder if it is missing; its owner's alone. Raises Busy."""
    try:
        data_dir.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as fault:
        raise Busy(
            f"The folder {data_dir} cannot be made: {fault.strerror}.",
            remedy="Give a folder this user may write in with --data.",
        ) from fault


def open_shelf(
    data_dir: Path,
    *,
    now_ms: Callable[[], int],
    random_bytes: Callable[[int], bytes],
    demo: bool = False,
    checkpoints: bool = False,
) -> Shelf:
    """The shelf of a folder. The folder, the file in it and its holding are made if they are missing.

    demo: what a holding made now is; one that exists stays what it is. checkpoints: only for the server's writer.
    Raises DiskFull, Busy or BookDamaged.
    """
    make_folder(data_dir)
    connection = open_database(data_dir / FILE_NAME, checkpoints=checkpoints)
    try:
        holdings = Holdings(connection, now_ms, random_bytes)
        holdings.found(demo=demo)
    except BaseException:
        connection.close()
        raise
    return Shelf(
        connection,
        holdings,
        SqliteLog(connection, now_ms),
        Devices(connection, now_ms),
        Backups(connection, now_ms),
        Photos(connection, now_ms),
        Reminders(connection, now_ms),
        Calendars(connection, now_ms),
        Sensors(connection, now_ms),
    )
