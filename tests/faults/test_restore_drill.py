"""The restore drill: the daily backup, a disk that dies, the restore, and phones that bring back the rest."""

import asyncio
import json
from random import Random

import pytest

from broodline.book.fold import fold
from broodline.book.standing import standing_json
from broodline.book.wire import stored_entry
from broodline.jobs.backup import back_up
from broodline.store.log import all_rows
from tests.faults.keeper_model import write_entry
from tests.faults.phone_model import Phone, PhoneStorage
from tests.faults.quiet import settle, whole_round
from tests.faults.schedule import Schedule
from tests.server.cli.commands import broodline


@pytest.fixture
def drill(tmp_path):
    made = Schedule(tmp_path, seed=6)
    yield made
    made.server.close()


def write(drill: Schedule, phone: Phone, entries: int) -> None:
    for _ in range(entries):
        now_ms = drill.server.clock.ms()
        phone.storage.append(*write_entry(drill.rng, phone.storage, phone.devices[-1], now_ms))
        drill.server.clock.go_on(seconds=1)


def book_of(drill: Schedule) -> tuple[set[str], dict]:
    documents = [document for _, document in all_rows(drill.server.shelf.log, drill.server.holding())]
    return {json.loads(document)["id"] for document in documents}, standing_json(fold(map(stored_entry, documents)))


def test_from_the_daily_backup_and_two_phones_the_whole_book_comes_back(drill):
    """Invariant 16 and failure 1, with the command a keeper types."""

    async def story() -> None:
        one, other = [await drill.add_phone(PhoneStorage(drill.server.holding())) for _ in range(2)]
        write(drill, one, 60)
        await whole_round(drill, one)
        await whole_round(drill, other)
        backup = back_up(drill.server.shelf, drill.server.data_dir, drill.server.clock().date())
        assert backup is not None
        write(drill, other, 30)
        await whole_round(drill, other)
        await whole_round(drill, one)
        ids, standing = book_of(drill)
        holding = drill.server.holding()

        drill.server.close()
        book = drill.server.data_dir / "book.db"
        book.write_bytes(b"\xff" * book.stat().st_size)  # the disk gave up
        assert broodline("check", "--data", drill.server.data_dir).code == 1
        done = broodline("restore", backup, "--data", drill.server.data_dir)
        assert done.code == 0, done.err
        assert broodline("check", "--data", drill.server.data_dir).code == 0
        drill.server.open()
        assert drill.server.holding() == holding
        restored, _ = book_of(drill)
        assert restored < ids, "the backup is older than the disk's death"

        drill.history.told.clear()
        drill.history.gaps.clear()
        write(drill, other, 5)  # past the old end, before anybody brought anything back
        drill.phones.remove(one)
        await settle(drill)
        assert ids <= book_of(drill)[0]
        drill.phones.append(one)
        await settle(drill)
        healed, _ = book_of(drill)
        assert healed == ids | {entry_id for entry_id, row in other.storage.rows.items() if not row.aside}
        of_old = [stored_entry(row.text.encode()) for entry_id, row in one.storage.rows.items() if entry_id in ids]
        assert standing_json(fold(of_old)) == standing

    asyncio.run(story())


def test_every_kept_backup_can_be_restored(tmp_path):
    """A week of daily backups: each one opens as the book was that day."""
    drill = Schedule(tmp_path, Random(3).randrange(1000))
    taken: list[tuple[object, int]] = []

    async def week() -> None:
        phone = await drill.add_phone(PhoneStorage(drill.server.holding()))
        for _ in range(7):
            write(drill, phone, 4)
            await whole_round(drill, phone)
            backup = back_up(drill.server.shelf, drill.server.data_dir, drill.server.clock().date())
            taken.append((backup, len(book_of(drill)[0])))
            drill.server.clock.go_on(days=1)

    asyncio.run(week())
    drill.server.close()
    for backup, entries in taken:
        done = broodline("restore", backup, "--data", tmp_path / "elsewhere", "--json")
        assert (done.code, done.json["entries"]) == (0, entries)
        assert broodline("check", "--data", tmp_path / "elsewhere").code == 0
