"""`broodline demo`: an invented holding to try things on, in a folder of its own that never meets a real book."""

import secrets
from argparse import Namespace, _SubParsersAction
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path
from typing import Any

from broodline.cli.place import add_place, now_ms
from broodline.cli.printing import say, say_json
from broodline.cli.serve import serve
from broodline.errors import WrongUse
from broodline.exchange.seed import TEMPLATE, seed_entries, story_day
from broodline.settings import DEMO_PORT, Settings, demo_data_dir
from broodline.store.backups import remove_book
from broodline.store.server_lock import NoCommands, ServerLock
from broodline.store.shelf import Shelf, open_shelf

ENTRIES_AT_ONCE = 200
BROUGHT_BY = "demo"


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("demo", help="serve an invented holding to try things on")
    add_place(parser, json=True)
    parser.add_argument("--port", type=int, default=DEMO_PORT)
    parser.add_argument("--fresh", action="store_true", help="forget what was tried, and begin anew")
    parser.add_argument("--no-serve", action="store_true", help="only write the demo's book")
    parser.set_defaults(run=run_demo)


def run_demo(options: Namespace) -> int:
    """Write the demo's book if it is missing or not of today, then serve it."""
    folder: Path = (options.data if options.data is not None else demo_data_dir()).absolute()
    entries = prepare(folder, datetime.now(UTC), fresh=options.fresh)
    if not options.no_serve:
        return serve(Settings(folder, port=options.port, demo=True))
    if options.json:
        say_json({"folder": str(folder), "entries": entries})
    else:
        say(f"The demo's book is in {folder}, with {entries} entries.")
    return 0


def prepare(folder: Path, now: datetime, *, fresh: bool = False) -> int:
    """See to it that the folder holds the demo, dated by today. Returns how many entries it has.

    What was tried today stays, unless fresh. Raises WrongUse for a folder that holds a real book, and leaves it
    alone; Busy where the demo has to be made anew while it is served.
    """
    template = (files("broodline.exchange") / TEMPLATE).read_bytes()
    today = story_day(template, now)
    with _open(folder) as shelf:
        holding = shelf.holdings.current()
        if not holding.demo:
            raise WrongUse(
                f"The folder {folder} holds a real book; the demo leaves it alone.",
                remedy="Give the demo another folder with --data.",
            )
        if holding.seeded_on == today.isoformat() and not fresh:
            return shelf.log.count(holding.id)
    with ServerLock(folder), NoCommands(folder):
        remove_book(folder)
        with _open(folder) as shelf:
            holding = shelf.holdings.current()
            entries = seed_entries(template, today)
            for start in range(0, len(entries), ENTRIES_AT_ONCE):
                shelf.log.append(holding.id, entries[start : start + ENTRIES_AT_ONCE], BROUGHT_BY)
            shelf.holdings.note_seeded(today.isoformat())
            return len(entries)


def _open(folder: Path) -> Shelf:
    return open_shelf(folder, now_ms=now_ms, random_bytes=secrets.token_bytes, demo=True)
