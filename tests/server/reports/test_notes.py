"""What is said beside the counts of a setting about the age of its eggs."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def told(family: bool = True, **laid: str) -> tuple[dict[str, Any] | None, list[str]]:
    """Storage of the lot, and the notes, of eggs set on 1 March."""
    book = BookWriter()
    book.keeper()
    body = {
        "place": book.incubator(),
        "species": "chicken",
        "set_at": START.isoformat().replace("+00:00", "Z"),
        "lots": [{"lot": book.lot(), "family": book.family("Rowan") if family else "nobody", "n": 12, **laid}],
    }
    setting = book.write("set", body, at=START)
    found = setting_report(fold(book.entries()), setting, START + timedelta(days=3))
    return found["lots"][0]["storage"], [note["words"] for note in found["notes"]]


def test_fresh_eggs_need_no_note() -> None:
    """Yassin 2008: 0.2 points a day in the first week."""
    storage, notes = told(laid_from="2026-02-22", laid_to="2026-02-28")
    assert storage is not None
    assert (storage["oldest_days"], storage["commercial_points"]) == (7, pytest.approx(1.4))
    assert storage["source"].startswith("Field study on broilers' hatchability (Yassin et al. 2008)")
    assert notes == []


def test_old_eggs_are_told_with_what_commercial_flocks_lose() -> None:
    """Yassin 2008: 2.9 points by day 10; an average of broiler flocks, and labelled so."""
    storage, notes = told(laid_from="2026-02-19")
    assert storage is not None
    assert storage["commercial_points"] == pytest.approx(2.9)
    assert notes == [
        "Rowan's eggs were up to 10 days old when set. Commercial flocks lose 2.9 points of hatch by then; that is an "
        "average of broilers and says nothing of a rare breed."
    ]


def test_older_than_anything_that_was_read() -> None:
    storage, notes = told(family=False, laid_to="2026-02-10")
    assert storage is not None
    assert (storage["oldest_days"], storage["commercial_points"]) == (19, None)
    assert notes[0].startswith("The eggs were up to 19 days old when set. Nothing was read about more than 14 days")


def test_unknown_age_says_nothing() -> None:
    assert told() == (None, [])
    assert told(laid_from="2026-03-05") == (None, [])
