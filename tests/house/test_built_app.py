"""The built app as phones get it: small enough for a slow line in a shed, and nothing inline."""

import gzip
import re
from pathlib import Path

from tests.house.tree import PACKAGE

BUILT = PACKAGE / "_pwa"
MOST_SCRIPT_BYTES_GZ = 45_000  # the book opens and eggs are counted: under a second on a line of 500 kbit/s
MOST_PRECACHED_BYTES = 300_000
MOST_OF_A_START_BYTES_GZ = 8_000


def packed_copy(path: Path) -> Path:
    return path.with_name(path.name + ".gz")


def scripts_before_first_use() -> set[Path]:
    """The page's scripts and everything they import at once; what is loaded on demand is left out."""
    page = (BUILT / "index.html").read_text()
    return with_imports([BUILT / src.lstrip("/") for src in re.findall(r'<script[^>]* src="([^"]+)"', page)])


def with_imports(waiting: list[Path]) -> set[Path]:
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
    sizes = {path.name: packed_copy(path).stat().st_size for path in scripts}
    assert sum(sizes.values()) <= MOST_SCRIPT_BYTES_GZ, sizes


def test_what_a_start_waits_for_brings_no_other_screens_parts():
    """A long book opens with `state/keeping`: with 158 kB of the screens' parts before it a start took half as long
    again on a slow phone."""
    [keeping] = (BUILT / "assets").glob("keeping-*.js")
    behind = with_imports([keeping]) - scripts_before_first_use()
    sizes = {path.name: packed_copy(path).stat().st_size for path in behind}
    assert sum(sizes.values()) <= MOST_OF_A_START_BYTES_GZ, sizes


def test_everything_kept_on_the_phone_comes_quickly():
    """What the worker's own list names, as it goes over the line: texts packed, pictures and fonts as they are. The
    pictures of the home screen are the system's to fetch, and every other file is on the list."""
    worker = BUILT / "sw.js"
    listed = {BUILT / url.lstrip("/") for url in re.findall(r"url:[`\"'](/[^`\"']+)", worker.read_text())}
    built = {path for path in BUILT.rglob("*") if path.is_file() and path.suffix != ".gz" and path.name != ".stamp"}
    left_out = {re.sub(r"^(server-pages)-.+", r"\1", path.name) for path in built - listed}
    assert left_out == {
        *("sw.js", "icon-192.png", "icon-512.png", "maskable-192.png", "maskable-512.png", "apple-touch-180.png"),
        "server-pages",  # nothing to show without the server
    }
    kept = [*listed, worker]
    sent = {
        path.name: packed.stat().st_size if (packed := packed_copy(path)).is_file() else path.stat().st_size
        for path in kept
    }
    assert sum(sent.values()) <= MOST_PRECACHED_BYTES, sent


def test_every_text_has_its_packed_copy():
    texts = [path for path in BUILT.rglob("*") if path.suffix in {".css", ".html", ".js", ".svg", ".webmanifest"}]
    assert [path.name for path in texts if gzip.decompress(packed_copy(path).read_bytes()) != path.read_bytes()] == []


def test_the_page_has_nothing_inline():
    page = (BUILT / "index.html").read_text()
    assert re.findall(r"<script(?![^>]*\bsrc=)", page) == []
    assert re.findall(r"<style|\sstyle=|\son[a-z]+=|javascript:|data:", page) == []
    assert all(src.startswith("/") and not src.startswith("//") for src in re.findall(r'(?:src|href)="([^"]+)"', page))


def test_the_scripts_make_no_code_from_text():
    scripts = [*BUILT.rglob("*.js")]
    assert len(scripts) >= 2
    assert [path.name for path in scripts if re.search(r"\beval\(|new Function\(", path.read_text())] == []
