"""What any log must do. A log passes when `LogSuite` and the machine of `log_machine.py` pass on its bench."""

import hashlib
import json
from pathlib import Path
from typing import Protocol

import pytest

from broodline.book.wire import Entry, read_entry
from broodline.errors import NotFound, ResetNeeded
from broodline.store.log import CHAIN_START, Log, all_rows
from tests.book_writer import BookWriter, entry_id

HOLDING, OTHER = "holding-of-one", "holding-of-another"


class Bench(Protocol):
    """A log to be tried: two holdings in it, and the ways it can be taken apart."""

    log: Log

    def reopen(self) -> None:
        """Begin again with what is on the disk (a log in memory stays as it is)."""

    def restore(self, snapshot: Path) -> None:
        """Put HOLDING back to a snapshot, as a restore does."""

    def clashes(self, holding: str) -> set[tuple[str, bytes]]:
        """What was kept apart."""

    def close(self) -> None:
        """Give everything back."""


def note(number: int, text: str = "", **envelope) -> Entry:
    """The n-th of some entries; another text makes another content under the same id."""
    writer = BookWriter()
    writer.write("note", {"text": text or f"entry {number}"})
    return read_entry({**writer.documents[0], "id": entry_id(number), **envelope})


def rows(log: Log, holding: str = HOLDING, cursor: str | None = None) -> list[tuple[int, bytes]]:
    return list(all_rows(log, holding, cursor))


class LogSuite:
    """Subclass it and give a `bench` fixture."""

    def test_an_entry_comes_back_byte_for_byte_with_fields_of_newer_apps(self, bench):
        """Invariant 1 and 18: nothing about an entry is changed on the way through."""
        entry = note(1, "grüße \u0000 \u2028 🐣", later={"b": 1, "a": [1.5, "10"]}, kind="kind-of-tomorrow")
        bench.log.append(HOLDING, [entry], "phone")
        bench.reopen()
        ((_, document),) = rows(bench.log)
        assert document == entry.canonical
        assert json.loads(document)["later"] == {"a": [1.5, "10"], "b": 1}

    def test_another_content_under_a_known_id_is_kept_apart_and_the_first_stays(self, bench):
        """Invariant 1."""
        bench.log.append(HOLDING, [note(1)], "phone")
        (placed,) = bench.log.append(HOLDING, [note(1, "other")], "phone")
        assert (placed.status, placed.position) == ("clash", None)
        bench.log.append(HOLDING, [note(1, "other")], "phone")
        assert rows(bench.log) == [(1, note(1).canonical)]
        assert bench.clashes(HOLDING) == {(note(1).id, note(1, "other").canonical)}

    def test_sending_again_changes_nothing_and_uses_up_no_position(self, bench):
        """Invariant 2."""
        first = bench.log.append(HOLDING, [note(1), note(2)], "phone")
        again = bench.log.append(HOLDING, [note(2), note(1), note(2)], "another phone")
        assert [(p.status, p.position) for p in first] == [("stored", 1), ("stored", 2)]
        assert [(p.status, p.position) for p in again] == [("duplicate", 2), ("duplicate", 1), ("duplicate", 2)]
        (third,) = bench.log.append(HOLDING, [note(3)], "phone")
        assert third.position == 3

    def test_a_batch_that_names_an_id_twice_answers_for_both(self, bench):
        answers = bench.log.append(HOLDING, [note(1), note(1), note(1, "other")], "phone")
        assert [p.status for p in answers] == ["stored", "duplicate", "clash"]

    def test_weighing_says_what_appending_would_and_stores_nothing(self, bench):
        bench.log.append(HOLDING, [note(1)], "phone")
        batch = [note(1), note(1, "other"), note(2), note(2), note(2, "other")]
        weighed = bench.log.weigh(HOLDING, batch)
        assert [(p.status, p.position) for p in weighed] == [
            ("duplicate", 1),
            ("clash", None),
            ("stored", None),
            ("duplicate", None),
            ("clash", None),
        ]
        assert bench.log.count(HOLDING) == 1
        assert bench.clashes(HOLDING) == set()
        assert [p.status for p in bench.log.append(HOLDING, batch, "phone")] == [p.status for p in weighed]

    def test_what_was_acknowledged_is_there_after_a_restart(self, bench):
        """Invariant 3 (for a killed process: tests/server/cli/test_killed.py)."""
        placed = bench.log.append(HOLDING, [note(n) for n in range(1, 250)], "phone")
        bench.reopen()
        assert [(p.position, p.id) for p in placed] == [
            (position, json.loads(document)["id"]) for position, document in rows(bench.log)
        ]

    def test_the_chain_is_made_of_the_chain_before_the_id_and_the_content(self, bench):
        """Contract: chain_n = sha256(chain_(n-1) + id + content hash). Recomputed here with hashlib alone."""
        chain = "0" * 64
        assert bench.log.head(HOLDING).chain == chain == CHAIN_START
        for entry in (note(1), note(2), note(3)):
            bench.log.append(HOLDING, [entry], "phone")
            content = hashlib.sha256(entry.canonical).hexdigest()
            chain = hashlib.sha256((chain + entry.id + content).encode()).hexdigest()
            head = bench.log.head(HOLDING)
            assert head.chain == chain
            assert head.cursor == f"{head.epoch}.{head.position}.{chain}"

    @pytest.mark.parametrize("limit", [1, 2, 3, 500, 0, -7, 9999])
    def test_reading_page_by_page_gives_every_row_once_and_in_order(self, bench, limit):
        """Invariants 5 and 6. A limit outside 1 to 500 is brought inside."""
        bench.log.append(HOLDING, [note(n) for n in range(1, 8)], "phone")
        seen: list[int] = []
        cursor, more = None, True
        while more:
            page = bench.log.read(HOLDING, cursor, limit)
            assert len(page.rows) <= max(1, limit)
            assert page.rows or not page.more
            seen += [position for position, _ in page.rows]
            cursor, more = page.cursor, page.more
        assert seen == [1, 2, 3, 4, 5, 6, 7]
        assert cursor == bench.log.head(HOLDING).cursor
        assert bench.log.read(HOLDING, cursor, 500).rows == []
        assert bench.log.read(HOLDING, cursor, 500).cursor == cursor

    def test_a_page_holds_at_most_500_rows(self, bench):
        bench.log.append(HOLDING, [note(n) for n in range(1, 503)], "phone")
        page = bench.log.read(HOLDING, None, 10_000)
        assert (len(page.rows), page.more) == (500, True)
        assert len(bench.log.read(HOLDING, page.cursor, 10_000).rows) == 2

    def test_nothing_appears_behind_a_cursor_that_was_given_out(self, bench):
        """Invariant 5."""
        bench.log.append(HOLDING, [note(5)], "phone")
        cursor = bench.log.read(HOLDING, None, 500).cursor
        bench.log.append(HOLDING, [note(1), note(9)], "phone")
        assert [position for position, _ in rows(bench.log, cursor=cursor)] == [2, 3]

    def test_the_start_of_a_history_is_a_place_in_it(self, bench):
        empty = bench.log.read(HOLDING, None, 500)
        assert (empty.rows, empty.more) == ([], False)
        assert empty.cursor == f"{bench.log.head(HOLDING).epoch}.0.{CHAIN_START}"
        bench.log.append(HOLDING, [note(1)], "phone")
        assert rows(bench.log, cursor=empty.cursor) == [(1, note(1).canonical)]

    @pytest.mark.parametrize(
        "cursor",
        [
            "x",
            "1",
            "..",
            "a.b.c",
            "0.0.0",
            "e.1." + "0" * 64,
            "e.-1." + "0" * 64,
            "e.01." + "0" * 64,
            "e.99999999999999999999." + "0" * 64,
            "e.0." + "0" * 63,
            "e.0." + "G" * 64,
            "e.0." + "0" * 64 + "\n",
            "é" * 80,
        ],
    )
    def test_a_cursor_that_cannot_be_read_asks_for_a_reset(self, bench, cursor):
        with pytest.raises(ResetNeeded):
            bench.log.read(HOLDING, cursor, 500)

    def test_a_cursor_must_prove_all_of_its_history(self, bench):
        bench.log.append(HOLDING, [note(1), note(2)], "phone")
        head = bench.log.head(HOLDING)
        for epoch, position, chain in (
            ("other", head.position, head.chain),
            (head.epoch, head.position - 1, head.chain),
            (head.epoch, head.position + 1, head.chain),
            (head.epoch, head.position, "f" * 64),
            (head.epoch, 0, head.chain),
        ):
            with pytest.raises(ResetNeeded):
                bench.log.read(HOLDING, f"{epoch}.{position}.{chain}", 500)

    def test_a_log_restored_from_an_older_copy_refuses_cursors_of_what_it_lost(self, bench, tmp_path):
        """Invariant 16: the phone is told, brings everything back, and nothing is lost."""
        bench.log.append(HOLDING, [note(1), note(2)], "phone")
        early = bench.log.head(HOLDING).cursor
        bench.log.snapshot(HOLDING, tmp_path / "copy")
        bench.log.append(HOLDING, [note(3), note(4)], "phone")
        late = bench.log.head(HOLDING).cursor
        held = [read_entry(json.loads(document)) for _, document in rows(bench.log)]
        bench.restore(tmp_path / "copy")
        bench.log.append(HOLDING, [note(7), note(8)], "another phone")  # past the old end again
        for cursor in (early, late):
            with pytest.raises(ResetNeeded):
                bench.log.read(HOLDING, cursor, 500)
        healed = bench.log.append(HOLDING, held, "phone")
        assert [p.status for p in healed] == ["duplicate", "duplicate", "stored", "stored"]
        ids = {json.loads(document)["id"] for _, document in rows(bench.log)}
        assert ids == {note(n).id for n in (1, 2, 3, 4, 7, 8)}

    def test_one_holding_neither_sees_nor_changes_another(self, bench):
        """Invariant 19: the same id may be in both, with different content, and nobody notices."""
        bench.log.append(HOLDING, [note(1), note(2)], "phone")
        before = bench.log.head(HOLDING)
        (placed,) = bench.log.append(OTHER, [note(1, "theirs")], "phone")
        assert placed.status == "stored"
        assert bench.log.weigh(OTHER, [note(2)])[0].status == "stored"
        assert bench.log.head(HOLDING) == before
        assert (bench.log.count(HOLDING), bench.log.count(OTHER)) == (2, 1)
        assert [document for _, document in rows(bench.log)] == [note(1).canonical, note(2).canonical]
        assert [document for _, document in rows(bench.log, OTHER)] == [note(1, "theirs").canonical]
        assert bench.clashes(HOLDING) == bench.clashes(OTHER) == set()
        with pytest.raises(ResetNeeded):
            bench.log.read(OTHER, before.cursor, 500)

    def test_a_holding_that_was_never_founded_has_no_log(self, bench):
        for ask in (
            lambda: bench.log.append("nobody", [note(1)], "phone"),
            lambda: bench.log.weigh("nobody", [note(1)]),
            lambda: bench.log.read("nobody", None, 1),
            lambda: bench.log.head("nobody"),
            lambda: bench.log.count("nobody"),
            lambda: bench.log.snapshot("nobody", Path("never-made")),
        ):
            with pytest.raises(NotFound):
                ask()
