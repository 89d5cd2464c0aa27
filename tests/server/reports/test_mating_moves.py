"""Pens that follow the year's moves of males: whose cocks go where, what is said where that cannot be."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from broodline.reports.matings import Wishes, matings_report, wished
from broodline.reports.matings_sheet import matings_sheet
from broodline.trade.rotation import forecast, serving, usual_jumps
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 9, 1, tzinfo=UTC)
YEAR = 2027
NAMES = ("Alder", "Birch", "Hazel", "Rowan")


def four_families(cocks: int = 2, hens: tuple[int, ...] = (3, 1, 2, 4)) -> tuple[PenBook, dict[str, str]]:
    """Birds of four families, unrelated; the families by name."""
    book = PenBook()
    families = {name: book.family(name) for name in NAMES[:3]} | {"Rowan": book.rowan}
    for (name, family), n in zip(families.items(), hens, strict=True):
        for sex, many in (("male", cocks), ("female", n)):
            for number in range(many):
                book.bird(sex, family=family, name=f"{name} {sex} {number}")
    return book, families


def plan(book: PenBook, **wishes: Any) -> dict[str, Any]:
    return matings_report(book.standing(), Wishes(**wishes), NOW)


def served(report: dict[str, Any]) -> dict[str, set[str]]:
    """Family of a pen's hens -> families of its cocks, by the first word of the birds' names."""
    found: dict[str, set[str]] = {}
    for pen in report["pens"]:
        (home,) = {pen["labels"][hen].split()[0] for hen in pen["dams"]}
        found.setdefault(home, set()).update(pen["labels"][cock].split()[0] for cock in pen["sires"])
    return found


def by_the_rule() -> dict[str, set[str]]:
    """Four families jump 1, 2 in turn (the rule table of trade/rotation, held to its recursion there)."""
    jumps = usual_jumps(4)
    sources = serving(4, jumps[YEAR % len(jumps)])
    return {NAMES[at]: {NAMES[source]} for at, source in enumerate(sources)}


def test_the_pens_are_the_moves() -> None:
    book, families = four_families()
    report = plan(book)
    assert served(report) == by_the_rule()
    assert {pen["family"]: pen["labels"][pen["dams"][0]].split()[0] for pen in report["pens"]} == {
        family: name for name, family in families.items()
    }
    cock = {home: pen["labels"][pen["sires"][0]] for pen in report["pens"]
            for home in [pen["labels"][pen["dams"][0]].split()[0]]}  # fmt: skip
    told = {f"{giver}'s cock {cock[home]} goes to {home}." for home, (giver,) in by_the_rule().items()}
    assert set(report["rotation"]["moves"]) == told
    assert report["rotation"]["followed"]
    assert report["rotation"]["words"].startswith("The pens follow these moves. Chicks keep their mother's family.")
    # All ten hens have a place, in pens of unequal size; the forecast counts one cock and 10 / 4 hens, rounded.
    assert sorted(len(pen["dams"]) for pen in report["pens"]) == [1, 2, 3, 4]
    curve = forecast(families=4, cocks=1, hens=2, jumps=usual_jumps(4), generations=20)
    assert report["rotation"]["forecast"] == curve


@pytest.mark.parametrize(
    ("starts", "of_2027"),
    [
        (1, ["2026-07-01", "2026-12-30", "2027-01-03", "2027-06-30"]),
        (7, ["2027-01-01", "2027-06-30", "2027-07-01", "2027-12-31"]),
        (10, ["2027-04-01", "2027-09-30", "2027-10-01", "2028-03-31"]),
    ],
)
def test_moves_stay_while_pens_are_put_together(starts: int, of_2027: list[str]) -> None:
    """Half a year before a season starts until half a year after; the day before and the day after are of others."""
    book, _ = four_families()
    book.keeper(season_starts=starts)
    standing, by_rule = book.standing(), by_the_rule()
    first, last = date.fromisoformat(of_2027[0]), date.fromisoformat(of_2027[-1])
    for day in [first - timedelta(days=1), *map(date.fromisoformat, of_2027), last + timedelta(days=1)]:
        report = matings_report(standing, Wishes(), datetime(day.year, day.month, day.day, 9, tzinfo=UTC))
        assert report["season"] == (2026 if day < first else 2028 if day > last else 2027)
        assert f"These are the moves of season {report['season']}." in report["rotation"]["words"]
        assert (served(report) == by_rule) == (report["season"] == 2027)


def test_the_season_is_that_of_the_keepers_clock() -> None:
    book, _ = four_families()
    book.keeper(zone="Australia/Sydney", season_starts=1)
    late = datetime(2026, 6, 30, 20, tzinfo=UTC)
    assert matings_report(book.standing(), Wishes(), late)["season"] == 2027
    assert matings_sheet(book.standing(), Wishes(), late)["year"] == 2027


def test_birds_that_are_not_in_the_plan_do_not_better_the_forecast() -> None:
    few, many = (plan(four_families(cocks)[0])["rotation"] for cocks in (1, 8))
    assert few["forecast"] == many["forecast"]
    assert few["one_each"] == many["one_each"]
    # Where no plan can be made, those that stand in pens count: none of the eight spare cocks does.
    book, families = four_families(8)
    book.write("penned", {"family": families["Alder"], "since": "2026-01-01",
                          "sires": [{"bird": plan(book)["pens"][0]["sires"][0]}],
                          "dams": [{"bird": plan(book)["pens"][0]["dams"][0]}]})  # fmt: skip
    none = plan(book, pens=40)
    assert "infeasible" in none
    assert none["rotation"]["one_each"]["random_pct"] == pytest.approx(25)


def test_a_family_without_a_cock_gets_one_of_another_and_it_is_said() -> None:
    book, families = four_families()
    (home,) = (home for home, (giver,) in by_the_rule().items() if giver == "Birch")
    for bird in plan(book)["birds"]:
        if bird["family"] == families["Birch"] and bird["sex"] == "male":
            book.write("left", {"bird": bird["bird"], "on": "2026-06-01", "how": "died"})
    report = plan(book)
    found = served(report)
    (giver,) = found.pop(home)
    assert giver not in {home, "Birch"}
    assert found == {name: of for name, of in by_the_rule().items() if name != home}
    (cock,) = (pen["labels"][pen["sires"][0]] for pen in report["pens"] if pen["family"] == families.get(home))
    told = f"Birch has no cock here to give: {giver}'s cock {cock} goes to {home} this year."
    assert told in report["rotation"]["moves"]
    assert not any(move.startswith("Birch's") for move in report["rotation"]["moves"])
    assert report["rotation"]["followed"]


def test_the_bird_that_moves_is_named_as_what_it_is() -> None:
    """Two cockerels of one family and an old cock of the other: nobody sends a cockerel that is none."""
    book = PenBook()
    hazel = book.family("Hazel")
    for number in (1, 2):
        book.bird("male", family=book.rowan, name=f"Young {number}", hatched_on="2026-03-01")
    book.bird("male", family=hazel, name="Old", hatched_on="2024-03-01")
    book.bird("male", family=hazel, name="Older", hatched_on="2023-03-01")
    for family in (book.rowan, hazel):
        book.bird("female", family=family, hatched_on="2025-03-01")
    assert plan(book, cocks=2, moves=True)["rotation"]["moves"] == [
        "Rowan's cockerels Young 1 and Young 2 go to Hazel.",
        "Hazel's cocks Old and Older go to Rowan.",
    ]


def test_moves_that_cannot_be_followed_say_why() -> None:
    """One cock left of four families: two pens at most, and no plan by the moves."""
    book, _ = four_families(cocks=1)
    birds = [bird for bird in plan(book)["birds"] if bird["sex"] == "male"]
    for bird in birds[1:]:
        book.write("left", {"bird": bird["bird"], "on": "2026-06-01", "how": "sold"})
    report = plan(book)
    assert [pen["family"] for pen in report["pens"]] == [None], "its hens are of several"
    assert not report["rotation"]["followed"]
    why = "do not follow these moves, since no plan does: 4 pens of 1 need 4 cocks; there are 1."
    assert report["rotation"]["words"].startswith(f"The pens put together the least kin and {why}")
    assert "Chicks of a pen with hens of several families are of no one family." in report["rotation"]["words"]
    insisted = plan(book, moves=True)
    assert insisted["infeasible"]["relax"][-1] == "Do not ask for pens that follow the moves of males."


def test_pens_asked_for_otherwise_do_not_pretend_to_follow() -> None:
    book, _ = four_families()
    for wishes in ({"pens": 2, "hens": 5}, {"moves": False}):
        words = plan(book, **wishes)["rotation"]["words"]
        assert words.startswith("The pens put together the least kin and do not follow these moves: do the one or the ")
    assert served(plan(book, moves=True, pens=5)) == by_the_rule()
    assert served(plan(book, moves=True, hens=2)) == by_the_rule()
    told = [wished({"moves": value}) for value in ("1", "0", "", "x")]
    assert [one and one.moves for one in told] == [True, False, None, None]


def test_the_least_kin_of_all_families_mixed_stands_beside_the_moves() -> None:
    """Rowan's cocks go to Hazel by the rule; here they are full brothers of Hazel's hens."""
    book = PenBook()
    hazel = book.family("Hazel")
    parents = [{"sires": [{"bird": book.bird("male", breed="Fen Buff")}],
                "dams": [{"bird": book.bird("female", breed="Fen Buff")}]} for _ in range(3)]  # fmt: skip
    for family, sex, pair in (
        (book.rowan, "male", 0),
        (book.rowan, "female", 1),
        (hazel, "male", 2),
        (hazel, "female", 0),
    ):
        book.bird(sex, family=family, **parents[pair])
    report = plan(book, breed="Marsh Speckle")
    assert report["mean_F"] == 0.125
    assert report["compared_with"]["mixed"] == 0
    assert plan(book, moves=False, breed="Marsh Speckle")["compared_with"]["mixed"] is None


def test_hens_of_no_family_are_left_out_of_the_moves() -> None:
    book, _ = four_families()
    stray = book.bird("female", name="Stray hen", breed="Marsh Speckle")
    pens = plan(book)["pens"]
    assert stray not in {hen for pen in pens for hen in pen["dams"]}
    assert len(pens) == 4


def test_a_hen_that_is_to_be_used_is_not_left_out_of_the_moves_in_silence() -> None:
    book, _ = four_families()
    stray = book.bird("female", name="Stray hen", breed="Marsh Speckle")
    cock = next(bird["bird"] for bird in plan(book)["birds"] if bird["sex"] == "male")
    why = "Stray hen is of no family that takes part in the moves of males."
    for wish in ({"must": frozenset({stray})}, {"together": frozenset({(cock, stray)})}):
        report = plan(book, **wish)
        assert stray in {hen for pen in report["pens"] for hen in pen["dams"]}
        assert why in report["rotation"]["words"]
        assert plan(book, moves=True, **wish)["infeasible"]["relax"][0] == why


def test_pairs_named_by_the_keeper_hold_in_the_moves_too() -> None:
    book, _ = four_families()
    free = plan(book)["pens"][0]
    cock, hen = free["sires"][0], free["dams"][0]
    without = plan(book, never=frozenset({(cock, hen)}))
    assert (cock, hen) not in {(sire, dam) for pen in without["pens"] for sire in pen["sires"] for dam in pen["dams"]}
    assert served(without) == by_the_rule()
    brother = next(
        one["bird"]
        for one in plan(book)["birds"]
        if one["sex"] == "male" and one["bird"] != cock and one["label"].split()[0] == free["labels"][cock].split()[0]
    )
    asked = plan(book, together=frozenset({(brother, hen)}))
    assert any(brother in pen["sires"] and hen in pen["dams"] for pen in asked["pens"])
    assert served(asked) == by_the_rule()
