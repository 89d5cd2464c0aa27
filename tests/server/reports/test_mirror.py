"""The phone's agenda, egg store and rates are the server's: same entries and moment, same answer, text for text."""

import json
from datetime import datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.book.wire import canonical_bytes, read_entry
from broodline.reports.agenda import due
from broodline.reports.egg_store import egg_store
from broodline.reports.rates import Outcome, add_outcomes, lot_outcome, setting_outcome
from tests.server.book.gathering_books import gathering_book
from tests.server.book.odd_books import odd_book
from tests.server.book.phone import phone_book
from tests.server.book.tallied_books import tallied_book

BEGIN = datetime.fromisoformat("2026-02-27T23:30:00Z")


@pytest.fixture(scope="module")
def phone(tmp_path_factory):
    with phone_book(tmp_path_factory.mktemp("phone")) as book:
        yield book


def test_the_same_is_due_at_any_moment(phone):
    tasks = 0
    for seed in range(200):
        book = odd_book(seed) if seed % 2 == 0 else tallied_book(seed)
        standing = fold(map(read_entry, book))
        moments = [BEGIN + timedelta(days=day, hours=seed % 24) for day in range(seed % 7, 40, 7)]
        expected = [due(standing, now) for now in moments]
        tasks += sum(len(found["tasks"]) for found in expected)
        answer = phone.answer("due", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert tasks > 500, "the books ask for something"


def test_the_same_lies_in_store(phone):
    eggs = 0
    for seed in range(200):
        book = gathering_book(seed) if seed % 2 else odd_book(seed)
        standing = fold(map(read_entry, book))
        moments = [BEGIN + timedelta(days=day) for day in (0, 12)]
        expected = [egg_store(standing, now) for now in moments]
        eggs += expected[-1]["n"]
        answer = phone.answer("store", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert eggs > 500, "the books keep eggs"


def told(outcome: Outcome):
    rates = ("fertility", "hatch_of_set", "hatch_of_fertile", "alive_7d")
    return {
        **{name: getattr(outcome, name).as_json() for name in rates},
        "deaths": outcome.deaths,
        "sound": outcome.sound,
    }


def rates_of(standing, now_ms):
    lots = {name: [standing.lots[lot] for lot in setting.lots] for name, setting in standing.settings.items()}
    settings = standing.settings.items()
    outcomes = [lot_outcome(lot, setting, now_ms) for name, setting in settings for lot in lots[name]]
    return {
        "settings": [told(setting_outcome(setting, lots[name], now_ms)) for name, setting in settings],
        "lots": [told(outcome) for outcome in outcomes],
        "all": told(add_outcomes(outcomes)),
    }


def test_the_rates_are_the_same(phone):
    rated = 0
    for seed in range(400):
        book = odd_book(seed) if seed % 4 == 0 else tallied_book(seed)
        now = BEGIN + timedelta(days=seed % 50)
        expected = rates_of(fold(map(read_entry, book)), int(now.timestamp()) * 1000)
        rated += sum(found["fertility"]["rate"] is not None for found in expected["lots"])
        answer = phone.answer("rates", entries=book, moment=now.isoformat())
        assert json.loads(answer) == expected, f"seed {seed}, {now}: {json.dumps(book)}"
    assert rated > 500, "some lots have rates"
