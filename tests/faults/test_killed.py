"""kill -9, again and again, while a phone pushes: what was acknowledged is there, and the file is sound."""

import http.client
import json
import threading
import time
from pathlib import Path
from random import Random

import pytest

from broodline.store.log import all_rows
from broodline.store.shelf import Shelf, open_shelf
from broodline.store.verification import find_faults
from broodline.sync.pairing import sign_in
from tests.browser.serving import free_port
from tests.faults.keeper_model import Document, new_id
from tests.faults.nursery import Nursery, kill
from tests.server.conftest import Counted, HandClock

ROUNDS = 100
SEED = 20260308
LONGEST_LIFE_S = 0.12  # after the first answer
AT_ONCE = 8
LONGEST_NOTE = 6000  # so long that the write-ahead file is moved into the book every few rounds
PAUSE_S = 0.005


@pytest.fixture
def nursery():
    made = Nursery()
    yield made
    made.close()


class Pusher:
    """A phone that pushes over real HTTP and remembers what was acknowledged."""

    def __init__(self, port: int, cookie: str, rng: Random) -> None:
        self.own, self.cookie, self.rng = f"127.0.0.1:{port}", cookie, rng
        self.acknowledged: dict[str, int] = {}
        self.unanswered: list[Document] = []
        self.cut_short = 0

    def push(self) -> bool:
        """Push a batch; False where no answer came. That batch is pushed again: it may have been stored or not."""
        batch = self.unanswered or [note(self.rng) for _ in range(self.rng.randint(1, AT_ONCE))]
        self.unanswered = batch
        connection = http.client.HTTPConnection(self.own, timeout=20)
        headers = {"origin": f"http://{self.own}", "content-type": "application/json", "cookie": self.cookie}
        try:
            connection.request("POST", "/api/v1/push", json.dumps({"v": 1, "entries": batch}), headers)
            answer = connection.getresponse()
            told = json.loads(answer.read())
        except (OSError, http.client.HTTPException, ValueError):
            return False
        finally:
            connection.close()
        assert answer.status == 200, told
        self.acknowledged |= {one["id"]: one["position"] for one in told["results"]}
        self.unanswered = []
        return True

    def push_until(self, dead: threading.Event) -> None:
        while not dead.is_set():
            if not self.push():
                self.cut_short += 1
                time.sleep(PAUSE_S)


def note(rng: Random) -> Document:
    return {
        "id": new_id(rng, 1_772_000_000_000),
        "v": 1,
        "kind": "note",
        "device": "phone",
        "at": "2026-03-08T12:00:00.000Z",
        "zone": "Europe/Dublin",
        "skew_ms": None,
        "amends": None,
        "void": False,
        "body": {"text": "x" * rng.randrange(LONGEST_NOTE)},
    }


def opened(folder: Path) -> Shelf:
    return open_shelf(folder, now_ms=HandClock().ms, random_bytes=Counted())


def positions_in(folder: Path) -> dict[str, int]:
    """What the book holds, read from the file beside the server; and the file is sound."""
    with opened(folder) as shelf:
        assert find_faults(shelf.connection) == []
        rows = all_rows(shelf.log, shelf.holdings.current().id)
        return {json.loads(document)["id"]: position for position, document in rows}


def kill_after(pid: int, seconds: float, dead: threading.Event) -> None:
    time.sleep(seconds)
    kill(pid)
    dead.set()


def test_a_server_killed_a_hundred_times_keeps_everything_it_acknowledged(nursery, tmp_path):
    """Invariants 3 and 4. Every kill comes while a phone pushes without a pause; the first try of every life that
    gets no answer is one that the kill cut short."""
    rng, folder, port = Random(SEED), tmp_path / "book", free_port()
    with opened(folder) as shelf:
        token = sign_in(shelf.devices, shelf.holdings.current(), "phone", "keeper", rng.randbytes).token
    phone = Pusher(port, f"broodline_{port}={token}", rng)
    met_a_push = 0
    for turn in range(1, ROUNDS + 1):
        pid = nursery.bring_up(folder, port)
        while not phone.push():
            time.sleep(PAUSE_S)
        phone.cut_short, dead = 0, threading.Event()
        killer = threading.Thread(target=kill_after, args=(pid, rng.random() * LONGEST_LIFE_S, dead))
        killer.start()
        phone.push_until(dead)
        killer.join()
        met_a_push += phone.cut_short > 0
        if turn % 10 == 0:
            held = positions_in(folder)
            assert {known: held.get(known) for known in phone.acknowledged} == phone.acknowledged
    assert len(phone.acknowledged) > 5 * ROUNDS, "hardly anything was pushed"
    assert met_a_push > ROUNDS / 2, "the kills hardly ever met a push"
