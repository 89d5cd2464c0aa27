"""The phone's agenda is the server's: the same entries and the same moment give the same tasks, text for text."""

import json
from datetime import datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.book.wire import canonical_bytes, read_entry
from broodline.reports.agenda import due
from tests.server.book.odd_books import odd_book
from tests.server.book.phone import phone_book

BEGIN = datetime.fromisoformat("2026-02-27T23:30:00Z")


@pytest.fixture(scope="module")
def phone(tmp_path_factory):
    with phone_book(tmp_path_factory.mktemp("phone")) as book:
        yield book


def test_the_same_is_due_at_any_moment(phone):
    tasks = 0
    for seed in range(200):
        book = odd_book(seed)
        standing = fold(map(read_entry, book))
        moments = [BEGIN + timedelta(days=day, hours=seed % 24) for day in range(seed % 7, 40, 7)]
        expected = [due(standing, now) for now in moments]
        tasks += sum(len(found["tasks"]) for found in expected)
        answer = phone.answer("due", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert tasks > 500, "the books ask for something"
