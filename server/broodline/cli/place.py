"""Where a command works: the folder it was given, the machine's clock and chance, and the book in the folder."""

import secrets
import time
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path

from broodline.errors import WrongUse
from broodline.settings import user_data_dir
from broodline.store.server_lock import CommandLock
from broodline.store.shelf import Shelf, make_folder, open_shelf
from broodline.trade.calendar import day_asked, zone_named

ADDRESS_FILE = "address.txt"


def add_place(parser: ArgumentParser, *, json: bool = False) -> None:
    """The options that every command has: --data, and --json where it answers."""
    parser.add_argument(
        "--data", type=Path, metavar="DIR", help="the folder of the book (default: this user's data folder)"
    )
    if json:
        parser.add_argument("--json", action="store_true", help="answer as JSON")


def folder_of(options: Namespace) -> Path:
    """The folder a command was given, or this user's."""
    folder: Path | None = options.data
    return (folder if folder is not None else user_data_dir()).absolute()


@contextmanager
def open_book(options: Namespace) -> Iterator[Shelf]:
    """The book of that folder, on a connection of its own, also while a server runs beside it.

    Raises Busy while a book is put in its place: what was written into the replaced one would be lost.
    """
    folder = folder_of(options)
    make_folder(folder)
    with CommandLock(folder), open_shelf(folder, now_ms=now_ms, random_bytes=secrets.token_bytes) as shelf:
        yield shelf


def note_address(folder: Path, address: str, install_page: str | None = None) -> None:
    """Remember where this folder's book is served, and where phones begin, for commands beside the server."""
    lines = [address, *([] if install_page is None else [install_page])]
    (folder / ADDRESS_FILE).write_text("\n".join(lines) + "\n", encoding="utf-8")


def last_address(folder: Path) -> str | None:
    """Where the book was served last, or None if it never was."""
    lines = _address_lines(folder)
    return lines[0] if lines else None


def last_install_page(folder: Path) -> str | None:
    """Where phones read how to trust the server, where it was one of a house."""
    return "".join(_address_lines(folder)[1:2]) or None


def _address_lines(folder: Path) -> list[str]:
    try:
        return (folder / ADDRESS_FILE).read_text(encoding="utf-8").split()
    except OSError:
        return []


def now_ms() -> int:
    """The clock of this machine, in milliseconds since 1970."""
    return time.time_ns() // 1_000_000


def today() -> date:
    """Today where this machine is."""
    return datetime.now(UTC).astimezone().date()


def moment_of(on: str | None, zone: str) -> datetime:
    """The moment a report is asked for: now, or the last moment of a day in the holding's zone. Raises WrongUse."""
    if on is None:
        return datetime.now(UTC)
    try:
        day = day_asked(on)
    except ValueError as fault:
        raise WrongUse(f"{on} is not a day.", remedy="Write a day as 2026-03-08.") from fault
    here = zone_named(zone) or UTC
    return datetime(day.year, day.month, day.day, 23, 59, 59, 999_000, tzinfo=here).astimezone(UTC)
