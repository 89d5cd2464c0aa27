"""A setting in a few sentences."""

from datetime import timedelta

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def summary(*steps: tuple[str, str, int]) -> str:
    book = BookWriter()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 24)])
    for source, target, n in steps:
        book.move(lot, source, target, n)
    found = setting_report(fold(book.entries()), setting, START + timedelta(days=9))["summary"]
    assert isinstance(found, str)
    return found


def test_begun() -> None:
    assert summary() == "Day 9: 24 of 24 eggs in the shell."


def test_candled() -> None:
    """Wilson limits of 20 in 24 and of 1 in 24 by scipy.stats.binomtest."""
    said = summary(("set", "clear", 4), ("set", "quitter", 2), ("set", "locked", 18), ("locked", "hatched", 1))
    assert said == (
        "Day 9: 17 of 24 eggs in the shell, 1 chick out. 20 of 24 looked into were fertile (83 %, likely 64 to 93 %), "
        "judged by candling. 2 died in the shell: 2 not opened."
    )


def test_over() -> None:
    said = summary(
        ("set", "infertile", 4), ("set", "hatched", 15), ("set", "dead_early", 3), ("set", "dead_internal_pip", 2)
    )
    assert said.startswith("15 of 24 eggs hatched (62 %, likely 43 to 79 %). 20 of 24 looked into were fertile")
    assert said.endswith("judged by candling and opening. 5 died in the shell: 3 early, 2 at internal pip.")


def test_what_is_left_of_eggs_nobody_looked_into_need_not_have_died() -> None:
    """Not candled, not opened: clear or dead, who knows. Of a batch that was candled they had lived."""
    said = summary(("set", "locked", 24), ("locked", "hatched", 17), ("locked", "unhatched", 7))
    assert said == "17 of 24 eggs hatched (71 %, likely 51 to 85 %). 7 did not hatch and were not opened."
    said = summary(("set", "clear", 4), ("set", "locked", 20), ("locked", "hatched", 13), ("locked", "unhatched", 7))
    assert said.endswith("7 died in the shell: 7 not opened.")


def test_counts_that_do_not_fit() -> None:
    assert summary(("set", "hatched", 30)).startswith("The counts of this setting do not fit together")


def test_nothing_looked_into() -> None:
    assert summary(("set", "cracked", 24)) == "0 of 24 eggs hatched (0 %, likely 0 to 14 %)."
