"""The command `broodline`: finds the command, runs it, and turns errors into words and an exit code.

0: well. 1: a fault was found. 2: wrong use. What a keeper recorded, however odd, never changes an exit code.
"""

import gc
import sys
from argparse import ArgumentParser
from collections.abc import Mapping, Sequence
from importlib import import_module

from broodline import __version__
from broodline.cli.printing import mark_what_cannot_be_written, warn
from broodline.errors import BroodlineError, Busy, EnvelopeError, NotFound, WrongUse

# Each module declares its commands with `declare`. Only the module of the command that was typed is loaded: the
# statistics behind the reports take longer to load than most commands take to run.
COMMANDS: Mapping[str, str] = {
    "demo": "demo",
    "serve": "serve",
    "pair": "pairing",
    "devices": "pairing",
    "import": "archive",
    "export": "export",
    "check": "upkeep",
    "backup": "upkeep",
    "restore": "upkeep",
    "remind": "remind",
    "sensors": "sensors",
    "report": "report",
    "paper": "paper",
    "travel": "travel",
    "society": "travel",
    "tables": "tables",
}
# A fold makes millions of lasting objects and no circles. At its usual pace the collector of circles walks them all
# again and again, and takes half as long as the fold itself.
COLLECT_AFTER = (500_000, 50, 100)
WRONG_USE = (WrongUse, EnvelopeError, NotFound, Busy)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit code. The process is this command's alone."""
    gc.set_threshold(*COLLECT_AFTER)
    mark_what_cannot_be_written()
    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


def run(arguments: Sequence[str]) -> int:
    """Run one command; returns its exit code. argparse itself leaves with 2 for words it does not know."""
    options = command_line(arguments).parse_args(arguments)
    try:
        code: int = options.run(options)
    except BroodlineError as fault:
        warn(f"{fault.message} {fault.remedy}")
        return 2 if isinstance(fault, WRONG_USE) else 1
    except BrokenPipeError:
        return 1  # whoever read the answer has gone
    except OSError as fault:  # a file or a folder that is not as it should be, or may not be used
        name = fault.filename2 or fault.filename  # of two, the one that was to be replaced
        where = f"{name}: " if name else ""
        warn(f"{where}{fault.strerror or fault}. Look what lies there and whether this user may read and write it.")
        return 2
    return code


def command_line(arguments: Sequence[str]) -> ArgumentParser:
    """The command that was typed with its options; all of them where none of ours was typed."""
    parser = ArgumentParser(prog="broodline", description="The book of a flock whose keeper hatches their own eggs.")
    parser.add_argument("--version", action="version", version=f"broodline {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    typed = COMMANDS.get(arguments[0]) if arguments else None
    for module in [typed] if typed else dict.fromkeys(COMMANDS.values()):
        import_module(f"broodline.cli.{module}").declare(commands)
    return parser
