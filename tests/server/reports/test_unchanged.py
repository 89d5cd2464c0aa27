"""What is kept between reports is what would be worked out anew, whatever comes when; and it is kept."""

from datetime import datetime, timedelta
from random import Random

import pytest

from broodline.book.fold import Fold, fold
from broodline.book.wire import read_entry
from broodline.reports.rates import lot_outcome, setting_outcome
from broodline.reports.season import season_report
from broodline.reports.unchanged import kept_lot_outcome, kept_setting_outcome
from tests.book_writer import START, BookWriter
from tests.server.book.odd_books import odd_book
from tests.server.book.tallied_books import tallied_book

DAY_MS = 86_400_000
START_MS = round(START.timestamp() * 1000)


@pytest.fixture
def hatched() -> tuple[BookWriter, str, list[str]]:
    """Two lots of six that hatched on day 21; a chick of the first died two days later."""
    book = BookWriter()
    book.keeper()
    lots = [book.lot(), book.lot()]
    setting = book.set_eggs(
        book.incubator(), [(lot, book.family(name), 6) for lot, name in zip(lots, "AB", strict=True)]
    )
    for lot in lots:
        book.move(lot, "set", "hatched", 6, at=START + timedelta(days=21))
    book.move(lots[0], "hatched", "died", at=START + timedelta(days=23))
    return book, setting, lots


def test_at_any_moment_and_after_any_entries_it_is_what_is_worked_out_anew():
    settled = running = 0
    for seed in range(60):
        chance = Random(seed)
        entries = [read_entry(entry) for entry in (tallied_book if seed % 2 else odd_book)(seed)]
        growing = Fold()
        for first in range(0, len(entries), 20):
            growing.take(entries[first : first + 20])
            standing = growing.standing()
            for setting in standing.settings.values():
                settled, running = settled + (not setting.runs), running + setting.runs
                lots = [standing.lots[name] for name in setting.lots]
                for now_ms in [START_MS + round(chance.uniform(-5, 60) * DAY_MS) for _ in range(3)]:
                    assert kept_setting_outcome(setting, lots, now_ms) == setting_outcome(setting, lots, now_ms)
                    for lot in lots:
                        assert kept_lot_outcome(lot, setting, now_ms) == lot_outcome(lot, setting, now_ms)
    assert min(settled, running) > 40, (settled, running)


def test_it_is_kept_from_when_the_last_first_week_is_over(hatched):
    book, setting, lots = hatched
    standing = fold(book.entries())
    one, lot = standing.settings[setting], standing.lots[lots[0]]
    all_lots = [standing.lots[name] for name in one.lots]
    over_ms = START_MS + 30 * DAY_MS  # a week after the death, the last that was told
    for keep in (lambda at: kept_lot_outcome(lot, one, at), lambda at: kept_setting_outcome(one, all_lots, at)):
        assert keep(over_ms) is keep(over_ms + DAY_MS)
        assert keep(over_ms - 1) is not keep(over_ms - 1)
        assert keep(START_MS + 28 * DAY_MS - 1).alive_7d.n == 0


def test_an_entry_makes_anew_what_it_concerns_and_nothing_else(hatched):
    book, setting, lots = hatched
    growing, late_ms = Fold(), START_MS + 90 * DAY_MS
    growing.take(book.entries())

    def outcomes():
        standing = growing.standing()
        return [kept_lot_outcome(standing.lots[lot], standing.settings[setting], late_ms) for lot in lots]

    before = outcomes()
    book.write("note", {"text": "Swept."})
    growing.take(book.entries()[-1:])
    assert all(one is another for one, another in zip(outcomes(), before, strict=True))
    book.move(lots[0], "hatched", "died", at=START + timedelta(days=24))
    growing.take(book.entries()[-1:])
    assert [one.alive_7d.k for one in outcomes()] == [4, 6]


def test_a_seasons_report_after_each_entry_is_the_one_of_a_book_opened_anew(hatched):
    """Seen by the season after it too, in which it is an earlier one."""
    book, _, lots = hatched
    now = datetime.fromisoformat("2027-05-01T12:00:00Z")
    book.move(lots[1], "hatched", "culled", at=START + timedelta(days=25))
    book.move(lots[1], "hatched", "unaccounted", 2, at=START + timedelta(days=26))
    growing = Fold()
    for entry in book.entries():
        growing.take([entry])
        for year in (2026, 2027):
            season_report(growing.standing(), year, now)
    for year in (2026, 2027):
        assert season_report(growing.standing(), year, now) == season_report(fold(book.entries()), year, now)
    assert season_report(growing.standing(), 2027, now)["earlier"][0]["alive_7d"]["k"] == 8
