"""Printing: a table for people or JSON for programs, and progress for whoever is watching."""

import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeVar

T = TypeVar("T")

PROGRESS_EVERY = 1000


def say(text: str = "") -> None:
    """A line of answer. Seen at once, also by a program that reads it through a pipe."""
    print(_harmless(text), flush=True)


def warn(text: str) -> None:
    """A line beside the answer."""
    print(_harmless(text), file=sys.stderr, flush=True)


def say_json(answer: Any) -> None:
    """The answer for a program. JSON itself writes control characters as escapes."""
    print(json.dumps(answer, ensure_ascii=False, indent=2), flush=True)


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
    return "".join(letter if letter.isprintable() or letter == "\n" else "\N{REPLACEMENT CHARACTER}" for letter in text)


def _shown(value: object) -> str:
    return "" if value is None else _harmless(str(value)).replace("\n", " ")


def _is_figure(text: str) -> bool:
    return not text or text.lstrip("-").replace(".", "", 1).replace(" %", "").isdigit()
