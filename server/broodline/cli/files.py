"""Files that a command writes: whole or not at all, and faults of the disk in words."""

import os
from collections.abc import Iterable
from pathlib import Path

from broodline.errors import BroodlineError, DiskFull, WrongUse
from broodline.store.own_files import refuse_own


def write_whole(file: Path, parts: Iterable[bytes], data_dir: Path) -> None:
    """Write a file; it appears whole, or stays as it was. Raises DiskFull, and WrongUse, also for the book's own
    files in data_dir."""
    refuse_own(file, data_dir)
    unfinished = file.with_name(file.name + ".unfinished")
    try:
        with unfinished.open("wb") as out:
            for part in parts:
                out.write(part)
            out.flush()
            os.fsync(out.fileno())
        os.replace(unfinished, file)
    except OSError as fault:
        raise _unwritable(file, fault) from fault
    finally:
        unfinished.unlink(missing_ok=True)


def make_folder_of(place: Path) -> None:
    """Make a folder for files, with those it lies in, where it is missing. Raises DiskFull or WrongUse."""
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise _unwritable(place, fault) from fault


def _unwritable(file: Path, fault: OSError) -> BroodlineError:
    if fault.errno == 28:  # no room
        return DiskFull(f"There is no room to write {file}.", remedy="Write the file to another disk.")
    return WrongUse(f"{file} cannot be written: {fault.strerror}.", remedy="Name a file in a folder you may write in.")
