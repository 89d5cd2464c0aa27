"""`broodline paper`: papers as PDF, made offline."""

from argparse import Namespace, _SubParsersAction
from datetime import date
from pathlib import Path
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.files import write_whole
from broodline.cli.mating_options import add_mating_wishes, mating_wishes
from broodline.cli.place import add_place, folder_of, last_address, moment_of, open_book
from broodline.cli.printing import say, say_json, warn
from broodline.errors import WrongUse
from broodline.exchange.typeset import PAPERS, Printed
from broodline.sync.book_of import BookOf
from broodline.trade.calendar import local_date
from broodline.web.papers import (
    PAPERS_BY_DAYS,
    PAPERS_BY_ID,
    PAPERS_BY_YEAR,
    Wanted,
    matings_paper,
    wanted_days,
    wanted_paper,
)

_WHAT = {
    "season": "a season: YEAR",
    "marks": "marks of a season: YEAR",
    "setting": "one hatch: the setting's ID",
    "cards": "cards for trays and brooders: the setting's ID",
    "tally": "a card to count on by hand: the setting's ID",
    "pedigree": "a bird's certificate and parents' sheet: the bird's ID",
    "matings": "pens for next season (--pens and what else `report matings` takes)",
    "away": "while you are away (--from, --until)",
    "inspection": "for an inspector (--from, --until)",
}


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "paper", help="a paper as PDF: season, setting, cards, tally, marks, pedigree, matings …"
    )
    add_place(parser, json=True)
    parser.add_argument("name", choices=_WHAT, help="; ".join(f"{name}: {words}" for name, words in _WHAT.items()))
    parser.add_argument("of", nargs="?", metavar="YEAR|ID", help="which season, setting or bird")
    parser.add_argument("-o", "--output", type=Path, metavar="FILE.pdf", help="default: NAME.pdf here")
    parser.add_argument("--from", dest="first", metavar="DATE", help="the first day")
    parser.add_argument("--until", dest="last", metavar="DATE", help="the last day")
    parser.add_argument("--paper", choices=PAPERS, help="the size of the sheets (default: by the keeper's country)")
    parser.add_argument(
        "--boxes", action="store_true", help="a box for each letter that the fonts lack; else it is a fault"
    )
    parser.add_argument("--on", metavar="DATE", help="take this day as today (all entries still count)")
    add_mating_wishes(parser.add_argument_group("pens for next season"))
    parser.set_defaults(run=run_paper)


def run_paper(options: Namespace) -> int:
    """Write the PDF."""
    with open_book(options) as shelf:
        standing, _ = BookOf(shelf.log).standing(shelf.holdings.current().id)
    now = moment_of(options.on, standing.keeper.zone)
    wanted = Wanted(now, wanted_paper(options.paper), last_address(folder_of(options)), options.boxes)
    file: Path = options.output or Path(f"{options.name}.pdf")
    printed = _print(standing, options, wanted)
    write_whole(file, [printed.content], folder_of(options))
    if printed.lacking:
        warn(f"The paper's fonts lack {' '.join(printed.lacking)}: boxes stand there instead.")
    if options.json:
        say_json({"file": str(file), "lacking": list(printed.lacking)})
    else:
        say(f"{file} written.")
    return 0


def _print(standing: Standing, options: Namespace, wanted: Wanted) -> Printed:
    name, of = options.name, options.of
    if name in PAPERS_BY_DAYS:
        make, ahead_days = PAPERS_BY_DAYS[name]
        today = date.fromisoformat(local_date(wanted.now, standing.keeper.zone))
        return make(standing, *wanted_days(options.first, options.last, today, ahead_days), wanted)
    if name == "matings":
        return matings_paper(standing, mating_wishes(options), wanted)
    if of is None:
        raise WrongUse(f"Which one? {_WHAT[name]}.", remedy="`broodline report` and the app show ids.")
    if name in PAPERS_BY_YEAR:
        if not (of.isascii() and of.isdigit() and len(of) == 4):
            raise WrongUse(f"{of} is no year.", remedy="Write a year such as 2026.")
        return PAPERS_BY_YEAR[name](standing, int(of), wanted)
    return PAPERS_BY_ID[name](standing, of, wanted)
