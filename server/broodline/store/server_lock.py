"""Who works in a data folder: one server, any number of commands, or one restore alone.

A lock belongs to the process and dies with it, however it dies.
"""

import os
import sys
from pathlib import Path
from types import TracebackType

from broodline.errors import Busy

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

FILE_NAME = "server.lock"
COMMANDS_FILE = "commands.lock"
MOST_COMMANDS = 64  # at once, where locks cannot be shared: each then holds one byte of the file


class _Lock:
    """Held from `with` to the end of the block. Raises Busy while another process holds it against us."""

    file_name: str
    shared = False
    message: str
    remedy: str

    def __init__(self, data_dir: Path) -> None:
        self._path = data_dir / self.file_name
        self._descriptor: int | None = None

    def __enter__(self) -> None:
        descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        try:
            _take(descriptor, self.shared)
        except OSError as fault:
            os.close(descriptor)
            raise Busy(self.message, remedy=self.remedy) from fault
        self._descriptor = descriptor

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None


class ServerLock(_Lock):
    """One server a data folder."""

    file_name = FILE_NAME
    message = "A Broodline server is running on this folder."
    remedy = "Stop that server first, or give this one another folder with --data."


class CommandLock(_Lock):
    """A command at work in the folder, beside others and beside a server, but never while a book is replaced."""

    file_name = COMMANDS_FILE
    shared = True
    message = "The book of this folder is being replaced."
    remedy = "Try again when that is done."


class NoCommands(_Lock):
    """No command is at work in the folder, and none begins: what it wrote into a replaced book would be lost."""

    file_name = COMMANDS_FILE
    message = "Another command is at work in this folder."
    remedy = "Wait until it is done, then try again."


if sys.platform == "win32":

    def _take(descriptor: int, shared: bool) -> None:
        """Lock the file without waiting. Raises OSError where another holds it."""
        if not shared:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, MOST_COMMANDS)
            return
        for place in range(MOST_COMMANDS):
            os.lseek(descriptor, place, os.SEEK_SET)
            try:
                msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
            except OSError:
                if place == MOST_COMMANDS - 1:
                    raise
            else:
                return

else:

    def _take(descriptor: int, shared: bool) -> None:
        """Lock the file without waiting. Raises OSError where another holds it."""
        fcntl.flock(descriptor, (fcntl.LOCK_SH if shared else fcntl.LOCK_EX) | fcntl.LOCK_NB)
