"""A long answer in parts under headings, with its sources numbered and told once at the end."""

from collections.abc import Iterable

from broodline.cli.printing import say


class Footnotes:
    """Sources by number."""

    def __init__(self) -> None:
        self.sources: dict[str, int] = {}

    def of(self, source: str) -> str:
        """The mark of a source."""
        return f"[{self.sources.setdefault(source, len(self.sources) + 1)}]"


def say_parts(parts: Iterable[tuple[str, Iterable[str]]], notes: Footnotes) -> None:
    """Each heading with its lines, none without; then the sources that the lines marked."""
    for heading, lines in parts:
        told = list(lines)
        if told:
            say()
            say(f"{heading}:")
        for line in told:
            say(f"- {line}")
    if notes.sources:
        say()
        say("Sources:")
    for source, number in notes.sources.items():
        say(f"[{number}] {source}")
