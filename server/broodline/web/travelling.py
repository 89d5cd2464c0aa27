"""A bird's travelling papers, written and read. For routes and commands."""

from collections.abc import Iterable
from datetime import date, datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.exchange.parents_told import Side
from broodline.exchange.travel import Going, code_text, pack, read_arrival, travel_lines
from broodline.reports.flock_pedigree import flock_of
from broodline.store.log import Log
from broodline.trade.calendar import local_date
from broodline.web.papers import Wanted, bird_paper

HOW = ("bought", "given", "lent", "returned", "found")  # as a `came` entry has it


def travel_file(standing: Standing, entries: Iterable[bytes], bird: str, wanted: Wanted) -> tuple[bytes, Going]:
    """A zip of the paper and the entries, and these. Raises NotFound."""
    going = going_of(standing, entries, bird, wanted.now)
    paper = bird_paper(standing, bird, wanted, code_text(going.lines))
    return pack(going.lines, paper.content), going


def going_of(standing: Standing, entries: Iterable[bytes], bird: str, now: datetime) -> Going:
    """The entries that go with a bird, with the parents that its certificate tells. Raises NotFound."""
    flock = flock_of(standing, local_date(now, standing.keeper.zone))

    def candidates(of: str, side: Side) -> dict[str, float]:
        known = flock.birds.get(of)
        chances = {} if known is None else known.parents.chances("sire" if side == "sires" else "dam")
        return {name: chance for name, chance in chances.items() if name is not None}

    return travel_lines(standing, entries, bird, candidates)


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
