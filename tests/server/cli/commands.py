"""Runs `broodline` as a keeper does, and pairs phones with a server that runs."""

import io
import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx2 as httpx

from broodline.cli.main import run
from tests.browser.serving import Served
from tests.server.store.log_suite import note


@dataclass
class Done:
    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)


def broodline(*words: object) -> Done:
    """Run a command in this process: the same as a keeper gets, without the seconds a new process takes."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            code = run([str(word) for word in words])
        except SystemExit as left:  # argparse leaves by itself
            code = int(left.code or 0)
    return Done(code, out.getvalue(), err.getvalue())


def apart(*words: object) -> Done:
    """Run a command in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "broodline", *map(str, words)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return Done(done.returncode, done.stdout, done.stderr)


@contextmanager
def phone(served: Served, role: str = "keeper") -> Iterator[httpx.Client]:
    """A client that was paired by a code from the command line, over real HTTP."""
    with httpx.Client(base_url=served.url, headers={"origin": served.url}, timeout=30) as client:
        answer = client.post("/api/v1/pair", json={"code": served.code(role), "name": "phone"})
        assert answer.status_code == 200, answer.text
        yield client


def document(number: int, text: str = "") -> dict[str, Any]:
    written: dict[str, Any] = json.loads(note(number, text).canonical)
    return written


def write_lines(path: Path, *lines: object) -> Path:
    """A file of JSON lines; text goes in as it is."""
    texts = [line if isinstance(line, str) else json.dumps(line) for line in lines]
    path.write_text("\n".join(texts) + "\n")
    return path
