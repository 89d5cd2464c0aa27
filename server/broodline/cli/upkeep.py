"""`broodline check`, `backup` and `restore`: whether the book is whole, and how it stays so."""

import secrets
from argparse import Namespace, _SubParsersAction
from pathlib import Path
from typing import Any

from broodline.book.moments import instant
from broodline.book.problems import Problem
from broodline.cli.place import add_place, folder_of, now_ms, open_book
from broodline.cli.printing import say, say_json
from broodline.errors import BookDamaged, WrongUse
from broodline.reports.every_problem import every_problem
from broodline.store.backups import restore
from broodline.store.own_files import refuse_own
from broodline.store.shelf import Shelf
from broodline.store.verification import Fault, find_faults
from broodline.sync.book_of import BookOf


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the commands."""
    check = commands.add_parser("check", help="verify the book and list what does not add up in it")
    add_place(check, json=True)
    check.set_defaults(run=run_check)
    backup = commands.add_parser("backup", help="write a verified copy of the book")
    add_place(backup, json=True)
    backup.add_argument("file", type=Path)
    backup.set_defaults(run=run_backup)
    put_back = commands.add_parser("restore", help="put a backup in the book's place (no server may run)")
    add_place(put_back, json=True)
    put_back.add_argument("file", type=Path)
    put_back.add_argument("--other-holding", action="store_true", help="also where the folder's book is another one")
    put_back.set_defaults(run=run_restore)


def run_check(options: Namespace) -> int:
    """Verify the file, then fold the book. 1 only for what is damaged or lost, never for what was recorded."""
    entries = 0
    problems: tuple[Problem, ...] = ()
    remedy = BookDamaged("").remedy
    try:
        with open_book(options) as shelf:
            faults = find_faults(shelf.connection)
            if not faults:
                entries, problems = _fold(shelf)
    except BookDamaged as fault:
        faults, remedy = [Fault("integrity", fault.message)], fault.remedy
    if options.json:
        say_json(
            {
                "ok": not faults,
                "entries": entries,
                "faults": [{"code": fault.code, "message": fault.message} for fault in faults],
                "problems": [problem.as_json() for problem in problems],
                **({"remedy": remedy} if faults else {}),
            }
        )
        return 1 if faults else 0
    for fault_found in faults:
        say(f"DAMAGED: {fault_found.message}")
    for problem in problems:
        say(f"{problem.message} {problem.remedy}" + (f" ({problem.entry})" if problem.entry else ""))
    if faults:
        say(remedy)
        return 1
    say(f"The book is whole: {entries} entries, every hash and the chain agree. Problems to look at: {len(problems)}.")
    return 0


def run_backup(options: Namespace) -> int:
    """Write a copy and verify it."""
    if not options.file.absolute().parent.is_dir():
        raise WrongUse(
            f"There is no folder {options.file.absolute().parent}.", remedy="Name a file in a folder that exists."
        )
    refuse_own(options.file, folder_of(options))
    with open_book(options) as shelf:
        shelf.backups.take(options.file.absolute())
        entries = shelf.log.count(shelf.holdings.current().id)
    if options.json:
        say_json({"file": str(options.file), "entries": entries})
    else:
        say(f"Backup written and verified: {options.file}, {entries} entries. Keep a copy on another machine.")
    return 0


def run_restore(options: Namespace) -> int:
    """Put the backup in place."""
    replaced = restore(
        options.file,
        folder_of(options),
        now_ms=now_ms,
        random_bytes=secrets.token_bytes,
        other_holding=options.other_holding,
    )
    with open_book(options) as shelf:
        entries = shelf.log.count(shelf.holdings.current().id)
    if options.json:
        say_json({"entries": entries, "replaced": None if replaced is None else str(replaced)})
        return 0
    say(f"Restored: {entries} entries. The phones bring back what is newer when they next sync.")
    if replaced is not None:
        say(f"The replaced book was kept as {replaced}.")
    return 0


def _fold(shelf: Shelf) -> tuple[int, tuple[Problem, ...]]:
    standing, entries = BookOf(shelf.log).standing(shelf.holdings.current().id)
    return entries, every_problem(standing, instant(now_ms()))
