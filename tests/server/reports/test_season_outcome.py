"""Chicks whose family nobody knows, in a season: counted by hand."""

from datetime import UTC, datetime, timedelta
from typing import Any

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, tzinfo=UTC)


def mixed_book(laid: tuple[str, str] | None = None) -> BookWriter:
    """Rowan and Birch, 10 eggs each: 6 and 5 hatch, 3 of either, 6 do not. So 14 of 20, of known family 11."""
    book = BookWriter()
    book.keeper()
    rowan, birch = book.lot(), book.lot()
    rowans, birches = book.family("Rowan"), book.family("Birch")
    days = dict(zip((rowan, birch), laid or ("2026-02-27", "2026-02-27"), strict=True))
    lots = [
        {"lot": lot, "family": family, "n": 10, "laid_from": days[lot], "laid_to": days[lot]}
        for lot, family in ((rowan, rowans), (birch, birches))
    ]
    body = {"place": book.incubator(), "species": "chicken", "set_at": START.isoformat().replace("+00:00", "Z")}
    setting = book.write("set", {**body, "lots": lots}, at=START)
    for lot in (rowan, birch):
        book.look(setting, lot, at=START + timedelta(days=7), day=7, live=10)
    out = START + timedelta(days=21)
    for lot, n in ((rowan, 6), (birch, 5)):
        book.move(lot, "set", "hatched", n, at=out)
    either = {"among": [rowan, birch], "n": 3}
    book.write("moved", {"moves": [{**either, "from": "set", "to": "hatched"}], "why": "hatch"}, at=out)
    either["n"] = 6
    book.write("moved", {"moves": [{**either, "from": "set", "to": "unhatched"}]}, at=out + timedelta(days=2))
    return book


def season(year: int = 2026, *, laid: tuple[str, str] | None = None) -> dict[str, Any]:
    return season_report(fold(mixed_book(laid).entries()), year, NOW)


def hatch(row: dict[str, Any]) -> tuple[int, int, int]:
    rate = row["hatch_of_set"]
    return rate["k"], rate["n"], rate.get("open", 0)


def test_machine_and_month_know_the_chicks_of_unknown_family() -> None:
    found = season()
    for group in ("by_place", "by_month", "by_egg_age", "by_origin"):
        assert [hatch(row) for row in found[group]] == [(14, 20, 0)], group
    assert "by machine 70 %, by month 70 %" in found["titles"]["groups"]
    assert [step["n"] for step in found["funnel"] if step["step"] == "hatched"] == [14]


def test_a_group_that_may_have_only_some_of_them_says_up_to_how_many() -> None:
    found = season(laid=("2026-02-27", "2026-02-20"))
    assert [hatch(row) for row in found["by_egg_age"]] == [(6, 10, 3), (5, 10, 3)]
    assert [hatch(row) for row in found["by_place"]] == [(14, 20, 0)]


def test_the_families_and_the_verdict_say_so_too() -> None:
    found = season()
    assert {row["name"]: hatch(row) for row in found["families"]} == {"Rowan": (6, 10, 3), "Birch": (5, 10, 3)}
    assert "Rowan's hatched, 6 of 10 (60 %, likely 31 % to 83 %; up to 3 more)" in found["verdict"]
    assert "3 chicks of unknown family hatched besides, and no family counts them." in found["verdict"]
    assert "unknown family" not in found["titles"]["headline"]


def test_the_seasons_before_know_them() -> None:
    (before,) = season(2027)["earlier"]
    assert hatch(before) == (14, 20, 0)
