"""A log against the plainest thing that could be one: a list. Hypothesis looks for a sequence where they differ."""

import json
import tempfile
from pathlib import Path
from typing import Any, ClassVar

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from broodline.errors import ResetNeeded
from tests.server.store.log_suite import HOLDING, OTHER, Bench, note, rows

notes = st.builds(note, st.integers(1, 12), st.sampled_from(["", "other", "a third"]))
batches = st.lists(notes, max_size=8)
holdings = st.sampled_from([HOLDING, OTHER])


class LogMachine(RuleBasedStateMachine):
    """Subclass it for one sort of log; invariants 1 to 7, 16 and 19 of an append-only book."""

    open_bench: ClassVar[type[Any]]  # makes a Bench

    def __init__(self) -> None:
        super().__init__()
        self.bench: Bench = type(self).open_bench()
        self.folder = tempfile.TemporaryDirectory()
        self.snapshots = 0
        self.held: dict[str, list[tuple[str, bytes]]] = {HOLDING: [], OTHER: []}  # the model, in log order
        self.apart: dict[str, set[tuple[str, bytes]]] = {HOLDING: set(), OTHER: set()}
        self.copies: list[tuple[Path, list[tuple[str, bytes]]]] = []
        self.cursors: list[tuple[str, int, str]] = []  # given out in this epoch: holding, rows before it, text

    def teardown(self) -> None:
        self.bench.close()
        self.folder.cleanup()

    @rule(holding=holdings, batch=batches)
    def append(self, holding: str, batch: list) -> None:
        held, expected = self.held[holding], []
        for entry in batch:
            known = dict(held).get(entry.id)
            if known is None:
                held.append((entry.id, entry.canonical))
            elif known != entry.canonical:
                self.apart[holding].add((entry.id, entry.canonical))
            expected.append("stored" if known is None else "duplicate" if known == entry.canonical else "clash")
        weighed = self.bench.log.weigh(holding, batch)
        placed = self.bench.log.append(holding, batch, "phone")
        assert [p.status for p in placed] == [p.status for p in weighed] == expected
        assert [p.id for p in placed] == [entry.id for entry in batch]
        at = {position: json.loads(document)["id"] for position, document in rows(self.bench.log, holding)}
        assert all(at[p.position] == p.id for p in placed if p.position is not None)

    @rule(holding=holdings, limit=st.integers(1, 5))
    def take_cursor(self, holding: str, limit: int) -> None:
        page = self.bench.log.read(holding, None, limit)
        self.cursors.append((holding, len(page.rows), page.cursor))

    @rule(limit=st.integers(1, 5))
    def go_on_from_cursors(self, limit: int) -> None:
        for holding, before, cursor in self.cursors:
            page = self.bench.log.read(holding, cursor, limit)
            wanted = [document for _, document in self.held[holding][before:]]
            assert [document for _, document in page.rows] == wanted[:limit]
            assert page.more is (len(wanted) > limit)

    @rule()
    def reopen(self) -> None:
        self.bench.reopen()

    @rule()
    def copy(self) -> None:
        self.snapshots += 1
        path = Path(self.folder.name) / f"copy-{self.snapshots}"
        self.bench.log.snapshot(HOLDING, path)
        self.copies.append((path, list(self.held[HOLDING])))

    @rule(choice=st.integers(0, 3))
    def restore(self, choice: int) -> None:
        if not self.copies:
            return
        path, held = self.copies[choice % len(self.copies)]
        lost = [cursor for holding, _, cursor in self.cursors if holding == HOLDING]
        self.bench.restore(path)
        self.held[HOLDING] = list(held)
        self.apart[HOLDING] = self.bench.clashes(HOLDING)
        self.cursors = [given for given in self.cursors if given[0] == OTHER]
        for cursor in lost:
            try:
                self.bench.log.read(HOLDING, cursor, 1)
            except ResetNeeded:
                continue
            raise AssertionError("a cursor outlived the epoch it was given in")

    @invariant()
    def holds_what_the_list_holds(self) -> None:
        for holding in (HOLDING, OTHER):
            found = rows(self.bench.log, holding)
            assert [document for _, document in found] == [document for _, document in self.held[holding]]
            positions = [position for position, _ in found]
            assert positions == sorted(set(positions))
            assert self.bench.log.count(holding) == len(found)
            assert self.bench.clashes(holding) == self.apart[holding]
