"""Faults of our own in work that goes on by itself: told by their place, since their words may quote the book."""

import traceback
from pathlib import Path


def place_of(fault: BaseException) -> str:
    """The kind of fault, and where it came up: "KeyError in agenda.py, line 12"."""
    frames = traceback.extract_tb(fault.__traceback__)
    where = f" in {Path(frames[-1].filename).name}, line {frames[-1].lineno}" if frames else ""
    return f"{type(fault).__name__}{where}"
