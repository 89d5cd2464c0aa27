"""`broodline travel`: a bird's papers, written and read; `broodline society`: a season's return to a breed society."""

from argparse import Namespace, _SubParsersAction
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from broodline.book.moments import day_of_text
from broodline.cli.files import write_whole
from broodline.cli.place import add_place, folder_of, last_address, open_book
from broodline.cli.printing import say, say_json, warn
from broodline.errors import WrongUse
from broodline.store.log import all_rows
from broodline.sync.book_of import BookOf
from broodline.trade.calendar import local_date
from broodline.trade.counted import many
from broodline.web.exports import society_csv
from broodline.web.papers import Wanted
from broodline.web.travelling import HOW, take_bird, travel_file

_MOST_BYTES = 16 * 1024 * 1024


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the commands."""
    travel = commands.add_parser("travel", help="a bird's papers for whoever takes it on, and their reading")
    acts = travel.add_subparsers(title="acts", metavar="ACT", required=True)
    give = acts.add_parser("give", help="write a bird's papers: a PDF and its entries, in one zip")
    add_place(give, json=True)
    give.add_argument("bird", help="the bird's id")
    give.add_argument("-o", "--output", type=Path, default=Path("bird.zip"), metavar="FILE.zip")
    give.set_defaults(run=run_give)
    take = acts.add_parser("take", help="take a bird's papers in: it came here")
    add_place(take, json=True)
    take.add_argument("file", type=Path)
    take.add_argument("--on", metavar="DATE", help="the day it came (default: today)")
    take.add_argument("--how", choices=HOW, default="bought")
    take.add_argument("--from", dest="holding", metavar="HOLDING", help="where from")
    take.add_argument("--dry-run", action="store_true", help="say what would be added, and add nothing")
    take.set_defaults(run=run_take)
    society = commands.add_parser("society", help="a season's return by breed and variety, as CSV")
    add_place(society, json=True)
    society.add_argument("year", type=int)
    society.add_argument("-o", "--output", type=Path, metavar="FILE.csv", help="default: society-YEAR.csv here")
    society.set_defaults(run=run_society)


def run_give(options: Namespace) -> int:
    """Write the zip."""
    with open_book(options) as shelf:
        holding = shelf.holdings.current().id
        standing, _ = BookOf(shelf.log).standing(holding)
        rows = (document for _, document in all_rows(shelf.log, holding))
        wanted = Wanted(datetime.now(UTC), None, last_address(folder_of(options)), boxes=True)
        content, going = travel_file(standing, rows, options.bird, wanted)
    write_whole(options.output, [content], folder_of(options))
    if options.json:
        say_json({"file": str(options.output), "entries": len(going.lines), "left_out": going.left_out})
    else:
        say(f"{options.output} written: the paper, and {len(going.lines)} entries. Entries of other kinds stay here.")
        if going.left_out:
            say(f"{many(going.left_out, 'far forebear')} did not fit in and stay here too.")
    return 0


def run_take(options: Namespace) -> int:
    """Take the good lines in; 1 where any was not taken."""
    try:
        if options.file.stat().st_size > _MOST_BYTES:
            raise WrongUse(f"{options.file} is too large for a bird's papers.")
        content = options.file.read_bytes()
    except OSError as fault:
        raise WrongUse(f"{options.file} cannot be read: {fault.strerror}.", remedy="Name the papers.") from fault
    now = datetime.now(UTC)
    with open_book(options) as shelf:
        holding = shelf.holdings.current().id
        standing, _ = BookOf(shelf.log).standing(holding)
        on = _day(options.on, local_date(now, standing.keeper.zone))
        answer = take_bird(
            shelf.log, holding, standing, content, now, on, options.how, options.holding, dry_run=options.dry_run
        )
    if options.json:
        say_json(answer)
    else:
        for bad in answer["bad"]:
            warn(f"line {bad['line']}, {bad['field']}: {bad['message']}")
        verb = "would be added" if options.dry_run else "added"
        say(f"{answer['added']} entries {verb}, {answer['known']} known already. The bird is {answer['bird']}.")
    return 1 if answer["bad"] else 0


def run_society(options: Namespace) -> int:
    """Write the CSV."""
    with open_book(options) as shelf:
        standing, _ = BookOf(shelf.log).standing(shelf.holdings.current().id)
    file: Path = options.output or Path(f"society-{options.year}.csv")
    content, rows = society_csv(standing, options.year)
    write_whole(file, [content], folder_of(options))
    if options.json:
        say_json({"file": str(file), "rows": rows})
    else:
        say(f"{file} written: {rows} rows. Nothing was sent to anyone.")
    return 0


def _day(text: str | None, today: str) -> date:
    try:
        return day_of_text(text or today)
    except ValueError as fault:
        raise WrongUse(f"{text} is not a day.", remedy="Write a day as 2026-03-08.") from fault
