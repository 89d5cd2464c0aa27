"""The report of one setting, by hand."""

from datetime import timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.errors import NotFound
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter

NOW = START + timedelta(days=23, hours=5)


def report(book: BookWriter, setting: str) -> dict[str, Any]:
    return setting_report(fold(book.entries()), setting, NOW)


def begun(**more: Any) -> tuple[BookWriter, str, str, str]:
    book = BookWriter()
    book.keeper()
    a, b = book.lot(), book.lot()
    rowan, birch = book.family("Rowan"), book.family("Birch")
    setting = book.set_eggs(book.incubator(), [(a, rowan, 20), (b, birch, 10)], **more)
    return book, setting, a, b


def test_a_setting_told_whole() -> None:
    book, setting, a, b = begun()
    book.move(a, "set", "clear", 3)
    book.move(a, "set", "blood_ring", 1)
    book.move(a, "set", "locked", 16)
    book.move(a, "locked", "hatched", 13)
    book.move(a, "locked", "unhatched", 3)
    book.move(a, "unhatched", "dead_late", 2)
    book.move(b, "set", "clear", 2)
    book.move(b, "set", "locked", 8)
    found = report(book, setting)
    assert (found["setting"], found["species"], found["set_at"]) == (setting, "chicken", "2026-03-01T08:00:00.000Z")
    assert (found["day"], found["so_far"], found["place_name"]) == (23, True, "Loft box")
    assert found["calendar"] == {
        "candle": ["2026-03-08", "2026-03-15"],
        "lockdown": "2026-03-19",
        "hatch_from": "2026-03-22",
        "hatch_to": "2026-03-22",
        "days": {"candle": [7, 14], "lockdown": 18, "hatch_from": 21, "hatch_to": 21},
    }
    first, second = found["lots"]
    assert (first["lot"], first["family_name"], first["n"]) == (a, "Rowan", 20)
    assert first["stages"] == {"blood_ring": 1, "clear": 3, "dead_late": 2, "hatched": 13, "unhatched": 1}
    assert first["deaths"] == {
        "early": 1, "mid": 0, "late": 2, "internal_pip": 0, "external_pip": 0, "unopened": 1
    }  # fmt: skip
    assert [(first[name]["k"], first[name]["n"]) for name in ("fertility", "hatch_of_set", "hatch_of_fertile")] == [
        (17, 20),
        (13, 20),
        (13, 17),
    ]
    assert first["fertility"]["basis"] == "candled"
    assert first["fertility"]["so_far"] is True
    assert (second["fertility"]["k"], second["fertility"]["n"]) == (8, 10)
    total = found["total"]
    assert (total["n"], total["fertility"]["k"], total["fertility"]["n"]) == (30, 25, 30)
    assert (total["hatch_of_set"]["k"], total["hatch_of_fertile"]["n"]) == (13, 25)
    assert total["deaths"]["late"] == 2
    assert found["problems"] == []


def test_weak_and_helped_are_told_of_their_batch_and_of_all() -> None:
    """By hand: of A 2 weak and 1 both weak and helped, of B 1 helped; 1 weak of no known family. A dead chick is no
    weak one, and a weak chick that goes to the brooder is counted once."""
    book, setting, a, b = begun()
    book.move(a, "set", "hatched", 5)
    book.move(a, "set", "hatched", 2, weak=True)
    book.move(a, "set", "hatched", 1, weak=True, helped=True)
    book.move(a, "hatched", "brooding", 8, weak=True)
    book.move(b, "set", "unhatched", 4)
    book.move(b, "unhatched", "hatched", 1, helped=True)
    shared = {"among": [a, b], "from": "set", "to": "hatched", "n": 1}
    book.write("moved", {"moves": [shared], "weak": True, "why": "hatch"})
    found = report(book, setting)
    assert [(lot["weak"], lot["helped"]) for lot in found["lots"]] == [(3, 1), (0, 1)]
    assert (found["total"]["weak"], found["total"]["helped"]) == (4, 2)


def test_unknown_setting_is_refused_and_a_corrected_one_is_found_by_any_of_its_ids() -> None:
    book, setting, *_ = begun()
    with pytest.raises(NotFound):
        report(book, "nothing")
    body = {**next(one["body"] for one in book.documents if one["id"] == setting), "species": "duck"}
    correction = book.write("set", body, amends=setting)
    assert report(book, correction)["setting"] == setting
    assert report(book, correction)["species"] == "duck"


def test_species_nobody_knows_gets_counts_and_a_problem() -> None:
    book, setting, *_ = begun(species="phoenix")
    found = report(book, setting)
    assert found["calendar"]["candle"] == []
    assert found["calendar"]["lockdown"] is None
    assert found["calendar"]["hatch_from"] is None
    assert [problem["code"] for problem in found["problems"]] == ["unknown_species"]
    assert found["lots"][0]["n"] == 20
    book, setting, *_ = begun(species="phoenix", lockdown_day=20)
    assert report(book, setting)["calendar"]["lockdown"] == "2026-03-21"


def test_place_and_family_nobody_entered() -> None:
    book = BookWriter()
    setting = book.set_eggs("nowhere", [(book.lot(), "nobody", 3)])
    found = report(book, setting)
    assert (found["place"], found["place_name"]) == ("nowhere", None)
    assert (found["lots"][0]["family"], found["lots"][0]["family_name"]) == ("nobody", None)


def test_problems_are_those_of_this_setting() -> None:
    book, setting, a, _ = begun()
    other, lot = book.incubator("Other"), book.lot()
    elsewhere = book.set_eggs(other, [(lot, book.family("Hazel"), 5)])
    book.move(a, "set", "clear", 50)
    book.write("counted", {"lot": a, "stage": "set", "n": 3, "ledger": 5})
    book.write("locked", {"setting": setting, "place": "nowhere"})
    book.write("moved", {"moves": [{"among": [a, lot], "from": "set", "to": "clear", "n": 1}]})
    codes = sorted(problem["code"] for problem in report(book, setting)["problems"])
    assert codes == ["among_across_settings", "below_zero", "count_differs", "unknown_place"]
    assert [problem["code"] for problem in report(book, elsewhere)["problems"]] == ["among_across_settings"]


def test_moves_among_lots_show_as_open_and_count_in_the_total() -> None:
    book, setting, a, b = begun()
    book.write("moved", {"moves": [{"among": [a, b], "from": "set", "to": "locked", "n": 30}]})
    book.write("moved", {"moves": [{"among": [a, b], "from": "locked", "to": "hatched", "n": 4}]})
    found = report(book, setting)
    assert found["lots"][0]["open"] == {"hatched": 4, "locked": 30}
    assert found["total"]["stages"] == {"hatched": 4, "locked": 26}
    assert found["total"]["hatch_of_set"]["k"] == 4
    assert found["lots"][1]["hatch_of_set"]["open"] == 4
