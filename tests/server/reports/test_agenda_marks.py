"""What marked chicks ask for, by hand: webs two weeks after they were punched, rings every week."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.agenda import due
from broodline.reports.agenda_apart import apart_tasks
from broodline.reports.notice import path_of
from tests.book_writer import START, BookWriter


@pytest.fixture
def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    return writer


def asked(book: BookWriter, days: float, task: str) -> list[dict[str, Any]]:
    found = due(fold(book.entries()), START + timedelta(days=days))["tasks"]
    return [one for one in found if one["task"] == task]


@pytest.fixture
def marked(book: BookWriter) -> tuple[BookWriter, str]:
    """Eight chicks of twelve eggs in the brooder, on day 22."""
    brooder = book.write("place", {"name": "Pen stove", "role": "brooder"})
    lot = book.lot()
    book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 12)])
    book.move(lot, "set", "hatched", 8, at=START + timedelta(days=21))
    book.move(lot, "set", "quitter", 4, at=START + timedelta(days=21))
    book.move(lot, "hatched", "brooding", 8, at=START + timedelta(days=22), place=brooder)
    return book, lot


def test_punched_webs_are_looked_at_again_after_two_weeks(marked: tuple[BookWriter, str]) -> None:
    book, lot = marked
    book.write("marked", {"lot": lot, "webs": ["LO", "RI"], "n": 8}, at=START + timedelta(days=22))
    assert asked(book, 28, "webs_again") == []
    [task] = asked(book, 30, "webs_again")
    assert (task["due"], task["n"], task["lot"], task["overdue"]) == ("2026-04-06", 8, lot, False)
    assert task["words"] == "Look at the toe webs of 8 chicks in Pen stove: are the marks still open?"
    assert task["source"] == "The Mating and Breeding of Poultry"
    book.write("marked", {"lot": lot, "webs": ["LO", "RI"], "recheck": True}, at=START + timedelta(days=33))
    [late] = asked(book, 40, "webs_again")
    assert (late["n"], late["overdue"]) == (8, True), "eleven days are too early"
    book.write("marked", {"lot": lot, "webs": ["LO", "RI"], "recheck": True}, at=START + timedelta(days=34))
    assert asked(book, 40, "webs_again") == []


def test_a_look_at_one_pattern_leaves_the_other_to_be_looked_at(marked: tuple[BookWriter, str]) -> None:
    book, lot = marked
    book.write("marked", {"lot": lot, "webs": ["LO", "RI"], "n": 5}, at=START + timedelta(days=22))
    book.write("marked", {"lot": lot, "webs": ["RO"], "n": 3}, at=START + timedelta(days=22))
    again = {"lot": lot, "n": 1, "recheck": True}
    book.write("marked", {**again, "webs": ["RI", "LO"]}, at=START + timedelta(days=36))
    assert [one["n"] for one in asked(book, 36, "webs_again")] == [3]
    book.write("marked", {**again, "webs": ["RO"]}, at=START + timedelta(days=36))
    assert asked(book, 36, "webs_again") == []


def test_rings_are_looked_at_every_week_until_the_birds_are_grown(marked: tuple[BookWriter, str]) -> None:
    book, lot = marked
    ring = {"kind": "ring", "colour": "blue", "leg": "left"}
    book.write("marked", {"lot": lot, "tag": ring, "n": 8}, at=START + timedelta(days=22))
    due_on = lambda days: [one["due"] for one in asked(book, days, "rings")]  # noqa: E731
    assert due_on(23) == ["2026-03-30"]
    book.write("care", {"task": "rings", "on": "2026-03-31"})
    assert due_on(31) == ["2026-04-07"]
    book.write("marked", {"lot": lot, "tag": ring, "replaces": "the smaller ones"}, at=START + timedelta(days=36))
    assert due_on(36) == ["2026-04-13"]
    book.move(lot, "brooding", "growing", 8)
    book.move(lot, "growing", "flock", 8)
    assert due_on(36) == []


def test_chicks_that_came_as_a_batch_are_looked_at_too(book: BookWriter) -> None:
    lot = book.lot()
    book.write("came", {"lot": lot, "n": 5, "on": "2026-03-01", "how": "bought"})
    book.write("marked", {"lot": lot, "webs": ["LO"], "n": 5}, at=START)
    [task] = asked(book, 14, "webs_again")
    assert (task["setting"], task["lot"], task["day"], task["due"]) == (None, lot, 14, "2026-03-15")


def test_single_birds_kept_apart_are_told_of_where_the_birds_are(book: BookWriter) -> None:
    """Nobody writes where one bird is, so that there is no brooder to open."""
    bird = book.write("bird", {"sex": "female"})
    book.write("came", {"bird": bird, "on": "2026-03-01", "how": "bought", "apart_until": "2026-03-31"})
    [task] = apart_tasks(fold(book.entries()), START + timedelta(days=25))
    assert (task.n, task.place, path_of(task)) == (1, "", "/birds")
