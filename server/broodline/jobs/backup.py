"""Backups that happen by themselves: one a day while the server runs, and the rule which of them are kept."""

import asyncio
import re
import shutil
from collections.abc import Callable, Iterable, Iterator
from datetime import date, datetime
from pathlib import Path

from anyio import to_thread

from broodline.errors import BroodlineError, DiskFull
from broodline.jobs.own_faults import place_of
from broodline.store.database import FILE_NAME
from broodline.store.shelf import Shelf, open_shelf

FOLDER = "backups"
DAYS, WEEKS, MONTHS = 7, 4, 12
FIRST_AFTER_S = 60.0  # a server that was only started to look something up takes none
EVERY_S = 3600.0

_NAME = re.compile(r"book-(\d{4}-\d{2}-\d{2})\.db")


def backups_to_keep(days: Iterable[date]) -> set[date]:
    """Of backups taken on these days: the last 7, and the last one of each of the last 4 weeks and 12 months.

    Only days, weeks and months that have a backup are counted, so that a server that stood still for long throws
    nothing away when it comes back.
    """
    newest_first = sorted(set(days), reverse=True)
    weeks: dict[tuple[int, int], date] = {}
    months: dict[tuple[int, int], date] = {}
    for day in newest_first:
        year, week, _ = day.isocalendar()
        weeks.setdefault((year, week), day)
        months.setdefault((day.year, day.month), day)
    return {*newest_first[:DAYS], *list(weeks.values())[:WEEKS], *list(months.values())[:MONTHS]}


def back_up(shelf: Shelf, data_dir: Path, today: date) -> Path | None:
    """Take today's backup if there is none and something to keep, then drop what the rule does not keep.

    Returns the new backup. Raises BookDamaged for a book that does not verify and DiskFull; then no older backup
    was touched.
    """
    folder = data_dir / FOLDER
    backup = folder / f"book-{today.isoformat()}.db"
    if backup.exists() or shelf.log.count(shelf.holdings.current().id) == 0:
        return None
    folder.mkdir(mode=0o700, exist_ok=True)
    if shutil.disk_usage(folder).free < 2 * (data_dir / FILE_NAME).stat().st_size:
        raise DiskFull("There is too little room for today's backup.")
    shelf.backups.take(backup)
    kept = backups_to_keep(day for day, _ in _backups_in(folder))
    for day, older in _backups_in(folder):
        if day not in kept:
            older.unlink()
    return backup


async def back_up_daily(
    data_dir: Path,
    clock: Callable[[], datetime],
    random_bytes: Callable[[int], bytes],
    tell: Callable[[str], None],
) -> None:
    """Look every hour whether today's backup was taken, until cancelled. A day is one of UTC.

    What stands in the way of a backup is told, and tried again an hour later; it never stops the server.
    """

    def now_ms() -> int:
        return int(clock().timestamp() * 1000)

    def look() -> None:
        with open_shelf(data_dir, now_ms=now_ms, random_bytes=random_bytes) as shelf:
            back_up(shelf, data_dir, clock().date())

    await asyncio.sleep(FIRST_AFTER_S)
    while True:
        try:
            await to_thread.run_sync(look)
        except BroodlineError as fault:
            tell(f"No backup today: {fault.message} {fault.remedy}")
        except OSError as fault:
            tell(f"No backup today: {fault.strerror}.")
        except Exception as fault:
            tell(f"No backup today: {place_of(fault)}. It is tried again in an hour.")
        await asyncio.sleep(EVERY_S)


def _backups_in(folder: Path) -> Iterator[tuple[date, Path]]:
    for path in sorted(folder.iterdir()):
        if found := _NAME.fullmatch(path.name):
            yield date.fromisoformat(found[1]), path
