"""`broodline export`: the book as JSON lines, as a workbook, or as a data package; the file's ending says which."""

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from broodline.cli.files import make_folder_of, write_whole
from broodline.cli.place import add_place, folder_of, open_book
from broodline.cli.printing import say, say_json, with_progress
from broodline.errors import WrongUse
from broodline.exchange.archive import write_line
from broodline.exchange.datapackage import DESCRIPTOR, package_zip
from broodline.store.log import all_rows
from broodline.store.shelf import Shelf
from broodline.sync.book_of import BookOf
from broodline.web.exports import book_package, book_workbook, season_workbook

ENDINGS = (".jsonl", ".xlsx", ".zip")


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    give = commands.add_parser(
        "export", help="write the book: FILE.jsonl (every entry), FILE.xlsx (sheets), FILE.zip or a folder (CSV)"
    )
    add_place(give, json=True)
    give.add_argument("file", type=Path, metavar="FILE|DIR")
    give.add_argument("--year", type=int, help="of FILE.xlsx: only the season that starts in this year")
    give.set_defaults(run=run_export)


def run_export(options: Namespace) -> int:
    """Write the file or the folder; each file appears whole or not at all."""
    file: Path = options.file
    ending = file.suffix.lower()
    if options.year is not None and ending != ".xlsx":
        raise WrongUse("Only a workbook can be of one season.", remedy="Name a file that ends in .xlsx.")
    is_folder = file.is_dir() or (not ending and not file.exists())
    if ending not in ENDINGS and not is_folder:
        raise WrongUse(
            f"The book cannot be written as {file.name}.",
            remedy=f"Name a file that ends in {', '.join(ENDINGS)}, or a folder.",
        )
    folder = folder_of(options)
    with open_book(options) as shelf:
        if is_folder or ending == ".zip":
            told = _export_package(shelf, file, folder, is_folder=is_folder)
        elif ending == ".xlsx":
            told = _export_workbook(shelf, file, options.year, folder)
        else:
            told = _export_lines(shelf, file, folder)
    if options.json:
        say_json({**told, "file": str(file)})
    else:
        say(f"{told['entries']} entries written to {file}.")
    return 0


def _export_lines(shelf: Shelf, file: Path, folder: Path) -> dict[str, Any]:
    count = 0

    def lines() -> Iterator[bytes]:
        nonlocal count
        for document in with_progress(_entries(shelf), "entries written"):
            count += 1
            yield write_line(document)

    write_whole(file, lines(), folder)
    return {"entries": count}


def _export_workbook(shelf: Shelf, file: Path, year: int | None, folder: Path) -> dict[str, Any]:
    standing, entries = BookOf(shelf.log).standing(shelf.holdings.current().id)
    now = datetime.now(UTC)
    content = book_workbook(standing, now) if year is None else season_workbook(standing, year, now)
    write_whole(file, [content], folder)
    return {"entries": entries}


def _export_package(shelf: Shelf, place: Path, folder: Path, *, is_folder: bool) -> dict[str, Any]:
    """Into a zip, or file by file into a folder, which is made where it is missing; the descriptor last, so that it
    names only what is there."""
    standing, entries = BookOf(shelf.log).standing(shelf.holdings.current().id)
    now = datetime.now(UTC)
    files = book_package(standing, with_progress(_entries(shelf), "entries written"), now)
    if not is_folder:
        write_whole(place, [package_zip(files, now)], folder)
        return {"entries": entries, "files": list(files)}
    make_folder_of(place)
    for name in [name for name in files if name != DESCRIPTOR] + [DESCRIPTOR]:
        write_whole(place / name, [files[name]], folder)
    return {"entries": entries, "files": list(files)}


def _entries(shelf: Shelf) -> Iterator[bytes]:
    for _, document in all_rows(shelf.log, shelf.holdings.current().id):
        yield document
