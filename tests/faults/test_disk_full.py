"""A full disk under the real app: refused in words, nothing acknowledged that is not kept, reading goes on.

The disk is a small one in memory where this user may mount one; elsewhere SQLite's own limit of pages stands in for
it. (A limit of pages is tried through HTTP in tests/server/web/test_sync_routes.py in any case.)
"""

import asyncio
import contextlib
import json
import shutil
import subprocess
from pathlib import Path
from random import Random

import pytest

from broodline.errors import Busy, DiskFull
from broodline.jobs.backup import back_up
from broodline.store.verification import find_faults
from tests.faults.keeper_model import Document
from tests.faults.server_in_process import ServerInProcess, parsed
from tests.faults.test_killed import note

SIZE_KIB = 2048
PIECE = b"x" * 4096


class SmallDisk:
    """A folder with little room. `fill` takes the rest of it, `free` gives it back."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.ballast = folder / "ballast"
        self.mounted = _mounts(folder)

    def fill(self, server: ServerInProcess) -> None:
        if self.mounted:
            with contextlib.suppress(OSError), self.ballast.open("wb", buffering=0) as out:
                while out.write(PIECE):
                    pass
        else:
            (pages,) = server.shelf.connection.execute("PRAGMA page_count").fetchone()
            server.shelf.connection.execute(f"PRAGMA max_page_count = {pages}")

    def free(self, server: ServerInProcess) -> None:
        self.ballast.unlink(missing_ok=True)
        server.shelf.connection.execute("PRAGMA max_page_count = 1000000")

    def close(self) -> None:
        if self.mounted:
            subprocess.run(["umount", str(self.folder)], check=True)


def _mounts(folder: Path) -> bool:
    if shutil.which("mount") is None:
        return False
    words = ["mount", "-t", "tmpfs", "-o", f"size={SIZE_KIB}k", "tmpfs", str(folder)]
    return subprocess.run(words, capture_output=True, check=False).returncode == 0


@pytest.fixture
def disk(tmp_path):
    folder = tmp_path / "disk"
    folder.mkdir()
    made = SmallDisk(folder)
    yield made
    made.close()


@pytest.fixture
def server(disk):
    made = ServerInProcess(disk.folder, Random(8))
    yield made
    made.close()


class Pusher:
    def __init__(self, server: ServerInProcess, rng: Random) -> None:
        self.server, self.rng = server, rng
        self.cookie = b""
        self.acknowledged: set[str] = set()

    async def pair(self) -> None:
        body = json.dumps({"code": self.server.invite(), "name": "phone"}).encode()
        _, _, self.cookie = await self.server.ask("POST", "/api/v1/pair", body)

    async def push(self, batch: list[Document]) -> tuple[int, dict]:
        body = json.dumps({"v": 1, "entries": batch}).encode()
        status, told, _ = await self.server.ask("POST", "/api/v1/push", body, self.cookie)
        answer = parsed(told)
        if status == 200:
            self.acknowledged |= {one["id"] for one in answer["results"]}
        return status, answer

    async def pulled(self) -> set[str]:
        status, told, _ = await self.server.ask("GET", "/api/v1/pull", b"", self.cookie)
        assert status == 200, told
        return {row["entry"]["id"] for row in parsed(told)["entries"]}

    def batch(self, n: int) -> list[Document]:
        return [note(self.rng) for _ in range(n)]


def test_a_full_disk_takes_nothing_loses_nothing_and_goes_on_showing_the_book(disk, server):
    """Invariant 4 and failure 13: a 507 changed nothing, what was acknowledged is kept, and room mends it."""

    async def story() -> None:
        phone = Pusher(server, Random(1))
        await phone.pair()
        assert (await phone.push(phone.batch(20)))[0] == 200
        disk.fill(server)
        refused = 0
        for _ in range(30):
            batch = phone.batch(20)
            status, answer = await phone.push(batch)
            assert status in (200, 507), answer
            if status == 507:
                refused += 1
                assert answer["error"]["code"] == "disk_full"
                assert not {one["id"] for one in batch} & await phone.pulled()
        assert refused > 5, "the disk never was full"
        assert await phone.pulled() == phone.acknowledged
        assert (await server.ask("GET", "/healthz"))[0] == 200
        assert (await server.ask("GET", "/api/v1/me", b"", phone.cookie))[0] == 200
        disk.free(server)
        assert await phone.pulled() == phone.acknowledged
        assert (await phone.push(batch))[0] == 200
        assert await phone.pulled() == phone.acknowledged
        assert find_faults(server.shelf.connection) == []

    asyncio.run(story())


def test_a_book_on_a_full_disk_opens_or_says_why(disk, server):
    server.close()
    if disk.mounted:
        disk.fill(server)
    with contextlib.suppress(DiskFull, Busy):  # in words of ours; anything else fails here
        server.open()
        server.close()
    disk.ballast.unlink(missing_ok=True)
    server.open()
    assert server.shelf.log.count(server.holding()) == 0
    assert find_faults(server.shelf.connection) == []


def test_a_backup_that_does_not_fit_leaves_nothing_half_done(disk, server):
    asyncio.run(_store_some(server))
    disk.fill(server)
    no_room = pytest.raises(DiskFull) if disk.mounted else contextlib.nullcontext()
    with no_room:
        server.shelf.backups.take(server.data_dir / "backup.db")
    left = [path.name for path in server.data_dir.iterdir() if "backup" in path.name]
    assert left == ([] if disk.mounted else ["backup.db"])
    assert (server.shelf.backups.age_ms() is None) is disk.mounted
    disk.free(server)
    assert back_up(server.shelf, server.data_dir, server.clock().date()) is not None
    assert find_faults(server.shelf.connection) == []


async def _store_some(server: ServerInProcess) -> None:
    phone = Pusher(server, Random(2))
    await phone.pair()
    assert (await phone.push(phone.batch(50)))[0] == 200
