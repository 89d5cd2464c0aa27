"""A real Broodline server in its own process, to be stopped, killed and started again by tests."""

import io
import json
import os
import signal
import socket
import subprocess
import sys
import time
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

from broodline.cli.main import run

SERVE_APP = Path(__file__).with_name("serve_app.py")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Served:
    """One data folder with its server; `url` stays the same over stops and starts."""

    def __init__(self, folder: Path, *words: str) -> None:
        self.folder = folder
        self.words = words
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.process: subprocess.Popen[str] | None = None

    def start(self, app: Path | None = None, *, demo: bool = False) -> None:
        """`app`: another built app to give to phones than the installed one. demo: the invented holding, signed in."""
        program = ["-m", "broodline"] if app is None else [str(SERVE_APP), str(app)]
        what = "demo" if demo else "serve"
        self.process = subprocess.Popen(
            [sys.executable, *program, what, "--data", str(self.folder), "--port", str(self.port), *self.words],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        assert self.process.stdout is not None
        told = self.process.stdout.readline()
        assert str(self.port) in told, told + self.process.stdout.read()

    def stop(self) -> None:
        self._end(signal.SIGTERM)

    def kill(self) -> None:
        self._end(signal.SIGKILL)

    def freeze(self) -> None:
        """The server takes connections and never answers."""
        assert self.process is not None
        os.kill(self.process.pid, signal.SIGSTOP)

    def thaw(self) -> None:
        assert self.process is not None
        os.kill(self.process.pid, signal.SIGCONT)

    def run(self, *words: str) -> Any:
        """What a short command answers with --json, beside the server or without it; here, for starting Python takes
        longer than the command."""
        said, warned = io.StringIO(), io.StringIO()
        with redirect_stdout(said), redirect_stderr(warned):
            code = run([*words, "--data", str(self.folder), "--json"])
        assert code == 0, said.getvalue() + warned.getvalue()
        return json.loads(said.getvalue())

    def code(self, role: str = "keeper") -> str:
        return str(self.run("pair", "--role", role)["code"])

    def entries(self) -> list[dict[str, Any]]:
        """Every entry in the book, in the server's order."""
        out = self.folder / "copy.jsonl"
        self.run("export", str(out))
        return [json.loads(line) for line in out.read_text(encoding="utf-8").split("\n") if line]

    def _end(self, sign: signal.Signals) -> None:
        if self.process is None:
            return
        self.process.send_signal(signal.SIGCONT)
        self.process.send_signal(sign)
        self.process.wait(timeout=20)
        assert self.process.stdout is not None
        self.process.stdout.close()
        self.process = None


class ServedHouse(Served):
    """A server with an authority of its own; `install`: its page on plain http."""

    def __init__(self, folder: Path, name: str) -> None:
        install_port = free_port()
        words = ("--house", "--house-name", name, "--host", "127.0.0.1", "--install-port", str(install_port))
        super().__init__(folder, *words)
        self.name = name
        self.url = f"https://127.0.0.1:{self.port}"
        self.install = f"http://127.0.0.1:{install_port}"

    @property
    def authority(self) -> Path:
        """The certificate that phones are asked to trust."""
        return self.folder / "house" / "authority.pem"


def wait_until(found: Any, seconds: float = 15.0, pause: float = 0.05) -> None:
    """Wait until found() is true; the last answer is shown on failure."""
    end = time.monotonic() + seconds
    while not (answer := found()):
        assert time.monotonic() < end, f"still {answer!r} after {seconds} s"
        time.sleep(pause)
