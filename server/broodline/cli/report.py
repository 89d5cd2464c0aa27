"""`broodline report`: the answers of the reports, as tables for people or JSON for programs."""

from argparse import ArgumentParser, Namespace, _SubParsersAction
from collections.abc import Callable
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.brood_words import say_brood, say_growth
from broodline.cli.choose_words import say_choose
from broodline.cli.kin_words import say_family, say_flock, say_matings, say_plan
from broodline.cli.mating_options import add_mating_wishes, mating_wishes
from broodline.cli.place import add_place, moment_of, open_book
from broodline.cli.printing import say_json
from broodline.cli.report_words import say_due, say_store
from broodline.cli.season_words import say_season
from broodline.cli.setting_words import say_setting
from broodline.errors import WrongUse
from broodline.reports.agenda import due
from broodline.reports.brood import brood_report
from broodline.reports.choosing import choosing_report, keeping_of
from broodline.reports.egg_store import egg_store
from broodline.reports.family import family_report
from broodline.reports.flock import flock_report
from broodline.reports.growth import growth_report
from broodline.reports.matings import matings_report
from broodline.reports.plan import plan_report, wanted_of
from broodline.reports.season import season_report
from broodline.reports.setting import setting_report
from broodline.sync.book_of import BookOf
from broodline.web.report_routes import stamped

Report = Callable[[Standing, datetime], dict[str, Any]]


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command and its reports."""
    parser = commands.add_parser("report", help="answer from the book")
    reports = parser.add_subparsers(title="reports", metavar="REPORT", required=True)
    setting = _add(reports.add_parser("setting", help="one setting: calendar, lots, rates, losses"), run_setting)
    setting.add_argument("id", help="the id of the setting")
    season = _add(reports.add_parser("season", help="a season: families compared, with intervals"), run_season)
    season.add_argument("year", type=int)
    brood = _add(reports.add_parser("brood", help="one batch of chicks: needs, losses, what is due"), run_brood)
    brood.add_argument("lot", help="the id of the batch")
    _add(reports.add_parser("growth", help="weights: how even, how fast, which birds lead"), run_growth)
    _add(reports.add_parser("due", help="what is due"), run_due)
    _add(reports.add_parser("store", help="eggs in store: how many, how old"), run_store)
    _add(reports.add_parser("family", help="all birds: inbreeding, kinship, founders"), run_family)
    _add(reports.add_parser("flock", help="the state of each breed, and what would help it"), run_flock)
    matings = _add(reports.add_parser("matings", help="pens for next season, least inbred"), run_matings)
    add_mating_wishes(matings)
    choose = _add(reports.add_parser("choose", help="which young birds to keep for breeding"), run_choose)
    choose.add_argument("--cocks", metavar="N", help="cockerels to keep (default: as many as stand in the pens)")
    choose.add_argument("--hens", metavar="N", help="pullets to keep (default: as many as stand in the pens)")
    choose.add_argument("--by", choices=("score", "weight"), help="what makes a bird the better of two")
    choose.add_argument("--breed", metavar="NAME", help="of which breed (default: that with most young birds)")
    plan = _add(reports.add_parser("plan", help="how many eggs to set, when, and the chance"), run_plan)
    plan.add_argument("--pullets", metavar="N", help="pullets of each family (default: 4)")
    plan.add_argument("--cockerels", metavar="N", help="cockerels of each family (default: 2)")
    plan.add_argument("--chance", metavar="PERCENT", help="chance that all wishes come true (default: 90)")
    plan.add_argument("--family", metavar="NAME", help="for one family (default: all)")
    plan.add_argument("--hatch-on", metavar="DATE", help="the wished day of hatching (default: as soon as can be)")


def run_setting(options: Namespace) -> int:
    """Print the report of a setting."""
    return _run(options, lambda standing, now: setting_report(standing, options.id, now), say_setting)


def run_season(options: Namespace) -> int:
    """Print the report of a season."""
    return _run(options, lambda standing, now: season_report(standing, options.year, now), say_season)


def run_brood(options: Namespace) -> int:
    """Print the report of one batch of chicks."""
    return _run(options, lambda standing, now: brood_report(standing, options.lot, now), say_brood)


def run_growth(options: Namespace) -> int:
    """Print the weights."""
    return _run(options, growth_report, say_growth)


def run_due(options: Namespace) -> int:
    """Print what is due."""
    return _run(options, due, say_due)


def run_store(options: Namespace) -> int:
    """Print the eggs in store."""
    return _run(options, egg_store, say_store)


def run_family(options: Namespace) -> int:
    """Print all birds with their inbreeding."""
    return _run(options, family_report, say_family)


def run_flock(options: Namespace) -> int:
    """Print the state of the flock."""
    return _run(options, flock_report, say_flock)


def run_matings(options: Namespace) -> int:
    """Print pens for next season."""
    wishes = mating_wishes(options)
    return _run(options, lambda standing, now: matings_report(standing, wishes, now), say_matings)


def run_choose(options: Namespace) -> int:
    """Print which young birds to keep."""
    wishes = keeping_of(vars(options))
    if wishes is None:
        raise WrongUse("Cocks and hens cannot be read.", remedy="Give whole numbers from 0 to 1000.")
    return _run(options, lambda standing, now: choosing_report(standing, wishes, now), say_choose)


def run_plan(options: Namespace) -> int:
    """Print how many eggs to set."""
    wanted = wanted_of(vars(options))
    if wanted is None:
        raise WrongUse(
            "The plan was asked for in words that cannot be read.",
            remedy="Ask for 0 to 100 pullets and cockerels, a chance of 1 to 99.9, and a day as 2026-04-30.",
        )
    return _run(options, lambda standing, now: plan_report(standing, wanted, now), say_plan)


def _add(parser: ArgumentParser, run: Callable[[Namespace], int]) -> ArgumentParser:
    add_place(parser, json=True)
    parser.add_argument("--on", metavar="DATE", help="take this day as today (all entries still count)")
    parser.set_defaults(run=run)
    return parser


def _run(options: Namespace, report: Report, print_it: Callable[[dict[str, Any], Standing], None]) -> int:
    with open_book(options) as shelf:
        standing, entries = BookOf(shelf.log).standing(shelf.holdings.current().id)
    now = moment_of(options.on, standing.keeper.zone)
    answer = report(standing, now)
    if options.json:
        say_json(stamped(answer, now, entries))
    else:
        print_it(answer, standing)
    return 0
