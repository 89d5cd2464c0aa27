"""The built app as phones get it: small enough for a slow line in a shed, and nothing inline."""

import gzip
import re
from pathlib import Path

from tests.house.tree import PACKAGE

BUILT = PACKAGE / "_pwa"
MOST_SCRIPT_BYTES_GZ = 45_000
MOST_PRECACHED_BYTES = 300_000


def zipped_bytes(path: Path) -> int:
    return len(gzip.compress(path.read_bytes(), 9))


def scripts_before_first_use() -> set[Path]:
    """The page's scripts and everything they import at once; what is loaded on demand is left out."""
    page = (BUILT / "index.html").read_text()
    waiting = [BUILT / src.lstrip("/") for src in re.findall(r'<script[^>]* src="([^"]+)"', page)]
    seen: set[Path] = set()
    while waiting:
        script = waiting.pop()
        if script not in seen:
            seen.add(script)
            imported = re.findall(r"""(?:\bfrom|\bimport)\s*["'](\.{1,2}/[^"']+\.js)["']""", script.read_text())
            waiting += [(script.parent / name).resolve() for name in imported]
    return seen


def test_the_script_before_first_use_is_small():
    scripts = scripts_before_first_use()
    assert len(scripts) >= 1
    sizes = {path.name: zipped_bytes(path) for path in scripts}
    assert sum(sizes.values()) <= MOST_SCRIPT_BYTES_GZ, sizes


def test_everything_kept_on_the_phone_is_small():
    kept = {path.name: path.stat().st_size for path in BUILT.rglob("*") if path.is_file() and path.name != ".stamp"}
    assert {"index.html", "sw.js"} <= set(kept)
    assert sum(kept.values()) <= MOST_PRECACHED_BYTES, kept


def test_the_page_has_nothing_inline():
    page = (BUILT / "index.html").read_text()
    assert re.findall(r"<script(?![^>]*\bsrc=)", page) == []
    assert re.findall(r"<style|\sstyle=|\son[a-z]+=|javascript:|data:", page) == []
    assert all(src.startswith("/") and not src.startswith("//") for src in re.findall(r'(?:src|href)="([^"]+)"', page))


def test_the_scripts_make_no_code_from_text():
    scripts = [*BUILT.rglob("*.js")]
    assert len(scripts) >= 2
    assert [path.name for path in scripts if re.search(r"\beval\(|new Function\(", path.read_text())] == []
