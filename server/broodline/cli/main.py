"""The command `broodline`: finds the command, runs it, and turns errors into words and an exit code.

0: well. 1: a fault was found. 2: wrong use. What a keeper recorded, however odd, never changes an exit code.
"""

import sys
from argparse import ArgumentParser
from collections.abc import Sequence

from broodline import __version__
from broodline.cli.archive import add_archive
from broodline.cli.demo import add_demo
from broodline.cli.pairing import add_pairing
from broodline.cli.printing import warn
from broodline.cli.serve import add_serve
from broodline.cli.tables import add_tables
from broodline.cli.upkeep import add_upkeep
from broodline.errors import BroodlineError, Busy, EnvelopeError, NotFound, WrongUse

WRONG_USE = (WrongUse, EnvelopeError, NotFound, Busy)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit code."""
    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


def run(arguments: Sequence[str]) -> int:
    """Run one command; returns its exit code. argparse itself leaves with 2 for words it does not know."""
    options = command_line().parse_args(arguments)
    try:
        code: int = options.run(options)
    except BroodlineError as fault:
        warn(f"{fault.message} {fault.remedy}")
        return 2 if isinstance(fault, WRONG_USE) else 1
    except BrokenPipeError:
        return 1  # whoever read the answer has gone
    return code


def command_line() -> ArgumentParser:
    """Every command with its options."""
    parser = ArgumentParser(prog="broodline", description="The book of a flock whose keeper hatches their own eggs.")
    parser.add_argument("--version", action="version", version=f"broodline {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for add in (add_demo, add_serve, add_pairing, add_archive, add_upkeep, add_tables):
        add(commands)
    return parser
