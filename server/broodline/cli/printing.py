"""Printing: a table for people or JSON for programs, and progress for whoever is watching."""

import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from io import TextIOWrapper
from typing import Any, TypeVar
from unicodedata import category

T = TypeVar("T")

PROGRESS_EVERY = 1000
ALL_LETTERS = "\N{LATIN SMALL LETTER E WITH ACUTE}\N{HATCHING CHICK}"
# Soft hyphens, and what joins letters or pictures into one; what turns the direction of writing is not among them.
_UNSEEN = "\N{SOFT HYPHEN}\N{ZERO WIDTH JOINER}\N{ZERO WIDTH NON-JOINER}"


def say(text: str = "") -> None:
    """A line of answer. Seen at once, also by a program that reads it through a pipe."""
    print(_harmless(text), flush=True)


def warn(text: str) -> None:
    """A line beside the answer. Where it cannot be written, as on a full disk, the work goes on without it."""
    with suppress(OSError):
        print(_harmless(text), file=sys.stderr, flush=True)


def say_json(answer: Any) -> None:
    """The answer for a program. JSON itself writes control characters as escapes, and all beside ASCII where the
    stream cannot hold every letter."""
    print(json.dumps(answer, ensure_ascii=not holds(ALL_LETTERS), indent=2), flush=True)


def holds(text: str) -> bool:
    """Whether the answer's stream can write this text."""
    try:
        text.encode(getattr(sys.stdout, "encoding", None) or "utf-8")
    except UnicodeEncodeError:
        return False
    return True


def mark_what_cannot_be_written() -> None:
    """On a terminal of few letters the others become question marks, instead of ending the command."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")


def say_table(headings: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """A table with columns as wide as they need; numbers stand to the right."""
    cells = [[_shown(value) for value in row] for row in rows]
    widths = [max(len(line[n]) for line in [list(headings), *cells]) for n in range(len(headings))]
    right = [bool(cells) and all(_is_figure(row[n]) for row in cells) for n in range(len(headings))]
    for line in [list(headings), ["-" * width for width in widths], *cells]:
        parts = [
            text.rjust(width) if flush else text.ljust(width)
            for text, width, flush in zip(line, widths, right, strict=True)
        ]
        say("  ".join(parts).rstrip())


def with_progress(things: Iterable[T], what: str) -> Iterator[T]:
    """Pass things on, and count them aloud where a person is watching a terminal."""
    watched = sys.stderr.isatty()
    count = 0
    for count, thing in enumerate(things, start=1):
        yield thing
        if watched and count % PROGRESS_EVERY == 0:
            print(f"\r{count} {what}", end="", file=sys.stderr, flush=True)
    if watched and count >= PROGRESS_EVERY:
        print(f"\r{count} {what}", file=sys.stderr, flush=True)


def _harmless(text: str) -> str:
    """Names come from phones and files: none of them may steer the terminal."""
    return "".join(letter if _is_harmless(letter) else "\N{REPLACEMENT CHARACTER}" for letter in text)


def _is_harmless(letter: str) -> bool:
    return letter.isprintable() or letter == "\n" or letter in _UNSEEN or category(letter) == "Zs"


def _shown(value: object) -> str:
    return "" if value is None else _harmless(str(value)).replace("\n", " ")


def _is_figure(text: str) -> bool:
    return not text or text.lstrip("-").replace(".", "", 1).replace(" %", "").isdigit()
