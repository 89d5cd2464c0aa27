"""What stands out in a setting's losses, with evidence and where it was seen."""

from datetime import timedelta
from typing import Any

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def pattern(*steps: tuple[int, str, str, int]) -> list[dict[str, Any]]:
    book = BookWriter()
    lots = [book.lot(), book.lot()]
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 24) for lot in lots])
    for number, source, target, n in steps:
        book.move(lots[number], source, target, n)
    found = setting_report(fold(book.entries()), setting, START + timedelta(days=30))["pattern"]
    assert isinstance(found, list)
    return found


def test_nothing_stands_out_in_a_good_hatch() -> None:
    assert pattern((0, "set", "hatched", 22), (0, "set", "blood_ring", 1), (1, "set", "hatched", 24)) == []


def test_blood_rings_stand_out_with_evidence_causes_and_family() -> None:
    found = pattern((0, "set", "blood_ring", 6), (0, "set", "hatched", 18), (1, "set", "hatched", 24))
    assert [one["code"] for one in found] == ["dead_early"]
    one = found[0]
    assert one["evidence"].startswith(
        "6 of 48 fertile eggs (12 %); published: 3.0 % of eggs, dead in the first 3 days."
    )
    assert [row["k"] for row in one["by_lot"]] == [6]
    assert any("inbreeding" in cause for cause in one["likely"])
    assert one["source"].startswith("Common Incubation Problems")
    assert "copy" in one["source"]


def test_counts_that_do_not_fit_say_nothing() -> None:
    assert pattern((0, "set", "blood_ring", 60)) == []
