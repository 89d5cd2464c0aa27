"""One server a data folder. The lock belongs to the process and dies with it, however it dies."""

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


class ServerLock:
    """Held from `with ServerLock(folder):` to the end of the block. Raises Busy while another process holds it."""

    def __init__(self, data_dir: Path) -> None:
        self._path = data_dir / FILE_NAME
        self._descriptor: int | None = None

    def __enter__(self) -> "ServerLock":
        descriptor = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        try:
            if sys.platform == "win32":
                msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
            else:
                fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as fault:
            os.close(descriptor)
            raise Busy(
                "A Broodline server is running on this folder.",
                remedy="Stop that server first, or give this one another folder with --data.",
            ) from fault
        self._descriptor = descriptor
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None
