"""A bird's travelling papers: the entries of the bird, of forebears its own entries name, and of their families, whole
and with all corrections, as JSON lines. Entries of other kinds stay at home: they tell of the holding, not of the bird.

Read elsewhere, the bird came; its forebears are known there and were never there.
"""

import io
import zipfile
import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from broodline.book.birds import NEVER_HERE, bird_id, birds_of
from broodline.book.standing import Standing
from broodline.book.wire import Entry, stored_entry
from broodline.errors import EnvelopeError, NotFound
from broodline.exchange.archive import BadLine, GoodLine, Line, read_lines
from broodline.exchange.drafts import Drafts

KINDS = frozenset(("bird", "family"))
LINES, PAPER = "bird.jsonl", "bird.pdf"
MOST_LINES = 5000
_MOST_BYTES = 4 * 1024 * 1024
_CODE_BYTES = 1200  # of a QR code that a phone still reads from paper


@dataclass(frozen=True, slots=True)
class Arrived:
    """entries: those of the papers, then those that tell of the coming. bird: its id. bad: lines that were left out."""

    bird: str
    entries: Sequence[Entry]
    bad: Sequence[BadLine]


def travel_lines(standing: Standing, entries: Iterable[bytes], name: str) -> list[bytes]:
    """Canonical bytes, the bird's own first, else in the order of the log. Raises NotFound."""
    birds = birds_of(standing, None)
    bird = bird_id(standing, name)
    if bird not in birds:
        raise NotFound("There is no such bird.")
    going = {bird}
    waiting = [bird]
    while waiting:
        body = birds[waiting.pop()].body
        for parent in (*(body.sires or ()), *(body.dams or ())):
            one = bird_id(standing, parent.bird)
            if one in birds and one not in going:
                going.add(one)
                waiting.append(one)
    families = {standing.root_of.get(family, family) for one in going if (family := birds[one].body.family)}
    own, others = [], []
    for written in entries:
        entry = stored_entry(written)
        root = standing.root_of.get(entry.id, entry.id)
        if entry.kind == "bird" and bird_id(standing, root) == bird:
            own.append(written)
        elif (entry.kind == "bird" and bird_id(standing, root) in going) or (
            entry.kind == "family" and root in families
        ):
            others.append(written)
    return [*own, *others]


def code_text(lines: Sequence[bytes]) -> str | None:
    """What the QR code on the paper holds: as many of the lines, in their order, as a phone can read."""
    text = b""
    for line in lines:
        if len(text) + len(line) + 1 > _CODE_BYTES:
            break
        text += line + b"\n"
    return text.decode() or None


def pack(lines: Sequence[bytes], paper: bytes) -> bytes:
    """Both in one file."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in ((PAPER, paper), (LINES, b"".join(line + b"\n" for line in lines))):
            packed.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), content)
    return out.getvalue()


def read_arrival(content: bytes, standing: Standing, now: datetime, on: date, how: str, holding: str | None) -> Arrived:
    """The entries of papers, a zip or its lines alone, with the bird's coming. on: the day it came. how: as a `came`
    entry has it. holding: where from. The same papers again give the same entries. Raises EnvelopeError."""
    lines = list(read_lines(_lines_in(content).splitlines()[:MOST_LINES]))
    good = [line.entry for line in lines if isinstance(line, GoodLine) and line.entry.kind in KINDS]
    bad = [_bad(line) for line in lines if not (isinstance(line, GoodLine) and line.entry.kind in KINDS)]
    founding = [entry for entry in good if entry.kind == "bird" and entry.amends is None]
    if not founding or good[0] is not founding[0]:
        raise EnvelopeError("file", "These are no bird's papers.", remedy="Take a copy of a book in with import.")
    drafts = Drafts(standing.keeper.zone, now, 0)
    here = birds_of(standing, None)
    came = {"bird": founding[0].id, "on": on.isoformat(), "how": how, **({"from": holding} if holding else {})}
    drafts.write("came", came, on)
    for entry in founding[1:]:
        if entry.id not in here:
            left = {"bird": entry.id, "on": on.isoformat(), "how": "given", "cause": NEVER_HERE}
            drafts.write("left", {**left, **({"to": holding} if holding else {})}, on)
    return Arrived(founding[0].id, [*good, *drafts.entries.values()], bad)


# What reading a file that lost or changed some of its bytes ends in.
_DAMAGED = (KeyError, OSError, ValueError, EOFError, RuntimeError, zipfile.BadZipFile, zlib.error)


def _lines_in(content: bytes) -> bytes:
    if not content.startswith(b"PK\x03\x04"):
        return content
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed, packed.open(LINES) as lines:
            return lines.read(_MOST_BYTES)
    except _DAMAGED as fault:
        raise EnvelopeError("file", "These papers cannot be opened.", remedy="Ask for them again.") from fault


def _bad(line: Line) -> BadLine:
    if isinstance(line, BadLine):
        return line
    message = f"An entry of the kind {line.entry.kind} does not belong in a bird's papers."
    return BadLine(line.number, "kind", message, "It was left out; the rest was read.")
