"""Figures no holding has: they count nothing, so that every sum stays a whole number in both languages."""

import pytest

from broodline.book.fold import fold
from broodline.book.moments import happened_ms, instant, moment_ms
from tests.book_writer import BookWriter


@pytest.mark.parametrize(("n", "counts"), [(1_000_000, True), (1_000_001, False), (2**53 - 1, False)])
def test_a_million_eggs_are_the_most(n, counts):
    writer = BookWriter()
    writer.set_eggs(writer.incubator(), [(writer.lot(), writer.family("Rowan"), n)])
    standing = fold(writer.entries())
    assert [problem.code for problem in standing.problems] == ([] if counts else ["body"])
    assert [lot.n for lot in standing.lots.values()] == ([n] if counts else [])


@pytest.mark.parametrize(
    ("at", "skew_ms", "happened"),
    [
        ("2026-03-08T19:40:00Z", 120_000, "2026-03-08T19:40:00Z"),
        ("2026-03-08T19:40:00Z", -120_001, "2026-03-08T19:37:59.999Z"),
        ("2026-03-08T19:40:00Z", 2**53 - 1, "9999-12-30T00:00:00Z"),
        ("2026-03-08T19:40:00Z", 1 - 2**53, "0001-01-02T00:00:00Z"),
    ],
)
def test_a_skew_sets_the_time_right_within_the_calendar(at, skew_ms, happened):
    assert happened_ms(at, skew_ms) == moment_ms(happened)


@pytest.mark.parametrize(("ms", "year"), [(-(10**15), 1), (0, 1970), (10**15, 9999)])
def test_an_instant_is_held_within_the_calendar(ms, year):
    assert instant(ms).year == year


def test_a_setting_runs_while_an_egg_rests_in_it():
    writer = BookWriter()
    lot = writer.lot()
    setting = writer.set_eggs(writer.incubator(), [(lot, writer.family("Rowan"), 2)])
    assert fold(writer.entries()).settings[setting].runs
    writer.move(lot, "set", "hatched", 2)
    assert not fold(writer.entries()).settings[setting].runs
