"""Papers as PDF/A: one small template a paper (papers/*.typ), what it tells handed in as JSON.

The compiler's own fonts are used and embedded, and no others, so that a paper is the same on every machine and is made
offline. A letter that they lack is never left out in silence: the paper is refused with the letter's name, or, where
that is asked for, a box stands there and the paper says so.
"""

import importlib.resources
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal, get_args

import segno
import typst

from broodline.errors import LettersLacking

Paper = Literal["a4", "us-letter"]
PAPERS: tuple[Paper, ...] = get_args(Paper)
BOX = "▢"
_TEMPLATES = importlib.resources.files("broodline.exchange") / "papers"
_LACKING = re.compile(r'the text `"(.*?)"` could not be displayed', re.DOTALL)
_MOST_TRIES = 50
_CONTROLS = dict.fromkeys((*range(32), *range(127, 160)), " ")


@dataclass(frozen=True, slots=True)
class Printed:
    """content: the PDF. lacking: letters that the fonts do not have, printed as boxes."""

    content: bytes
    lacking: tuple[str, ...]


def print_paper(name: str, told: Mapping[str, Any], *, paper: Paper, now: datetime, boxes: bool = False) -> Printed:
    """The paper as PDF/A-2b. told: plain JSON, as its template reads it. now: aware; the paper says when it was made.
    boxes: letters that the fonts lack become boxes. Raises LettersLacking where they may not.

    The same bytes for the same arguments.
    """
    with importlib.resources.as_file(_TEMPLATES) as folder:
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=True)
        text = json.dumps(_printable(told), ensure_ascii=False)
        lacking: set[str] = set()
        for _ in range(_MOST_TRIES):
            try:
                content = typst.compile(
                    str(folder / f"{name}.typ"),
                    root=str(folder),
                    font_paths=fonts,
                    format="pdf",
                    sys_inputs={"told": text, "paper": paper, "lacking": "yes" if lacking else ""},
                    pdf_standards=["a-2b"],
                    timestamp=int(now.timestamp()),
                )
            except typst.TypstError as fault:
                found = {letter for said in _LACKING.findall(str(fault.diagnostic)) for letter in _letters(said)}
                if not found - lacking:
                    raise
                lacking |= found
                text = "".join(BOX if letter in lacking else letter for letter in text)
            else:
                assert content is not None
                if lacking and not boxes:
                    raise LettersLacking(sorted(lacking), sorted(_holding(told, lacking)))
                return Printed(content, tuple(sorted(lacking)))
    raise RuntimeError("a paper cannot be set in these fonts")


def qr_picture(text: str) -> str:
    """A QR code as an SVG picture."""
    return segno.make(text, error="m", micro=False).svg_inline(border=0, omitsize=True)


def _printable(part: Any) -> Any:
    """The same without control characters, which no paper can show."""
    if isinstance(part, str):
        return part.translate(_CONTROLS)
    if isinstance(part, Mapping):
        return {name: _printable(below) for name, below in part.items()}
    if isinstance(part, list | tuple):
        return [_printable(below) for below in part]
    return part


def _holding(part: Any, letters: set[str]) -> set[str]:
    """The texts with any of those letters, as they would stand on the paper."""
    if isinstance(part, str):
        return {part} if letters & set(part) else set()
    below = part.values() if isinstance(part, Mapping) else part if isinstance(part, list | tuple) else ()
    return {text for one in below for text in _holding(one, letters)}


def _letters(said: str) -> set[str]:
    """The letters of a text as the compiler writes it: "\\u{200b}" for those that cannot be seen."""
    seen = re.sub(r"\\u\{([0-9a-f]+)\}", lambda found: chr(int(found[1], 16)), said)
    return {letter for letter in seen if not (letter.isascii() and letter.isprintable())}
