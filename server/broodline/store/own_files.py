"""The files of a data folder that are Broodline's own: no command may write an answer or a copy over them."""

from pathlib import Path

from broodline.errors import WrongUse
from broodline.store.database import FILE_NAME

_OWN = frozenset({"server.lock", "commands.lock", "address.txt", "push-key.pem", "push.json", "house"})
_WRITE_AHEAD = "-wal"


def refuse_own(file: Path, data_dir: Path) -> None:
    """Raise WrongUse where `file` is one of the folder's own files, or lies in the folder of the house's keys, by
    whatever links and in whatever case of letters; also where it is a database in use, as another folder's book is.

    SQLite plays the write-ahead file beside a database over it, whatever took the database's place.
    """
    place, folder = file.resolve(), data_dir.resolve()
    inside = folder in place.parents
    first = place.relative_to(folder).parts[0].casefold() if inside else ""
    alike = (folder / FILE_NAME).exists() and file.exists() and file.samefile(folder / FILE_NAME)
    if first in _OWN or first.startswith(FILE_NAME) or alike:
        raise WrongUse(
            f"{file} is a file of the book itself, and is left as it is.", remedy="Name another file, best elsewhere."
        )
    if place.with_name(place.name + _WRITE_AHEAD).exists():
        raise WrongUse(f"{file} is a book in use, and is left as it is.", remedy="Name another file.")
