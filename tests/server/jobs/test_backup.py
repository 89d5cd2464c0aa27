"""Backups by themselves: when one is taken, and which are kept."""

import asyncio
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.errors import BookDamaged, DiskFull
from broodline.jobs.backup import back_up, back_up_daily, backups_to_keep
from broodline.store.verification import find_faults
from tests.server.store.log_suite import note

FIRST = date(2025, 1, 1)
days = st.sets(st.integers(0, 900).map(lambda n: FIRST + timedelta(days=n)))


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "book"


@pytest.fixture
def book(shelf):
    shelf.log.append(shelf.holdings.current().id, [note(n) for n in range(1, 6)], "phone")
    return shelf


def names(folder):
    return sorted(path.name for path in (folder / "backups").iterdir())


def test_a_backup_each_day_for_two_years_leaves_days_weeks_and_months():
    """Counted by hand for Sunday, 8 March 2026: the week began on Monday the 2nd."""
    last = date(2026, 3, 8)
    kept = backups_to_keep(last - timedelta(days=n) for n in range(730))
    this_week = {date(2026, 3, d) for d in (2, 3, 4, 5, 6, 7, 8)}
    sundays = {date(2026, 3, 1), date(2026, 2, 22), date(2026, 2, 15)}
    month_ends = {date(2026, m, d) for m, d in ((1, 31), (2, 28))} | {
        date(2025, m, d)
        for m, d in ((4, 30), (5, 31), (6, 30), (7, 31), (8, 31), (9, 30), (10, 31), (11, 30), (12, 31))
    }
    assert kept == this_week | sundays | month_ends


@given(days)
def test_dropping_day_by_day_leaves_what_dropping_at_once_would(taken):
    """The rule is asked every day with what it left the day before."""
    kept: set[date] = set()
    for day in sorted(taken):
        kept = backups_to_keep(kept | {day})
    assert kept == backups_to_keep(taken)


@given(days)
def test_the_newest_stays_and_there_are_never_more_than_fits(taken):
    kept = backups_to_keep(taken)
    assert kept <= taken
    assert len(kept) <= 7 + 4 + 12
    assert set(sorted(taken)[-7:]) <= kept


def test_one_backup_a_day_and_it_is_a_sound_book(book, folder, clock, chance):
    taken = back_up(book, folder, date(2026, 3, 8))
    assert taken == folder / "backups" / "book-2026-03-08.db"
    assert back_up(book, folder, date(2026, 3, 8)) is None
    assert book.backups.age_ms() == 0
    assert find_faults(book.connection) == []
    assert names(folder) == ["book-2026-03-08.db"]


def test_an_empty_book_needs_no_backup(shelf, folder):
    assert back_up(shelf, folder, date(2026, 3, 8)) is None
    assert shelf.backups.age_ms() is None


def test_only_files_named_as_backups_are_ever_dropped(book, folder):
    (folder / "backups").mkdir()
    for name in ("notes.txt", "book-2020-01-01.db.old", "book.db"):
        (folder / "backups" / name).write_text("the keeper's own")
    for n in range(30):
        back_up(book, folder, date(2026, 1, 1) + timedelta(days=n))
    left = names(folder)
    assert {"notes.txt", "book-2020-01-01.db.old", "book.db"} <= set(left)
    assert len(left) == 3 + len(backups_to_keep(date(2026, 1, 1) + timedelta(days=n) for n in range(30)))


def test_a_damaged_book_gives_no_backup_and_drops_none(book, folder):
    for n in range(20):
        back_up(book, folder, date(2026, 1, 1) + timedelta(days=n))
    before = names(folder)
    book.connection.execute("DELETE FROM log WHERE position = 2")
    with pytest.raises(BookDamaged):
        back_up(book, folder, date(2026, 2, 1))
    assert names(folder) == before


def test_too_little_room_is_said_before_the_disk_is_full(book, folder, monkeypatch):
    monkeypatch.setattr("shutil.disk_usage", lambda _: type("Usage", (), {"free": 100}))
    with pytest.raises(DiskFull):
        back_up(book, folder, date(2026, 3, 8))
    assert names(folder) == []


def test_the_job_looks_every_hour_tells_what_stands_in_the_way_and_goes_on(book, folder, clock, chance, monkeypatch):
    told: list[str] = []
    slept: list[float] = []

    async def sleep(seconds):
        slept.append(seconds)
        clock.go_on(seconds=seconds)
        if len(slept) == 2:
            book.connection.execute("DELETE FROM log WHERE position = 2")
            clock.go_on(days=1)
        if len(slept) == 3:
            raise asyncio.CancelledError

    monkeypatch.setattr("asyncio.sleep", sleep)
    with pytest.raises(asyncio.CancelledError):
        asyncio.run(back_up_daily(folder, clock, chance, told.append))
    assert slept == [60.0, 3600.0, 3600.0]
    assert names(folder) == ["book-2026-03-08.db"]
    (words,) = told
    assert words.startswith("No backup today: ")


def test_a_fault_of_our_own_ends_no_backups_of_later_hours(book, folder, clock, chance, monkeypatch):
    told: list[str] = []
    slept: list[float] = []

    async def sleep(seconds):
        slept.append(seconds)
        if len(slept) == 2:
            monkeypatch.undo()
            monkeypatch.setattr("asyncio.sleep", sleep)
        if len(slept) == 3:
            raise asyncio.CancelledError

    def fails(*_):
        raise KeyError("Rowan")

    monkeypatch.setattr("asyncio.sleep", sleep)
    monkeypatch.setattr("broodline.jobs.backup.back_up", fails)
    with pytest.raises(asyncio.CancelledError):
        asyncio.run(back_up_daily(folder, clock, chance, told.append))
    assert [words.startswith("No backup today: KeyError in test_backup.py") for words in told] == [True]
    assert len(names(folder)) == 1
