"""The real server without a socket: the real app, the real files, asked through ASGI; and what befalls its files."""

import json
import shutil
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random
from typing import Any, TypeVar

from starlette.types import ASGIApp

from broodline.book.wire import Entry
from broodline.settings import Settings
from broodline.store.backups import restore
from broodline.store.shelf import Shelf, open_shelf
from broodline.store.sqlite_log import SqliteLog
from broodline.sync.pairing import invite
from broodline.web.app import create_app, open_desk
from broodline.web.desk import Desk, Thread
from tests.server.conftest import HandClock

HOST = b"127.0.0.1:8420"
BOOK, WRITE_AHEAD = "book.db", "book.db-wal"

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class AtOnce(Thread):
    """Work done where it is asked for: requests come one at a time here, and threads would only cost time."""

    async def run(self, work: Callable[[Shelf], T]) -> T:
        return work(self.shelf)


class ServerInProcess:
    """One data folder with an open app over it. `log_type`: the log it works with, for wrong variants."""

    def __init__(self, folder: Path, rng: Random, log_type: type[SqliteLog] = SqliteLog) -> None:
        self.folder = folder
        self.clock = HandClock()
        self._rng = rng
        self._log_type = log_type
        self._lives = 0
        self.data_dir = folder / "life-0"
        self.desk: Desk
        self._app: ASGIApp
        self.open()

    def open(self) -> None:
        opened = open_desk(Settings(self.data_dir), self.clock, self._rng.randbytes)
        writer, reader, reports = (self._at_once(thread) for thread in (opened.writer, opened.reader, opened.reports))
        desk = replace(opened, writer=writer, reader=reader, reports=reports)
        self.desk, self._app = desk, create_app(desk)

    def _at_once(self, thread: Thread) -> Thread:
        shelf = thread.shelf
        return AtOnce(replace(shelf, log=self._log_type(shelf.connection, self.clock.ms)), thread.turn)

    def close(self) -> None:
        self.desk.close()

    @property
    def shelf(self) -> Shelf:
        return self.desk.writer.shelf

    def holding(self) -> str:
        return self.shelf.holdings.current().id

    def invite(self) -> str:
        return invite(self.shelf.devices, self.holding(), "keeper", self._rng.randbytes).code

    async def ask(self, method: str, path: str, body: bytes = b"", cookie: bytes = b"") -> tuple[int, bytes, bytes]:
        """Status, body and the cookie that was set (or b"")."""
        bare, _, query = path.partition("?")
        headers = [(b"host", HOST), (b"origin", b"http://" + HOST), (b"content-type", b"application/json")]
        scope: dict[str, Any] = {
            "type": "http",
            "asgi": {"version": "3.0"},
            "http_version": "1.1",
            "method": method,
            "scheme": "http",
            "path": bare,
            "raw_path": bare.encode(),
            "query_string": query.encode(),
            "headers": [*headers, (b"cookie", cookie)] if cookie else headers,
            "client": ("127.0.0.1", 50000),
            "server": ("127.0.0.1", 8420),
        }
        told: list[Any] = []
        await self._app(scope, _body_of(body), _keep_in(told))
        cookies = [value.partition(b";")[0] for name, value in told[0]["headers"] if name == b"set-cookie"]
        return told[0]["status"], b"".join(part.get("body", b"") for part in told[1:]), (cookies or [b""])[0]

    def die(self) -> None:
        """As after kill -9: what the files hold goes on, whatever the process had in mind is gone."""
        self._lives += 1
        left = self.folder / f"life-{self._lives}"
        left.mkdir()
        for name in (BOOK, WRITE_AHEAD):
            if (self.data_dir / name).exists():
                shutil.copyfile(self.data_dir / name, left / name)
        self.close()
        self.data_dir = left
        self.open()

    def take_backup(self, name: str) -> Path:
        backup = self.folder / name
        self.shelf.backups.take(backup)
        return backup

    def restore(self, backup: Path) -> None:
        """As `broodline restore`: a new epoch."""
        self.close()
        restore(backup, self.data_dir, now_ms=self.clock.ms, random_bytes=self._rng.randbytes)
        self.open()

    def put_file_back(self, backup: Path) -> None:
        """As a keeper who copies a file: the history goes back and keeps its epoch."""
        self.close()
        (self.data_dir / WRITE_AHEAD).unlink(missing_ok=True)
        shutil.copyfile(backup, self.data_dir / BOOK)
        self.open()

    def lose_folder(self) -> None:
        """The disk died without a backup: an empty server in its place."""
        self.close()
        self._lives += 1
        self.data_dir = self.folder / f"life-{self._lives}"
        self.open()

    def import_beside(self, entries: list[Entry]) -> None:
        """As `broodline import` while the server runs: a connection of its own."""
        with open_shelf(self.data_dir, now_ms=self.clock.ms, random_bytes=self._rng.randbytes) as beside:
            beside.log.append(self.holding(), entries, "import")


def parsed(body: bytes) -> Any:
    """The JSON of a reply, or None where it is none."""
    try:
        return json.loads(body)
    except ValueError:
        return None


def _body_of(body: bytes) -> Callable[[], Awaitable[dict[str, Any]]]:
    async def receive() -> dict[str, Any]:
        return {"type": "http.request", "body": body, "more_body": False}

    return receive


def _keep_in(told: list[Any]) -> Callable[[Any], Awaitable[None]]:
    async def send(message: Any) -> None:
        told.append(message)

    return send
