"""The kept standing: always what a fold of the log would say, read on from where it stopped."""

import pytest

from broodline.book.fold import fold
from broodline.book.wire import stored_entry
from broodline.store.log import all_rows
from broodline.store.memory_log import MemoryLog
from broodline.sync.book_of import BookOf
from tests.book_writer import BookWriter
from tests.server.store.log_suite import HOLDING, OTHER


@pytest.fixture
def log():
    made = MemoryLog(iter(["e1", "e2", "e3"]).__next__)
    made.found(HOLDING)
    made.found(OTHER)
    return made


def afresh(log, holding=HOLDING):
    entries = [stored_entry(document) for _, document in all_rows(log, holding)]
    return fold(entries), len(entries)


def family(number, name):
    writer = BookWriter(documents=[{}] * number)
    writer.family(name)
    return BookWriter(documents=writer.documents[number:]).entries()


def test_it_follows_the_log(log):
    book = BookOf(log)
    assert book.standing(HOLDING) == afresh(log)
    log.append(HOLDING, family(1, "Rowan"), "phone")
    assert book.standing(HOLDING) == afresh(log)
    log.append(HOLDING, family(2, "Hazel"), "phone")
    standing, entries = book.standing(HOLDING)
    assert (standing, entries) == afresh(log)
    assert entries == 2
    assert sorted(found.name for found in standing.families.values()) == ["Hazel", "Rowan"]


def test_nothing_is_folded_again_while_the_log_stands_still(log):
    log.append(HOLDING, family(1, "Rowan"), "phone")
    book = BookOf(log)
    assert book.standing(HOLDING)[0] is book.standing(HOLDING)[0]


def test_holdings_are_kept_apart(log):
    log.append(HOLDING, family(1, "Rowan"), "phone")
    book = BookOf(log)
    assert book.standing(HOLDING) == afresh(log)
    assert book.standing(OTHER) == afresh(log, OTHER)
    assert book.standing(HOLDING) == afresh(log)


def test_a_log_restored_from_an_older_copy_is_read_from_its_start(log, tmp_path):
    log.append(HOLDING, family(1, "Rowan"), "phone")
    log.snapshot(HOLDING, tmp_path / "copy")
    log.append(HOLDING, family(2, "Hazel"), "phone")
    book = BookOf(log)
    book.standing(HOLDING)
    log.restore(tmp_path / "copy")
    assert book.standing(HOLDING) == afresh(log)
    assert book.standing(HOLDING)[1] == 1
