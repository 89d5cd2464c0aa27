"""A bird's travelling papers: the entries of the bird, of its forebears, and of their families, whole and with all
corrections, as JSON lines; after them the parents a book works out for one that names none. Entries of other kinds stay
at home: they tell of the holding, not of the bird.

Read elsewhere, the bird came; its forebears are known there and were never there.
"""

import io
import zipfile
import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import cast

from broodline.book.birds import NEVER_HERE, bird_id, birds_of
from broodline.book.bodies_flock import Left
from broodline.book.standing import Standing
from broodline.book.wire import Entry, stored_entry
from broodline.errors import EnvelopeError, NotFound
from broodline.exchange.archive import BadLine, GoodLine, Line, read_lines
from broodline.exchange.drafts import Drafts
from broodline.exchange.parents_told import SIDES, Candidates, only_tells_parents, parents_told

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


@dataclass(frozen=True, slots=True)
class Going:
    """lines: canonical bytes. left_out: how many forebears these papers could not hold."""

    lines: Sequence[bytes]
    left_out: int


def travel_lines(
    standing: Standing, entries: Iterable[bytes], name: str, candidates: Candidates | None = None
) -> Going:
    """The bird's own lines first, then the parents told of it, else in the order of the log. candidates: the parents
    that the book works out. What papers cannot hold stays at home, the farthest generations first. Raises NotFound."""
    log = [entry for written in entries if (entry := stored_entry(written)).kind in KINDS]
    trees: dict[str, list[Entry]] = {}
    for entry in log:
        trees.setdefault(standing.root_of.get(entry.id, entry.id), []).append(entry)
    birds = birds_of(standing, None)
    bird = bird_id(standing, name)
    if bird not in birds:
        raise NotFound("There is no such bird.")
    heads = {head.root: head.id for head in standing.heads.get("bird", ())}
    going: dict[str, Entry | None] = {}
    lines = size = 0
    generation, seen = [bird], {bird}
    while generation:
        above: list[str] = []
        for root in generation:
            one = birds[bird_id(standing, root)]
            family = standing.root_of.get(one.body.family or "", one.body.family or "")
            told = _told(trees.get(root, ()), heads.get(root), one.id, candidates)
            more = [*trees.get(root, ()), *([told] if told else ())]
            more += [] if family in going else trees.get(family, [])
            lines, size = lines + len(more), size + sum(len(entry.canonical) + 1 for entry in more)
            if root != bird and (lines > MOST_LINES or size > _MOST_BYTES):
                continue
            going |= {family: None, root: told}
            # Of a bird with several ids only the first goes, and those its chicks name: elsewhere each would be a bird.
            named = [*_parents(told), *(of.bird for of in (*(one.body.sires or ()), *(one.body.dams or ())))]
            ids = (known for of in named for known in (bird_id(standing, of), standing.root_of.get(of, of)))
            fresh = [known for known in dict.fromkeys(ids) if known not in seen and bird_id(standing, known) in birds]
            seen.update(fresh)
            above.extend(fresh)
        generation = above
    own: list[bytes] = []
    others: list[bytes] = []
    for entry in log:
        root = standing.root_of.get(entry.id, entry.id)
        if root in going:
            told = going[root] if entry is trees[root][-1] else None
            (own if root == bird else others).extend(line.canonical for line in (entry, told) if line is not None)
    return Going([*own, *others], len(seen - going.keys()))


def _told(tree: Sequence[Entry], head: str | None, bird: str, candidates: Candidates | None) -> Entry | None:
    stands = next((entry for entry in tree if entry.id == head), None)
    return None if stands is None or candidates is None else parents_told(stands, bird, candidates)


def _parents(told: Entry | None) -> list[str]:
    return [one["bird"] for side in SIDES for one in (told.body.get(side, ()) if told is not None else ())]


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
    entry has it. holding: where from. The same papers again give the same entries, and no second coming of a bird that
    is here or dead. What would change a bird or family of this book is left out and named. Raises EnvelopeError."""
    lines = _lines_in(content).splitlines()
    if len(lines) > MOST_LINES:
        remedy = f"Papers of one bird have at most {MOST_LINES:,} lines: ask for them again."
        raise EnvelopeError("file", f"These papers have {len(lines):,} lines.", remedy=remedy)
    read = list(read_lines(lines))
    kept = [line for line in read if isinstance(line, GoodLine) and line.entry.kind in KINDS]
    bad = [_bad(line) for line in read if not (isinstance(line, GoodLine) and line.entry.kind in KINDS)]
    own = _of_their_own([line.entry for line in kept], standing)
    good = [line.entry for line in kept if line.entry.id in own]
    home = _told_at_home([line.entry for line in kept], standing)
    bad += [_not_theirs(line, standing) for line in kept if line.entry.id not in own | home]
    founding = [entry for entry in good if entry.kind == "bird" and entry.amends is None]
    if not founding or good[0] is not founding[0]:
        raise EnvelopeError("file", "These are no bird's papers.", remedy="Take a copy of a book in with import.")
    drafts = Drafts(standing.keeper.zone, now, 0)
    here = birds_of(standing, None)
    known = here.get(bird_id(standing, founding[0].id))
    if known is None or (known.where != "here" and known.id not in _dead(standing)):
        came = {"bird": founding[0].id, "on": on.isoformat(), "how": how, **({"from": holding} if holding else {})}
        drafts.write("came", came, on)
    for entry in founding[1:]:
        if bird_id(standing, entry.id) not in here:
            left = {"bird": entry.id, "on": on.isoformat(), "how": "given", "cause": NEVER_HERE}
            drafts.write("left", {**left, **({"to": holding} if holding else {})}, on)
    return Arrived(founding[0].id, [*good, *drafts.entries.values()], sorted(bad, key=lambda line: line.number))


def _of_their_own(entries: Sequence[Entry], standing: Standing) -> set[str]:
    """Ids of those that found something, correct what these papers found and this book did not hold, or that this book
    holds already: a stranger's papers change nothing of mine."""
    above = {entry.id: entry.amends for entry in entries}
    own = {entry.id for entry in entries if entry.id in standing.root_of or entry.amends is None}
    fresh = {entry.id for entry in entries if entry.amends is None and entry.id not in standing.root_of}
    for entry in entries:
        passed: set[str] = set()
        root: str | None = entry.id
        while root is not None and above.get(root) is not None and root not in passed:
            passed.add(root)
            root = above[root]
        if root in fresh:
            own.add(entry.id)
    return own


def _told_at_home(entries: Sequence[Entry], standing: Standing) -> set[str]:
    """Ids of those that only tell the parents of a bird that hatched here: this book works them out itself."""
    above, birds = {entry.id: entry for entry in entries}, birds_of(standing, None)
    found = set()
    for entry in entries:
        corrected = above.get(entry.amends or "")
        root = standing.root_of.get(entry.amends or "")
        bird = None if root is None else birds.get(bird_id(standing, root))
        if corrected is None or bird is None or not only_tells_parents(entry, corrected):
            continue
        if any(one.lot in standing.lots for one in bird.body.lots or ()):
            found.add(entry.id)
    return found


def _not_theirs(line: GoodLine, standing: Standing) -> BadLine:
    entry = line.entry
    root = standing.root_of.get(entry.amends or "", entry.amends or "")
    bird = birds_of(standing, None).get(bird_id(standing, root)) if entry.kind == "bird" else None
    family = standing.families.get(root) if entry.kind == "family" else None
    named = bird.label if bird is not None else family.name if family is not None else "one that is not in these papers"
    message = f"This line would change {named}, which these papers do not bring."
    return BadLine(line.number, "amends", message, "It was left out. If it is right, correct it in your own book.")


def _dead(standing: Standing) -> set[str]:
    left = (cast(Left, head.body) for head in standing.heads.get("left", ()))
    return {bird_id(standing, one.bird) for one in left if one.how in ("died", "culled")}


# What reading a file that lost or changed some of its bytes ends in.
_DAMAGED = (KeyError, OSError, ValueError, EOFError, RuntimeError, zipfile.BadZipFile, zlib.error)


def _lines_in(content: bytes) -> bytes:
    if not content.startswith(b"PK\x03\x04"):
        return content
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed, packed.open(LINES) as lines:
            read = lines.read(_MOST_BYTES + 1)
    except _DAMAGED as fault:
        raise EnvelopeError("file", "These papers cannot be opened.", remedy="Ask for them again.") from fault
    if len(read) > _MOST_BYTES:
        raise EnvelopeError("file", "These papers are longer than any bird's are.", remedy="Ask for them again.")
    return read


def _bad(line: Line) -> BadLine:
    if isinstance(line, BadLine):
        return line
    message = f"An entry of the kind {line.entry.kind} does not belong in a bird's papers."
    return BadLine(line.number, "kind", message, "It was left out; the rest was read.")
