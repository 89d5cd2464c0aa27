"""Season reports: rates by hand, families compared as in published flock-size examples, words that stay honest."""

import json
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.reports.season import season_report
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, tzinfo=UTC)
ALIKE = {"Rowan": (18, 24), "Birch": (11, 22), "Hazel": (9, 12), "Alder": (25, 40), "Sorrel": (2, 6)}
APART = {"Rowan": (22, 24), "Birch": (9, 22), "Hazel": (30, 36), "Alder": (14, 30), "Sorrel": (5, 6), "Elm": (17, 24)}


def report(book: BookWriter, year: int = 2026, now: datetime = NOW) -> dict[str, Any]:
    return season_report(fold(book.entries()), year, now)


def hatch(book: BookWriter, lot: str, eggs: int, hatched: int, days: int = 0) -> None:
    """Candled, locked down, hatched, the rest left unhatched."""
    at = START + timedelta(days=days + 21)
    book.move(lot, "set", "locked", eggs, at=START + timedelta(days=days + 18))
    if hatched:
        book.move(lot, "locked", "hatched", hatched, at=at)
    if eggs - hatched:
        book.move(lot, "locked", "unhatched", eggs - hatched, at=at + timedelta(days=1))


def season_of(families: dict[str, tuple[int, int]]) -> BookWriter:
    """One finished setting with a lot of each family."""
    book = BookWriter()
    book.keeper()
    place = book.incubator()
    lots = [(book.lot(), book.family(name), n) for name, (_, n) in families.items()]
    book.set_eggs(place, lots)
    for (lot, _, n), (k, _) in zip(lots, families.values(), strict=True):
        hatch(book, lot, n, k)
    return book


def test_families_that_do_not_differ_are_said_not_to() -> None:
    """18/24 11/22 9/12 25/40 2/6: permutation p .202-.209, no spread, all shrunk to 65/104 (by scipy)."""
    found = report(season_of(ALIKE))
    assert [row["name"] for row in found["families"]] == ["Alder", "Birch", "Hazel", "Rowan", "Sorrel"]
    assert {row["shrunk"]["rate"] for row in found["families"]} == {0.625}
    assert {row["best_probability"] for row in found["families"]} == {0.2}
    assert found["overall_test"]["p"] == pytest.approx(0.2055, abs=0.005)
    assert found["overall_test"]["verdict"] == "these eggs do not separate the families"
    assert len(found["pairs"]) == 10
    assert min(pair["p_holm"] for pair in found["pairs"]) > 0.5
    assert "do not separate the families" in found["verdict"]
    assert "eggs of each would be needed" in found["verdict"]


def test_families_that_hatched_just_alike_are_not_ranked() -> None:
    found = report(season_of({"Rowan": (9, 12), "Birch": (15, 20)}))
    assert found["verdict"] == "These eggs do not separate the families. The same share of each hatched, 75 %."


def test_families_that_differ_are_ranked_without_blame() -> None:
    """22/24 9/22 30/36 14/30 5/6 17/24: shrunk as by beta-binomial ML (.8648 ... .7033)."""
    found = report(season_of(APART))
    by_name = {row["name"]: row for row in found["families"]}
    shrunk = [by_name[name]["shrunk"]["rate"] for name in APART]
    assert shrunk == pytest.approx([0.8648, 0.4757, 0.8095, 0.5080, 0.7542, 0.7033], abs=1e-4)
    assert by_name["Rowan"]["shrunk"]["low"] == pytest.approx(0.726, abs=6e-4)
    assert sum(row["best_probability"] for row in found["families"]) == pytest.approx(1)
    assert max(found["families"], key=lambda row: row["best_probability"])["name"] == "Rowan"
    assert found["overall_test"]["verdict"] == "these eggs separate the families"
    assert "fewest of Birch's, 9 of 22 (" in found["verdict"]
    assert "cannot say why" in found["verdict"]
    ids = {name: by_name[name]["family"] for name in APART}
    pair = next(one for one in found["pairs"] if {one["a"], one["b"]} == {ids["Birch"], ids["Rowan"]})
    assert pair["a"] == ids["Birch"]
    assert pair["difference"] == pytest.approx(9 / 22 - 22 / 24)
    assert pair["low"] < pair["difference"] < pair["high"] < 0
    assert pair["p_holm"] < 0.05
    assert "Birch and Rowan" in found["verdict"]


def test_two_settings_by_hand() -> None:
    """Rowan 10 + 12 eggs, Birch 8: rates added up, lots of several settings in one family."""
    book = BookWriter()
    book.keeper()
    place, rowan, birch = book.incubator(), book.family("Rowan"), book.family("Birch")
    a, b, c = book.lot(), book.lot(), book.lot()
    book.set_eggs(place, [(a, rowan, 10), (b, birch, 8)])
    book.set_eggs(place, [(c, rowan, 12)], set_at=START + timedelta(days=30))
    book.move(a, "set", "clear", 1)
    hatch(book, a, 9, 7)
    hatch(book, b, 8, 8)
    book.move(c, "set", "clear", 2)
    hatch(book, c, 10, 6, days=30)
    book.move(a, "hatched", "died", 1, at=START + timedelta(days=23))
    found = report(book)
    rowans = next(row for row in found["families"] if row["name"] == "Rowan")
    birches = next(row for row in found["families"] if row["name"] == "Birch")
    assert (rowans["set"], rowans["running"]) == (22, 0)
    assert [(rowans[name]["k"], rowans[name]["n"]) for name in ("fertility", "hatch_of_set", "hatch_of_fertile")] == [
        (19, 22),
        (13, 22),
        (13, 19),
    ]
    assert (rowans["alive_7d"]["k"], rowans["alive_7d"]["n"]) == (12, 13)
    assert rowans["fertility"]["basis"] == "candled"
    assert (birches["fertility"]["k"], birches["fertility"]["n"], birches["fertility"]["basis"]) == (8, 8, "candled")
    assert found["settings"] == 2
    assert [(row["month"], row["hatch_of_set"]["k"], row["set"]) for row in found["by_month"]] == [("2026-03", 21, 30)]
    assert [(row["name"], row["set"]) for row in found["by_place"]] == [("Loft box", 30)]
    steps = {row["step"]: (row["n"], row["running"]) for row in found["funnel"]}
    assert steps == {
        "set": (30, 0), "examined": (30, 0), "fertile": (27, 0), "hatched": (21, 0), "alive": (20, 0), "flock": (0, 0)
    }  # fmt: skip
    assert (
        "Birch had eggs in one setting only, that of 1 Mar 2026. Whether the family or the setting" in found["verdict"]
    )


def test_deaths_and_sums_of_each_family() -> None:
    """Of the settings that are over: when the eggs died, and whether all are accounted for."""
    book = BookWriter()
    book.keeper()
    rowan = book.family("Rowan")
    for days in (0, 40, 80):
        lot = book.lot()
        book.set_eggs(book.incubator(), [(lot, rowan, 20)], set_at=START + timedelta(days=days))
        for stage, n in (("blood_ring", 2), ("hatched", 12), ("unaccounted", 1), ("dead_late", 5)):
            if days < 80:
                book.move(lot, "set", stage, n, at=START + timedelta(days=days + 21))
    (found,) = report(book)["families"]
    assert found["deaths"] == {
        "early": 4, "mid": 0, "late": 10, "internal_pip": 0, "external_pip": 0, "unopened": 0
    }  # fmt: skip
    assert found["closing"] == {
        "set": 40, "told": 38, "short_by": 2, "words": "2 of 40 eggs are not accounted for."
    }  # fmt: skip


def test_running_settings_are_only_in_the_funnel() -> None:
    book = season_of(ALIKE)
    before = report(book)
    late, only = book.lot(), book.lot()
    birch = next(row["family"] for row in before["families"] if row["name"] == "Birch")
    book.set_eggs(book.incubator("Second"), [(late, birch, 30), (only, book.family("Elm"), 5)])
    book.move(late, "set", "clear", 3)
    after = report(book)
    rows = {row["name"]: row for row in after["families"]}
    for row in before["families"]:
        same = {name: part for name, part in rows[row["name"]].items() if name not in ("set", "running")}
        assert same == {name: part for name, part in row.items() if name not in ("set", "running")}
    assert (rows["Birch"]["set"], rows["Birch"]["running"]) == (52, 30)
    assert rows["Elm"]["hatch_of_set"] == {"k": 0, "n": 0, "rate": None, "low": None, "high": None}
    assert rows["Elm"]["shrunk"] == {"rate": None, "low": None, "high": None}
    assert rows["Elm"]["best_probability"] is None
    assert after["overall_test"] == before["overall_test"]
    assert after["pairs"] == before["pairs"]
    assert after["verdict"] == before["verdict"]
    assert after["by_place"] == before["by_place"]
    steps = {row["step"]: (row["n"], row["running"]) for row in after["funnel"]}
    assert steps["set"] == (139, 35)


def test_a_funnel_says_nothing_of_looks_that_nobody_took() -> None:
    """As past seasons come in from a table: 12 set, 8 out, 4 did not hatch and were never candled or opened."""
    book = BookWriter()
    book.keeper()
    lot = book.lot()
    book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 12)])
    hatch(book, lot, 12, 8)
    assert {row["step"]: row["n"] for row in report(book)["funnel"]} == {
        "set": 12,
        "hatched": 8,
        "alive": 8,
        "flock": 0,
    }


def test_lot_whose_counts_do_not_fit_is_told_and_left_out() -> None:
    book = season_of({"Rowan": (8, 12), "Birch": (6, 12)})
    lot = fold(book.entries())
    bad = next(one for one in lot.lots.values() if lot.families[one.family or ""].name == "Birch")
    book.move(bad.id, "clear", "infertile", 2)
    found = report(book)
    rows = {row["name"]: row for row in found["families"]}
    assert rows["Birch"]["hatch_of_set"]["n"] == 0
    assert rows["Rowan"]["hatch_of_set"]["k"] == 8
    assert "below_zero" in [problem["code"] for problem in found["problems"]]
    assert found["verdict"].startswith("Only Rowan")
    assert {row["step"]: row["n"] for row in found["funnel"]}["hatched"] == 8


def test_more_eggs_than_anyone_sets_are_told_and_left_out() -> None:
    book = season_of({"Rowan": (8, 12)})
    lot = book.lot()
    book.set_eggs(book.incubator(), [(lot, book.family("Birch"), 900_000)])
    hatch(book, lot, 900_000, 400_000)
    found = report(book)
    assert [row["name"] for row in found["families"]] == ["Rowan"]
    assert "too_many_eggs" in [problem["code"] for problem in found["problems"]]


@pytest.mark.parametrize(
    ("zone", "starts", "set_at", "year"),
    [
        ("Europe/Dublin", None, "2026-01-01T00:00:00+00:00", 2026),
        ("Europe/Dublin", None, "2025-12-31T23:59:00+00:00", 2025),
        ("Pacific/Auckland", 7, "2026-06-30T11:59:00+00:00", 2025),
        ("Pacific/Auckland", 7, "2026-06-30T12:00:00+00:00", 2026),
        ("Pacific/Auckland", 7, "2027-02-01T12:00:00+00:00", 2026),
        ("America/New_York", 1, "2027-01-01T04:59:00+00:00", 2026),
    ],
)
def test_seasons_begin_in_the_keepers_month_and_zone(zone: str, starts: int | None, set_at: str, year: int) -> None:
    book = BookWriter()
    book.keeper(zone, **({} if starts is None else {"season_starts": starts}))
    book.set_eggs(book.incubator(), [(book.lot(), book.family("Rowan"), 6)], set_at=datetime.fromisoformat(set_at))
    assert [report(book, one)["settings"] for one in (year - 1, year, year + 1)] == [0, 1, 0]


def test_nothing_depends_on_the_order_of_entries() -> None:
    book = season_of(APART)
    told = json.dumps(report(book))
    entries = book.entries()
    for seed in range(5):
        Random(seed).shuffle(entries)
        assert json.dumps(season_report(fold(entries), 2026, NOW)) == told


def test_empty_running_and_single_seasons_say_so() -> None:
    book = BookWriter()
    book.keeper()
    assert report(book)["verdict"] == "No eggs were set in this season."
    assert report(book)["overall_test"] == {"p": None, "verdict": "there is nothing to compare yet"}
    book.set_eggs(book.incubator(), [(book.lot(), book.family("Rowan"), 6)])
    assert "still runs" in report(book)["verdict"]
    assert report(season_of({"Rowan": (8, 12)}))["verdict"].startswith("Only Rowan")
    equal = report(season_of({"Rowan": (8, 12), "Birch": (8, 12)}))
    assert "needed" not in equal["verdict"]


def test_groups_by_age_origin_and_place_nobody_entered() -> None:
    book = BookWriter()
    book.keeper()
    family = book.family("Rowan")
    lots = [book.lot() for _ in range(5)]
    body = [
        {"lot": lots[0], "family": family, "n": 4, "laid_from": "2026-02-26", "laid_to": "2026-02-28"},
        {"lot": lots[1], "family": family, "n": 4, "laid_to": "2026-02-20"},
        {"lot": lots[2], "family": family, "n": 4, "from": {"who": "a friend", "posted": True}},
        {"lot": lots[3], "family": "nobody", "n": 4, "laid_from": "2026-03-05"},
        {"lot": lots[4], "family": family, "n": 4, "laid_from": "2026-02-01"},
    ]
    book.write(
        "set", {"place": "nowhere", "species": "chicken", "set_at": "2026-03-01T08:00:00Z", "lots": body}, at=START
    )
    for lot in lots:
        hatch(book, lot, 4, 3)
    found = report(book)
    ages = [(row["from_days"], row["to_days"], row["set"]) for row in found["by_egg_age"]]
    assert ages == [(0, 3, 4), (8, 10, 4), (15, None, 4), (None, None, 8)]
    commercial = [row["commercial_points"] for row in found["by_egg_age"]]
    assert commercial == [[0, pytest.approx(0.6)], pytest.approx([1.9, 2.9]), [None, None], [None, None]]
    assert [(row["origin"], row["set"]) for row in found["by_origin"]] == [("bought_in", 4), ("own", 16)]
    assert [row["name"] for row in found["by_place"]] == ["unknown place"]
    assert [row["name"] for row in found["families"]] == ["Rowan", "unknown family"]


def test_ducks_are_held_against_ducks_and_not_against_hens() -> None:
    """Hens as in the example that does not separate, and two families of ducks of which one hatched far better."""
    book = season_of(ALIKE)
    place = book.incubator()
    ducks = {"Sedge": (22, 24), "Mere": (9, 22)}
    lots = [(book.lot(), book.family(name, "duck"), n) for name, (_, n) in ducks.items()]
    book.set_eggs(place, lots, species="duck")
    for (lot, _, n), (k, _) in zip(lots, ducks.values(), strict=True):
        hatch(book, lot, n, k)
    found, alone = report(book), report(season_of(ALIKE))
    names = {row["family"]: row["name"] for row in found["families"]}
    rates = {row["name"]: row for row in found["families"]}
    assert found["overall_test"] == alone["overall_test"], "of the species with most eggs"
    assert {row["shrunk"]["rate"] for name, row in rates.items() if name in ALIKE} == {0.625}
    assert rates["Sedge"]["shrunk"]["rate"] > 0.8 > rates["Mere"]["shrunk"]["rate"]
    assert rates["Sedge"]["best_probability"] + rates["Mere"]["best_probability"] == pytest.approx(1)
    mixed = [pair for pair in found["pairs"] if (names[pair["a"]] in ducks) != (names[pair["b"]] in ducks)]
    assert (len(found["pairs"]), mixed) == (11, [])
    hens, of_ducks = found["verdict"].split(" Duck: ")
    assert hens.startswith("Chicken: These eggs do not separate the families.")
    assert "hatched differently: fewest of Mere's" in of_ducks
    assert not any(name in hens for name in ducks)
    assert not any(name in of_ducks for name in ALIKE)
