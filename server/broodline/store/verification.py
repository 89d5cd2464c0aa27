"""Whether the file still holds what was written: SQLite's own checks, every hash, and the chain."""

import hashlib
import json
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from broodline.book.wire import content_hash
from broodline.errors import BookDamaged
from broodline.store.database import reading
from broodline.store.log import CHAIN_START, next_link

MOST_SHOWN = 20


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that was stored and does not verify."""

    code: Literal["integrity", "reference", "hash", "chain", "lost"]
    message: str


def find_faults(connection: sqlite3.Connection) -> list[Fault]:
    """Everything that does not verify, at most twenty of a sort; an empty list is a sound book."""
    try:
        with reading(connection):
            return [fault for look in _LOOKS for fault in _readable(look, connection)]
    except BookDamaged as fault:
        return [Fault("integrity", fault.message)]


def _readable(look: Callable[[sqlite3.Connection], list[Fault]], connection: sqlite3.Connection) -> list[Fault]:
    """What a look finds; a cell of a sort that was never written there (a damaged page can show any) is a fault too."""
    try:
        return look(connection)
    except (TypeError, ValueError, AttributeError) as fault:
        return [Fault("integrity", f"The file is damaged inside: a cell holds what was never written ({fault}).")]


def _integrity(connection: sqlite3.Connection) -> list[Fault]:
    rows = connection.execute(f"PRAGMA integrity_check({MOST_SHOWN})").fetchall()
    return [Fault("integrity", f"The file is damaged inside: {row[0]}.") for row in rows if row[0] != "ok"]


def _references(connection: sqlite3.Connection) -> list[Fault]:
    rows = connection.execute("PRAGMA foreign_key_check").fetchall()
    return [
        Fault("reference", f"A row of {table} names a {parent} that is not there.")
        for table, _, parent, _ in rows[:MOST_SHOWN]
    ]


def _contents(connection: sqlite3.Connection) -> list[Fault]:
    faults: list[Fault] = []
    for position, entry_id, document, sha256 in connection.execute(
        "SELECT position, id, document, sha256 FROM log ORDER BY position"
    ):
        if content_hash(document) != sha256 or _id_inside(document) != entry_id:
            faults.append(Fault("hash", f"The entry {entry_id} at position {position} is not what was stored."))
            if len(faults) == MOST_SHOWN:
                break
    return faults


def _pictures(connection: sqlite3.Connection) -> list[Fault]:
    """Pictures whose bytes are not those of their name; a book from before there were any has none."""
    if connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'photos'").fetchone() is None:
        return []
    rows = connection.execute("SELECT sha256, content FROM photos ORDER BY sha256")
    changed = [sha256 for sha256, content in rows if hashlib.sha256(content).hexdigest() != sha256]
    return [Fault("hash", f"The picture {sha256} is not what was stored.") for sha256 in changed[:MOST_SHOWN]]


def _chains(connection: sqlite3.Connection) -> list[Fault]:
    """The first broken link of each holding: everything behind it hangs on it."""
    faults: list[Fault] = []
    chains: dict[str, str] = {}
    broken: set[str] = set()
    for position, holding, entry_id, sha256, chain in connection.execute(
        "SELECT position, holding, id, sha256, chain FROM log ORDER BY position"
    ):
        link = next_link(chains.get(holding, CHAIN_START), entry_id, sha256)
        if link != chain and holding not in broken:
            broken.add(holding)
            faults.append(Fault("chain", f"Entries are missing or were changed before position {position}."))
        chains[holding] = chain
    return faults


def find_losses(connection: sqlite3.Connection) -> list[Fault]:
    """Whether the end is gone: positions are given without gaps, so the last one given must still be there."""
    (last,) = connection.execute("SELECT coalesce(max(position), 0) FROM log").fetchone()
    row = connection.execute("SELECT seq FROM sqlite_sequence WHERE name = 'log'").fetchone()
    given = row[0] if row else 0
    if given <= last:
        return []
    return [Fault("lost", f"The last entries are gone: position {given} was given, {last} is the last kept.")]


_LOOKS = (_integrity, _references, _contents, _pictures, _chains, find_losses)


def _id_inside(document: bytes) -> object:
    try:
        entry = json.loads(document)
    except ValueError:
        return None
    return entry.get("id") if isinstance(entry, dict) else None
