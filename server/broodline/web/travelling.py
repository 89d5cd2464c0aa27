"""A bird's travelling papers, written and read. For routes and commands."""

from collections.abc import Iterable
from datetime import date, datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.exchange.travel import code_text, pack, read_arrival, travel_lines
from broodline.store.log import Log
from broodline.web.papers import Wanted, bird_paper

HOW = ("bought", "given", "lent", "returned", "found")  # as a `came` entry has it


def travel_file(standing: Standing, entries: Iterable[bytes], bird: str, wanted: Wanted) -> tuple[bytes, int]:
    """A zip of the paper and the entries, and how many these are. Raises NotFound."""
    lines = travel_lines(standing, entries, bird)
    paper = bird_paper(standing, bird, wanted, code_text(lines))
    return pack(lines, paper.content), len(lines)


def take_bird(
    log: Log,
    holding: str,
    standing: Standing,
    content: bytes,
    now: datetime,
    on: date,
    how: str,
    origin: str | None,
    *,
    dry_run: bool,
) -> dict[str, Any]:
    """{dry_run, bird, added, known, bad: [{line, field, message, remedy}]}; all entries go in together. how: one of
    HOW. origin: the holding it came from. Raises EnvelopeError, DiskFull, Busy."""
    arrived = read_arrival(content, standing, now, on, how, origin)
    known = {placed.id for placed in log.weigh(holding, arrived.entries) if placed.status != "stored"}
    new = [entry for entry in arrived.entries if entry.id not in known]
    if new and not dry_run:
        log.append(holding, new, "import")
    bad = [line.as_json() for line in arrived.bad]
    return {"dry_run": dry_run, "bird": arrived.bird, "added": len(new), "known": len(known), "bad": bad}
