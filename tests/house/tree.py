"""The project's own files, as the house tests look at them."""

import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "server" / "broodline"
PHONE = ROOT / "pwa" / "src"

SERVER_STOREYS = ("cli", "web", "jobs", "sync", "store", "reports", "exchange", "book", "trade")
PHONE_STOREYS = ("app", "screens", "state", "sync", "storage", "book", "trade", "service-worker")


@cache
def own_files() -> tuple[Path, ...]:
    """All files under version control or about to be, relative to the root."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    return tuple(sorted(Path(name) for name in listed.split("\0") if name and (ROOT / name).is_file()))


@cache
def text_of(path: Path) -> str | None:
    """The file's text, or None where it is no text."""
    raw = (ROOT / path).read_bytes()
    try:
        return None if b"\0" in raw else raw.decode()
    except UnicodeDecodeError:
        return None


def sources(*suffixes: str) -> list[Path]:
    """Own files with one of these endings, without those that are generated."""
    return [path for path in own_files() if path.suffix in suffixes and ".generated" not in path.name]
