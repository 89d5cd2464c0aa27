"""One schedule: phones, a server, and everything that goes wrong between them, all from one seed."""

import asyncio
import json
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import AsyncIterator, Generator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

from broodline.book.wire import read_entry
from broodline.store.sqlite_log import SqliteLog
from tests.faults.history import History
from tests.faults.keeper_model import alter, is_too_large, write_entry
from tests.faults.phone_model import Answer, Outcome, Phone, PhoneStorage, Request, Step, Transaction, pairing_request
from tests.faults.quiet import expect_agreement, settle
from tests.faults.server_in_process import ServerInProcess, parsed

A_YEAR_MS = 365 * 86_400_000
SKEWS_MS = (0, 0, 3_600_000, -400 * 86_400_000, 10 * A_YEAR_MS, -60 * A_YEAR_MS)
IN_MEMORY = Path("/dev/shm")  # a disk is not what these schedules are about


@dataclass(frozen=True)
class Weather:
    """How often, of one: an app dies at an await (before the step, and again after it); the server meets something."""

    deaths: float
    server: float


FAIR = Weather(deaths=0.03, server=0.06)
STORM = Weather(deaths=0.2, server=0.2)  # of every third seed: some faults show only where two deaths meet


@dataclass
class Running:
    """A phone's round under way, and the step at which it waits."""

    round: Generator[Step, Answer, Outcome]
    step: Step


class Schedule:
    """Runs one seed. Raises AssertionError where a promise was broken."""

    def __init__(
        self,
        folder: Path,
        seed: int,
        *,
        phone_type: type[Phone] = Phone,
        log_type: type[SqliteLog] = SqliteLog,
    ) -> None:
        self.rng = Random(seed)
        self.weather = STORM if seed % 3 == 2 else FAIR
        self.server = ServerInProcess(folder, self.rng, log_type)
        self.phone_type = phone_type
        self.phones: list[Phone] = []
        self.running: dict[str, Running] = {}
        self.history = History()
        self.backups: list[tuple[Path, History]] = []
        self.in_the_air: list[tuple[Request, bytes]] = []
        self.older: list[PhoneStorage] = []
        self.expected: set[str] = set()
        self.made = 0
        self.met: Counter[str] = Counter()  # what the schedule went through, to see that it went through much

    async def run(self) -> None:
        for _ in range(self.rng.randint(2, 4)):
            await self.add_phone(PhoneStorage(self.server.holding()))
        for _ in range(self.rng.randint(15, 70)):
            self.server.clock.go_on(seconds=self.rng.randint(0, 90))
            await self.happen(self.rng.choice(self.phones))
        self.running.clear()
        await settle(self)
        expect_agreement(self)

    async def happen(self, phone: Phone) -> None:
        if self.rng.random() < self.weather.server:
            await self.befall_server()
            return
        chance = self.rng.random()
        if chance < 0.3:
            self.record(phone)
        elif chance < 0.9:
            await self.go_on(phone, steps=self.rng.randint(1, 6))
        elif chance < 0.93:
            self.running.pop(phone.name, None)  # the app is closed, or the battery dies
        elif chance < 0.95:
            await self.deliver_late()
        else:
            await self.befall_phone(phone)

    def record(self, phone: Phone) -> None:
        for _ in range(self.rng.choice((1, 1, 1, 2, 5))):
            entry_id, text = write_entry(
                self.rng, phone.storage, phone.devices[-1], self.server.clock.ms() + phone.skew_ms
            )
            phone.storage.append(entry_id, text)

    async def go_on(self, phone: Phone, steps: int) -> None:
        """Let a phone's round come some awaits further, in bad weather."""
        for _ in range(steps):
            running = self.running.get(phone.name) or self.begin(phone)
            if self.rng.random() < self.weather.deaths:
                del self.running[phone.name]  # it dies before the step
                return
            reply = await self.carry_out(phone, running.step)
            if self.rng.random() < self.weather.deaths:
                del self.running[phone.name]  # it dies after the step
                return
            try:
                running.step = running.round.send(reply)
            except StopIteration:
                del self.running[phone.name]
                return

    def begin(self, phone: Phone) -> Running:
        made = phone.sync_round()
        self.running[phone.name] = Running(made, next(made))
        return self.running[phone.name]

    async def carry_out(self, phone: Phone, step: Step) -> Answer:
        if isinstance(step, Transaction):
            step.work()
            return Answer(None)
        chance, slow = self.rng.random(), self.rng.random() < 0.5
        if chance < 0.05:
            return Answer(None, slow=slow)  # the request is lost
        if chance < 0.09:
            self.in_the_air.append((step, phone.cookie))
            return Answer(None, slow=slow)
        answer = await self.deliver(step, phone.cookie)
        if chance < 0.14:
            answer = await self.deliver(step, phone.cookie)  # sent twice
        elif chance < 0.21:
            return Answer(None, slow=slow)  # the answer is lost, or a hotspot's page came instead
        elif chance < 0.24 and answer.status == 200 and answer.body.get("entries"):
            del answer.body["entries"][self.rng.randrange(len(answer.body["entries"]))]  # somebody in between
        return answer

    async def deliver(self, request: Request, cookie: bytes) -> Answer:
        """To the server and back, with the history watching."""
        status, body, _ = await self.server.ask(request.method, request.path, request.body, cookie)
        answer = parsed(body)
        self.met[str(status)] += 1
        self.met.update(result["status"] for result in answer.get("results", ()))
        if status == 200 and request.path == "/api/v1/push":
            self.history.acknowledged(answer)
        elif status == 200 and request.path.startswith("/api/v1/pull"):
            cursor = request.path.partition("cursor=")[2].partition("&")[0]
            self.history.pulled(int(cursor.split(".")[1]) if cursor else 0, answer)
        return Answer(status, answer)

    async def deliver_late(self) -> None:
        """A request that was given up long ago arrives after all."""
        if self.in_the_air:
            await self.deliver(*self.in_the_air.pop(self.rng.randrange(len(self.in_the_air))))

    async def add_phone(self, storage: PhoneStorage) -> Phone:
        self.made += 1
        phone = self.phone_type(f"phone-{self.made}", storage, self.rng.choice(SKEWS_MS))
        await self.pair(phone)
        self.phones.append(phone)
        return phone

    async def pair(self, phone: Phone) -> None:
        """With a code; a phone that pairs again is a new device."""
        asked = pairing_request(self.server.invite(), phone.name, phone.storage.holding)
        status, body, phone.cookie = await self.server.ask(asked.method, asked.path, asked.body)
        assert status == 200, body
        who = json.loads(body)
        assert who["holding"]["id"] == phone.storage.holding
        phone.devices = (*phone.devices, who["device"])

    async def befall_server(self) -> None:
        events = ("backup", "restore", "put back", "die", "beside", "lost")
        event = self.rng.choices(events, (30, 20, 25, 15, 15, 3))[0]
        self.met[event] += 1
        if event == "backup":
            path = self.server.take_backup(f"backup-{len(self.backups)}")
            self.backups.append((path, self.history.copy()))
        elif event == "die":
            self.server.die()
        elif event == "beside":
            self.import_beside()
        elif event == "lost":
            self.server.lose_folder()
            self.history, self.backups = History(), []
            await self.pair(self.rng.choice(self.phones))
        elif self.backups:
            path, history = self.rng.choice(self.backups)
            (self.server.restore if event == "restore" else self.server.put_file_back)(path)
            self.history = history.copy()

    def import_beside(self) -> None:
        """Somebody's copy is imported by a command while the server runs."""
        made = PhoneStorage(self.server.holding())
        written = [write_entry(self.rng, made, "import", self.server.clock.ms()) for _ in range(2)]
        self.server.import_beside([read_entry(json.loads(text)) for _, text in written if not is_too_large(text)])

    async def befall_phone(self, phone: Phone) -> None:
        event = self.rng.choice(("keep", "rewind", "clone", "revoke", "pair", "clash", "clash", "clock", "gone"))
        self.met[event] += 1
        if event == "keep":
            self.older.append(phone.storage.copy())
        elif event == "rewind" and self.older:
            self.running.pop(phone.name, None)
            phone.storage = self.rng.choice(self.older).copy()
        elif event == "clone" and len(self.phones) < 5:
            twin = await self.add_phone(phone.storage.copy())
            twin.cookie, twin.devices = phone.cookie, phone.devices
        elif event == "revoke":
            self.revoke(phone)
        elif event == "pair":
            await self.pair(phone)
        elif event == "clash":
            self.take_altered_copy(phone)
        elif event == "clock":
            phone.skew_ms = self.rng.choice(SKEWS_MS)
        elif event == "gone" and len(self.phones) > 2:
            self.running.pop(phone.name, None)
            self.phones.remove(phone)

    def take_altered_copy(self, phone: Phone) -> None:
        """A phone takes in somebody's copy, in which entries it does not know yet were edited by hand."""
        strange = [
            (entry_id, row.text)
            for other in self.phones
            for entry_id, row in other.storage.rows.items()
            if entry_id not in phone.storage.rows
        ]
        for entry_id, text in strange[:3]:
            phone.storage.append(entry_id, alter(self.rng, text))

    def revoke(self, phone: Phone) -> None:
        if any(device.id == phone.devices[-1] for device in self.server.shelf.devices.all()):
            self.server.shelf.devices.revoke(phone.devices[-1])


@asynccontextmanager
async def scheduled(seed: int, **variant: Any) -> AsyncIterator[Schedule]:
    """A schedule in a folder of its own, gone afterwards."""
    folder = Path(tempfile.mkdtemp(dir=IN_MEMORY if IN_MEMORY.is_dir() else None))
    schedule = Schedule(folder, seed, **variant)
    try:
        yield schedule
    finally:
        schedule.server.close()
        shutil.rmtree(folder)


async def run_seed(seed: int, **variant: Any) -> Counter[str]:
    """Run one schedule; returns what it went through. Raises AssertionError, with the seed, where a promise broke."""
    async with scheduled(seed, **variant) as schedule:
        try:
            await schedule.run()
        except Exception as broken:
            again = f"python -m tests.faults.schedule {seed}"
            raise AssertionError(f"seed {seed}: {type(broken).__name__}: {broken} (again: {again})") from broken
        return schedule.met


async def run_seeds(seeds: range, **variant: Any) -> Counter[str]:
    """Run schedules one after another, up to the first that fails."""
    met: Counter[str] = Counter()
    for seed in seeds:
        met += await run_seed(seed, **variant)
    return met


if __name__ == "__main__":  # one seed, or all from one to before another
    first, end = int(sys.argv[1]), int(sys.argv[-1])
    print(dict(asyncio.run(run_seeds(range(first, max(end, first + 1))))))
