"""The phone's book, asked by line: the TypeScript bundled once and run in one process of Node.js."""

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[3]
NODE = Path(sys.prefix, "bin", "node")
BUNDLER = ROOT / "pwa" / "node_modules" / "rolldown" / "bin" / "cli.mjs"
QUESTIONS = ROOT / "tests" / "pwa" / "book" / "by-line.ts"


class Phone:
    """Questions in, canonical text out."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process

    def answer(self, ask: str, **question: Any) -> str:
        """The answer as the phone wrote it. Lone surrogates travel escaped, numbers as Python writes them."""
        assert self._process.stdin
        assert self._process.stdout
        self._process.stdin.write(json.dumps({"ask": ask, **question}) + "\n")
        self._process.stdin.flush()
        return self._process.stdout.readline().rstrip("\n")


@contextmanager
def phone_book(folder: Path) -> Iterator[Phone]:
    """The phone's book, built into `folder`."""
    bundle = folder / "by-line.mjs"
    build: list[str | Path] = [NODE, BUNDLER, QUESTIONS, "--platform", "node", "-o", bundle]
    subprocess.run([*build, "--tsconfig", "tsconfig.tests.json"], cwd=ROOT / "pwa", check=True, capture_output=True)
    with subprocess.Popen(
        [NODE, bundle], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
    ) as process:
        yield Phone(process)
        assert process.stdin
        process.stdin.close()
