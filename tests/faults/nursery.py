"""Brings up servers quickly: everything is imported once, and each server is a forked child of this process.

A real process each, with real sockets and files, that can be killed at any moment; only the second that Python
takes to import is saved. Run as `python -m tests.faults.nursery`: a line with a folder and a port on the standard
input starts a server, and its process id is the answer.
"""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from broodline.cli.serve import serve
from broodline.settings import Settings


class Nursery:
    """The parent of the servers, as seen from a test."""

    def __init__(self) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.nursery"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def bring_up(self, folder: Path, port: int) -> int:
        """Start a server; returns its process id, at once."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        print(port, folder, file=self._process.stdin, flush=True)
        return int(self._process.stdout.readline())

    def close(self) -> None:
        """End the nursery, not its servers."""
        self._process.communicate()


def kill(pid: int) -> None:
    """SIGKILL, and wait until the process is gone with its lock."""
    os.kill(pid, signal.SIGKILL)
    while True:
        try:
            os.kill(pid, 0)
        except ProcessLookupError:
            return
        time.sleep(0.001)


def main() -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody waits for the children
    for line in sys.stdin:
        port, _, folder = line.rstrip("\n").partition(" ")
        if (pid := os.fork()) == 0:
            quiet = os.open(os.devnull, os.O_RDWR)
            for descriptor in (0, 1):
                os.dup2(quiet, descriptor)
            os._exit(serve(Settings(Path(folder), port=int(port))))
        print(pid, flush=True)


if __name__ == "__main__":
    main()
