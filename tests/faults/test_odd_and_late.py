"""Failures 7 and 8: an odd entry among two hundred, and a phone that comes back after half a year."""

import asyncio
import json
from random import Random

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry, stored_entry
from tests.faults.keeper_model import Document, alter, is_too_large, text_of, write_entry
from tests.faults.phone_model import PhoneStorage
from tests.faults.quiet import log_of, settle, whole_round
from tests.faults.schedule import Schedule
from tests.faults.test_killed import note

BATCH = 200
ODD_PLACE = 77
MOST_REFUSALS = 9  # ceil(log2 200) + 1
A_DAY_MS = 86_400_000


@pytest.fixture
def schedule(tmp_path):
    made = Schedule(tmp_path, seed=8)
    yield made
    made.server.close()


def changed(document: Document, **changes: object) -> str:
    return json.dumps({**document, **changes}, separators=(",", ":"))


STORED: dict[str, tuple[Document, str | None]] = {
    "unknown kind": ({"kind": "kind_of_tomorrow"}, "newer_app"),
    "newer version": ({"v": 9, "kind": "moved"}, "newer_app"),
    "body of another shape": ({"kind": "moved", "body": {"moves": "three"}}, "body"),
    "zone that is nowhere": ({"kind": "keeper", "body": {"holding": "x", "zone": "Nowhere/AtAll"}}, "body"),
    "clock of another century": ({"at": "2126-01-01T00:00:00.000Z"}, None),
}
REFUSED = {
    "not a number": lambda one: changed(one, body={"n": 1}).replace('"n":1', '"n":NaN'),
    "a number out of all range": lambda one: changed(one, body={"n": 1}).replace('"n":1', '"n":1e400'),
    "a huge text": lambda one: changed(one, body={"text": "x" * 9000}),
    "half of a character": lambda one: changed(one, body={"text": "?"}).replace("?", "\\ud83d"),
    "a key twice": lambda one: changed(one, body={"n": 1}).replace('"n":1', '"n":1,"n":2'),
    "nested too deep": lambda one: changed(one, body={"a": 1}).replace('"a":1', '"a":' + "[" * 40 + "]" * 40),
    "no time": lambda one: changed(one, at="this morning"),
}


def bring(schedule: Schedule, odd: str | None) -> tuple[PhoneStorage, str, list[str]]:
    """A phone brings two hundred entries, one of them odd; its storage, the odd one's id, and the others' ids."""
    rng = Random(3)
    entries = [note(rng) for _ in range(BATCH)]
    storage = PhoneStorage(schedule.server.holding())
    for place, entry in enumerate(entries):
        text = odd.replace(note_id(odd), entry["id"]) if odd and place == ODD_PLACE else text_of(entry)
        storage.append(entry["id"], text)

    async def story() -> None:
        phone = await schedule.add_phone(storage)
        assert await whole_round(schedule, phone) == "complete"
        pushes = schedule.met["200"] + schedule.met["400"]
        assert await whole_round(schedule, phone) == "complete"
        assert schedule.met["200"] + schedule.met["400"] == pushes + 1, "it was offered again"

    asyncio.run(story())
    return storage, entries[ODD_PLACE]["id"], [one["id"] for at, one in enumerate(entries) if at != ODD_PLACE]


def note_id(text: str) -> str:
    return text.split('"id":"')[1][:36]


@pytest.mark.parametrize("name", STORED)
def test_an_odd_meaning_is_stored_with_the_rest_and_becomes_a_problem(schedule, name):
    change, code = STORED[name]
    _, odd, others = bring(schedule, changed(note(Random(1)), **change))
    log = log_of(schedule)
    assert log.keys() == {odd, *others}
    assert schedule.met["400"] == 0
    problems = fold([stored_entry(text.encode()) for text in log.values()]).problems
    assert {found.code for found in problems if found.entry == odd} == ({code} if code else set())


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_stored_delays_no_other_and_stays_visible_on_the_phone(schedule, name):
    """Invariants 4 and 9: refused batches changed nothing, and halving finds the one in few requests."""
    storage, odd, others = bring(schedule, REFUSED[name](note(Random(1))))
    assert log_of(schedule).keys() == set(others)
    assert 0 < schedule.met["400"] <= MOST_REFUSALS
    assert [entry_id for entry_id, row in storage.rows.items() if row.aside] == [odd]
    assert all(storage.rows[entry_id].position for entry_id in others)


def test_another_content_under_a_known_id_is_kept_apart_and_delays_no_other(schedule):
    first = note(Random(1))
    known = read_entry(json.loads(alter(Random(2), text_of(first))))
    fellow = note(Random(3))

    async def story() -> None:
        storage = PhoneStorage(schedule.server.holding())
        phone = await schedule.add_phone(storage)
        storage.append(first["id"], text_of(first))
        storage.append(fellow["id"], text_of(fellow))
        schedule.server.import_beside([known])
        assert await whole_round(schedule, phone) == "complete"
        assert storage.apart == {(first["id"], text_of(first))}
        assert storage.rows[first["id"]].text == known.canonical.decode()
        assert storage.waiting() == []

    asyncio.run(story())
    assert log_of(schedule).keys() == {first["id"], fellow["id"]}


def test_three_thousand_entries_of_half_a_year_go_up_whole_while_the_server_went_on_without_them(schedule):
    """Also where the server lost its end meanwhile, and grew past it again with what another phone wrote."""

    def writes(phone, entries: int, days: int) -> None:
        rng, start_ms = Random(entries), schedule.server.clock.ms()
        for at in range(entries):
            clock_ms = start_ms - (entries - at) * days * A_DAY_MS // entries
            known = PhoneStorage("")  # what a phone knows takes long to go through three thousand times
            phone.storage.append(*write_entry(rng, known, phone.devices[-1], clock_ms))

    async def story() -> None:
        away, home = [await schedule.add_phone(PhoneStorage(schedule.server.holding())) for _ in range(2)]
        writes(away, 300, days=10)
        await whole_round(schedule, away)
        backup = schedule.server.take_backup("half a year ago")
        writes(away, 200, days=1)
        await whole_round(schedule, away)
        schedule.server.clock.go_on(days=180)
        schedule.server.restore(backup)
        schedule.history.told.clear()
        schedule.history.gaps.clear()
        writes(home, 500, days=170)
        await whole_round(schedule, home)
        writes(away, 3000, days=180)
        await settle(schedule)
        written = {i: row.text for i, row in away.storage.rows.items() if not is_too_large(row.text)}
        log = log_of(schedule)
        assert {i: log.get(i) for i in written} == written
        assert len(written) > 3900

    asyncio.run(story())
