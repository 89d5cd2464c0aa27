"""A phone, as pwa/src/storage and pwa/src/sync make one: short enough to compare with them line by line.

A round of sync is a generator. It yields every point at which the real one awaits, a request or a transaction, so
that whoever drives it can lose the request, lose the answer, or let the phone die right there.
"""

import hashlib
import json
from collections.abc import Callable, Generator
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from broodline.book.wire import canonical_bytes
from broodline.store.log import CHAIN_START

MOST_RESETS = 3
PUSH_AT_ONCE, PULL_AT_ONCE = 200, 500


@dataclass(frozen=True)
class Request:
    method: str
    path: str
    body: bytes = b""


@dataclass(frozen=True)
class Transaction:
    """One write to the phone's storage: all of it happens, or (if the phone dies first) nothing."""

    work: Callable[[], None]


@dataclass(frozen=True)
class Answer:
    """status None: nothing came, or nothing that our server would say. slow: the time limit ran out."""

    status: int | None
    body: Any = None
    slow: bool = False


Step = Request | Transaction
Outcome = str  # "complete", or the code of the fault


@dataclass(frozen=True)
class Row:
    """An entry as held: position None until it came back in this phone's own pull. aside: offered no more."""

    text: str
    position: int | None = None
    aside: bool = False


@dataclass
class PhoneStorage:
    """What survives the phone's death. Mirrors pwa/src/storage/memory.ts."""

    holding: str
    rows: dict[str, Row] = field(default_factory=dict)
    apart: set[tuple[str, str]] = field(default_factory=set)
    cursor: str | None = None

    def append(self, entry_id: str, text: str) -> None:
        held = self.rows.get(entry_id)
        if held is None:
            self.rows[entry_id] = Row(text)
        elif held.text != text:
            self.apart.add((entry_id, text))

    def waiting(self) -> list[tuple[str, str]]:
        return [(i, row.text) for i, row in sorted(self.rows.items()) if row.position is None and not row.aside]

    def put_rows(self, rows: list[tuple[int, str, str]]) -> None:
        for position, entry_id, text in rows:
            held = self.rows.get(entry_id)
            if held is not None and held.text != text:
                self.apart.add((entry_id, held.text))
            self.rows[entry_id] = Row(text, position)

    def put_cursor(self, cursor: str) -> None:
        self.cursor = cursor

    def apply_page(self, rows: list[tuple[int, str, str]], cursor: str) -> None:
        self.put_rows(rows)
        self.put_cursor(cursor)

    def reset_places(self) -> None:
        self.rows = {i: Row(row.text) for i, row in self.rows.items()}
        self.cursor = None

    def set_aside(self, entry_id: str) -> None:
        held = self.rows.get(entry_id)
        if held is not None and held.position is None:
            self.rows[entry_id] = Row(held.text, None, True)

    def copy(self) -> "PhoneStorage":
        return PhoneStorage(self.holding, dict(self.rows), set(self.apart), self.cursor)


class Phone:
    """A phone with its book. `storage` is durable; everything else dies with the app."""

    def __init__(self, name: str, storage: PhoneStorage, skew_ms: int = 0) -> None:
        self.name = name
        self.storage = storage
        self.skew_ms = skew_ms
        self.cookie = b""
        self.devices: tuple[str, ...] = ()  # a phone that pairs again is a new one, and knows its earlier ids
        self.push_at_once, self.pull_at_once = PUSH_AT_ONCE, PULL_AT_ONCE

    def sync_round(self) -> Generator[Step, Answer, Outcome]:
        """Mirrors round.ts: read the log to its end, offer what waits, read it again."""
        pulled = yield from self._pull()
        for _ in range(MOST_RESETS + 1):
            if pulled not in ("end", "reset"):
                return pulled
            if pulled == "reset" and (stranger := (yield from self._greet())):
                return stranger
            pushed, fault, stops = yield from self._push()
            if stops:
                return fault
            if pulled == "reset" or pushed:
                pulled = yield from self._pull()
            if pulled == "end":
                return fault or "complete"
        return "damaged"

    def waiting(self) -> list[tuple[str, str]]:
        return self.storage.waiting()

    def keep_page(self, rows: list[tuple[int, str, str]], cursor: str) -> Generator[Step, Answer, None]:
        """Rows and cursor in one transaction: the promise that wrong variants break."""
        yield Transaction(lambda: self.storage.apply_page(rows, cursor))

    def note_acknowledged(self, results: list[Any]) -> None:
        """An acknowledgement changes nothing: only what comes back in the pull is on the server."""

    def link(self, chain: str, entry_id: str, content: str) -> str:
        return hashlib.sha256((chain + entry_id + content).encode()).hexdigest()

    def _greet(self) -> Generator[Step, Answer, Outcome]:
        answer = yield Request("GET", "/api/v1/me")
        if answer.status != 200:
            return _fault(answer)
        return "" if answer.body["holding"]["id"] == self.storage.holding else "elsewhere"

    def _pull(self) -> Generator[Step, Answer, Outcome]:
        """Mirrors pull.ts."""
        while True:
            cursor = self.storage.cursor
            place = f"cursor={cursor}&" if cursor is not None else ""
            answer = yield Request("GET", f"/api/v1/pull?{place}limit={self.pull_at_once}")
            if answer.status == 409:
                if cursor is None:
                    return _fault(answer)
                yield Transaction(self.storage.reset_places)
                return "reset"
            if answer.status != 200:
                if answer.slow:
                    self.pull_at_once = max(1, self.pull_at_once // 2)
                return _fault(answer)
            rows = self._verified(answer.body, cursor)
            if rows is None:
                return "damaged"
            if rows or answer.body["cursor"] != cursor:
                yield from self.keep_page(rows, answer.body["cursor"])
            if not answer.body["more"]:
                return "end"
            if not rows:
                return "damaged"

    def _verified(self, page: Any, cursor: str | None) -> list[tuple[int, str, str]] | None:
        epoch, last, end_chain = page["cursor"].split(".")
        start_epoch, position, chain = cursor.split(".") if cursor is not None else (epoch, "0", CHAIN_START)
        if epoch != start_epoch:
            return None
        rows, here = [], int(position)
        for row in page["entries"]:
            text = canonical_bytes(row["entry"]).decode()
            if row["position"] <= here:
                return None
            here = row["position"]
            chain = self.link(chain, row["entry"]["id"], hashlib.sha256(text.encode()).hexdigest())
            rows.append((here, row["entry"]["id"], text))
        return rows if here == int(last) and chain == end_chain else None

    def _push(self) -> Generator[Step, Answer, tuple[int, Outcome, bool]]:
        """Mirrors push.ts: how many were taken, the fault, and whether the round stops for it."""
        queue = self.waiting()
        halves: list[list[tuple[str, str]]] = []
        pushed = 0
        while halves or queue:
            if halves:
                batch = halves.pop()
            else:
                batch, queue = queue[: self.push_at_once], queue[self.push_at_once :]
            entries = ",".join(text for _, text in batch)
            answer = yield Request("POST", "/api/v1/push", f'{{"entries":[{entries}],"v":1}}'.encode())
            if answer.status == 200:
                pushed += len(batch)
                self.note_acknowledged(answer.body["results"])
                for result in answer.body["results"]:
                    if result["status"] == "clash":
                        yield Transaction(partial(self.storage.set_aside, result["id"]))
            elif answer.status == 413 or (answer.status == 400 and answer.body["error"]["code"] != "host"):
                if len(batch) == 1:
                    yield Transaction(partial(self.storage.set_aside, batch[0][0]))
                else:
                    middle = len(batch) // 2
                    halves += [batch[middle:], batch[:middle]]
            else:
                if answer.slow:
                    self.push_at_once = max(1, self.push_at_once // 2)
                stops = answer.status in (None, 401, 426)
                return pushed, _fault(answer), stops
        return pushed, "", False


def _fault(answer: Answer) -> Outcome:
    if answer.status is None:
        return "unreachable"
    return str(answer.body["error"]["code"])


def pairing_request(code: str, name: str, holding: str | None) -> Request:
    """Mirrors pairing.ts."""
    offered = {} if holding is None else {"holding": holding}
    return Request("POST", "/api/v1/pair", json.dumps({"code": code, "name": name, **offered}).encode())
