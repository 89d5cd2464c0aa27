"""Packages of npm that a benchmark compares with or is judged by: installed for one run, into a folder that goes."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

NODE = Path(sys.prefix, "bin")


def install(home: Path, *packages: str) -> Path | None:
    """The folder with the packages in it, or None (said plainly) where npm could not bring them."""
    if shutil.which("npm", path=NODE) is None:
        print(f"There is no npm here, so {' '.join(packages)} is left out.")
        return None
    home.mkdir(parents=True)
    done = subprocess.run(
        [NODE / "npm", "install", "--no-audit", "--no-fund", "--loglevel=error", "--prefix", home, *packages],
        env={**os.environ, "PATH": f"{NODE}{os.pathsep}{os.environ['PATH']}"},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode != 0:
        print(f"npm could not install {' '.join(packages)}, so it is left out: {done.stderr.strip()[-300:]}")
        return None
    return home
