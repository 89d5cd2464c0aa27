"""What a restore takes as a backup, and who may not be at work meanwhile."""

import shutil

import pytest

from broodline.errors import Busy, WrongUse
from broodline.store.backups import restore
from broodline.store.server_lock import CommandLock, NoCommands
from tests.server.store.log_suite import note
from tests.server.store.test_backups import backup, folder, holding, put_back, reopened

__all__ = ["backup", "folder", "holding"]  # fixtures


def test_a_book_copied_by_hand_is_restored_with_what_lies_in_the_file_beside_it(
    shelf, holding, folder, tmp_path, clock, chance
):
    """Of a folder copied while the book was open: SQLite's write-ahead file holds all that was not moved yet."""
    shelf.log.append(holding, [note(1), note(2)], "d1")
    shutil.copytree(folder, tmp_path / "copied")
    assert (tmp_path / "copied" / "book.db-wal").stat().st_size > 0
    before = {path.name: path.read_bytes() for path in (tmp_path / "copied").iterdir()}
    put_back(tmp_path / "copied" / "book.db", tmp_path / "new machine", clock, chance)
    with reopened(tmp_path / "new machine", clock, chance) as restored:
        assert restored.log.count(holding) == 2
    assert {path.name: path.read_bytes() for path in (tmp_path / "copied").iterdir()} == before


def test_nothing_is_restored_while_a_command_works_and_no_command_begins_meanwhile(
    shelf, backup, folder, clock, chance
):
    shelf.close()
    with CommandLock(folder), CommandLock(folder), pytest.raises(Busy, match="Another command"):
        put_back(backup, folder, clock, chance)
    with NoCommands(folder), pytest.raises(Busy, match="being replaced"), CommandLock(folder):
        pass
    put_back(backup, folder, clock, chance)


def test_another_holdings_backup_replaces_a_book_only_where_that_is_said(shelf, backup, tmp_path, clock, chance):
    other = tmp_path / "other"
    with reopened(other, clock, chance) as neighbours:
        own = neighbours.holdings.current().id
        neighbours.log.append(own, [note(7)], "phone")
    with pytest.raises(WrongUse, match="another holding"):
        put_back(backup, other, clock, chance)
    with reopened(other, clock, chance) as neighbours:
        assert neighbours.log.count(own) == 1
    restore(backup, other, now_ms=clock.ms, random_bytes=chance, other_holding=True)
    with reopened(other, clock, chance) as replaced:
        assert replaced.log.count(shelf.holdings.current().id) == 2


def test_an_empty_folder_takes_any_holdings_backup(shelf, backup, tmp_path, clock, chance):
    """As after `serve` was started once on a new machine."""
    reopened(tmp_path / "new machine", clock, chance).close()
    assert put_back(backup, tmp_path / "new machine", clock, chance) is not None
