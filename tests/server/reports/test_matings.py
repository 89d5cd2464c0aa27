"""Pens for next season through a book: the shape, the limits, what is ruled out, what to relax, moves of males."""

from datetime import UTC, datetime
from typing import Any

import pytest

from broodline.reports.matings import Wishes, matings_report, wished
from broodline.trade.rolling import rolling_forecast
from broodline.trade.rotation import forecast, pooled_forecast
from tests.server.reports.pen_book import PenBook

NOW = datetime(2026, 9, 1, tzinfo=UTC)


def two_families() -> tuple[PenBook, dict[str, str]]:
    """Rowan and Hazel: an old pair each, and a cockerel and a pullet of each pair."""
    book = PenBook()
    birds = {}
    for name, family in (("rowan", book.rowan), ("hazel", book.family("Hazel"))):
        cock, hen = (book.bird(sex, family=family, name=f"{name} {sex}") for sex in ("male", "female"))
        parents = {"sires": [{"bird": cock}], "dams": [{"bird": hen}]}
        birds[f"{name} cock"], birds[f"{name} hen"] = cock, hen
        birds[f"{name} son"] = book.bird("male", family=family, name=f"{name} son", **parents)
        birds[f"{name} daughter"] = book.bird("female", family=family, name=f"{name} daughter", **parents)
    return book, birds


def plan(book: PenBook, **wishes: Any) -> dict[str, Any]:
    return matings_report(book.standing(), Wishes(**wishes), NOW)


def meetings(report: dict[str, Any]) -> set[tuple[str, str]]:
    return {(sire, dam) for pen in report["pens"] for sire in pen["sires"] for dam in pen["dams"]}


def test_the_plan_in_its_shape_avoids_kin() -> None:
    book, birds = two_families()
    report = plan(book, pens=2, hens=2)
    assert {"pens", "mean_F", "compared_with", "rotation"} <= set(report)
    assert "infeasible" not in report
    assert [len(pen["dams"]) for pen in report["pens"]] == [2, 2]
    # The old birds' forebears are not known: that is not the same as no inbreeding.
    assert (report["mean_F"], report["not_known"]["plan"]) == (None, {"n": 4, "of": 4})
    assert all((pen["mean_F"], pen["worst_F"], pen["p_over"]) == (None, 0, None) for pen in report["pens"])
    # Of 16 matings 6 are of kin by a quarter (parent and chick, brother and sister); the worst plan takes only such.
    # Of two more (a son with the other pair's daughter) it is known that they are not; of the other 8 nothing is.
    assert report["compared_with"]["random"] == pytest.approx(6 * 0.25 / 8)
    assert report["not_known"]["matings"] == {"n": 8, "of": 16}
    assert report["compared_with"]["worst"] == pytest.approx(0.25)
    assert report["proved"]
    cell = next(one for one in report["table"] if (one["sire"], one["dam"]) == (birds["rowan son"], birds["rowan hen"]))
    assert (cell["F"], cell["low"], cell["high"], cell["p_over"], cell["known"]) == (0.25, 0.25, 0.25, 1.0, False)


def test_cocks_in_each_pen_and_birds_that_must_breed() -> None:
    book, birds = two_families()
    report = plan(book, pens=1, hens=1, cocks=2, must=frozenset({birds["rowan son"], birds["hazel hen"]}))
    (pen,) = report["pens"]
    assert (len(pen["sires"]), pen["dams"]) == (2, [birds["hazel hen"]])
    assert birds["rowan son"] in pen["sires"]
    assert pen["worst_F"] == 0


def test_families_apart() -> None:
    book, birds = two_families()
    assert {one["ruled_out"] for one in plan(book)["table"]} == {False}
    apart = plan(book, pens=2, hens=2, apart=True)
    hens = [
        sorted((birds["rowan hen"], birds["rowan daughter"])),
        sorted((birds["hazel hen"], birds["hazel daughter"])),
    ]
    assert sorted(sorted(pen["dams"]) for pen in apart["pens"]) == sorted(hens)
    assert [pen["worst_F"] for pen in apart["pens"]] == [0, 0]
    both = frozenset({birds["rowan hen"], birds["hazel hen"]})
    assert plan(book, pens=1, hens=3, must=both, apart=True)["infeasible"]["relax"] == [
        "Let hens of several families share a pen.",
        "Do not insist on all of those hens.",
    ]


def test_what_the_keeper_never_pairs() -> None:
    """Either way round, and however it is written."""
    book = PenBook()
    book.write("keeper", {"holding": "Gorse Bank", "zone": "UTC", "temperature": "C", "mass": "g",
                          "never_pair": [["crest", "Short legs", "a quarter dies in the shell"]]})  # fmt: skip
    cocks = [book.bird("male", carries=["Crest"]), book.bird("male", carries=["short legs "]), book.bird("male")]
    hens = [book.bird("female", carries=["short legs"]), book.bird("female", carries=["crest"])]
    report = plan(book, pens=2, hens=1)
    assert {(one["sire"], one["dam"]) for one in report["table"] if one["ruled_out"]} == {
        (cocks[0], hens[0]), (cocks[1], hens[1]),
    }  # fmt: skip
    assert not meetings(report) & {(cocks[0], hens[0]), (cocks[1], hens[1])}


def test_two_birds_that_the_keeper_never_pairs_by_their_ids() -> None:
    book, birds = two_families()
    book.write("keeper", {"holding": "Gorse Bank", "zone": "UTC", "temperature": "C", "mass": "g",
                          "never_pair": [[birds["hazel hen"], birds["rowan cock"], "she pecks him"]]})  # fmt: skip
    report = plan(book, pens=2, hens=2)
    (row,) = (one for one in report["table"] if one["ruled_out"])
    assert (row["sire"], row["dam"]) == (birds["rowan cock"], birds["hazel hen"])
    assert row["why"] == ["Never pair hazel female and rowan male: she pecks him."]
    assert (birds["rowan cock"], birds["hazel hen"]) not in meetings(report)


def test_pairs_ruled_out_and_asked_for_in_one_plan() -> None:
    """By id or by name, either way round; the pair asked for is of kin, so that no plan would have it by itself."""
    book, birds = two_families()
    free = meetings(plan(book, pens=2, hens=2))
    kin = (birds["rowan cock"], birds["rowan daughter"])
    assert kin not in free
    asked = plan(book, pens=2, hens=2, together=frozenset({("Rowan Daughter", birds["rowan cock"])}))
    assert kin in meetings(asked)
    one = sorted(free)[0]
    without = plan(book, pens=2, hens=2, never=frozenset({one}))
    assert one not in meetings(without)
    assert [row["why"] for row in without["table"] if row["ruled_out"]] == [["Ruled out in this plan."]]
    both = plan(book, pens=2, hens=2, together=frozenset({kin}), never=frozenset({kin}))
    assert "Do not insist on all of those pairs." in both["infeasible"]["relax"]


def test_birds_that_are_not_there_are_told_and_the_plan_still_made() -> None:
    book, _ = two_families()
    book.bird("male", family=book.rowan, name="rowan son")
    report = plan(
        book,
        pens=2,
        hens=2,
        must=frozenset({"nobody", "rowan son"}),
        never=frozenset({("rowan hen", "rowan daughter"), ("rowan female", "rowan daughter")}),
    )
    assert report["pens"]
    assert [one["message"] for one in report["problems"]] == [
        "rowan female and rowan daughter are not a cock and a hen.",
        "No bird to pair is called rowan hen.",
        "No bird to pair is called nobody.",
        "2 birds to pair are called rowan son.",
    ]


def test_only_living_sexed_birds_kept_here_of_one_breed() -> None:
    book, birds = two_families()
    book.write("left", {"bird": birds["rowan cock"], "on": "2026-06-01", "how": "died"})
    book.write("left", {"bird": birds["rowan hen"], "on": "2026-06-01", "how": "lent"})
    stranger = [book.bird("male", breed="Fen Buff"), book.bird("female", breed="Fen Buff")]
    book.bird("unknown", family=book.rowan)
    report = plan(book)
    named = {bird for one in report["table"] for bird in (one["sire"], one["dam"])}
    assert named == set(birds.values()) - {birds["rowan cock"], birds["rowan hen"]}
    other = plan(book, breed="Fen Buff")
    assert meetings(other) == {(stranger[0], stranger[1])}
    assert report["notes"][0] == "2 birds of another breed (Fen Buff) are left out here."
    assert other["notes"][0] == "6 birds of another breed (Marsh Speckle) are left out here."


def test_a_plan_that_cannot_be_says_what_to_relax() -> None:
    book, _ = two_families()
    report = plan(book, pens=5, hens=1)
    assert report["pens"] == []
    assert report["infeasible"]["relax"] == ["5 pens of 1 need 5 cocks; there are 4."]
    empty = PenBook()
    assert plan(empty)["infeasible"]["relax"] == ["There is no cock here: borrow one, or keep one back."]
    empty.birds("male", 1)
    assert plan(empty)["infeasible"]["relax"] == ["There is no hen here: borrow one, or keep one back."]


def test_an_uncertain_mating_shows_its_chance_over_the_limit() -> None:
    book = PenBook()
    cocks, hen = book.birds("male", 2), book.bird("female", family=book.rowan)
    daughter = book.bird("female", family=book.rowan, sires=[{"bird": one} for one in cocks], dams=[{"bird": hen}])
    book.write("left", {"bird": hen, "on": "2026-06-01", "how": "died"})
    (pen,) = plan(book, pens=1, hens=1)["pens"]
    assert pen["dams"] == [daughter]
    assert (pen["mean_F"], pen["worst_F"], pen["p_over"], pen["known"]) == (0.125, 0.25, 0.5, False)


def test_moves_of_males() -> None:
    book, _ = two_families()
    rotation = plan(book, pens=2, cocks=2)["rotation"]
    assert rotation["scheme"] == "swap"
    assert rotation["next_year"] == ["Rowan's cockerels go to Hazel.", "Hazel's cockerels go to Rowan."]
    assert rotation["forecast"] == forecast(families=2, cocks=2, hens=2, jumps=(1,), generations=20)
    for name in ("Sedge", "Teasel"):
        book.bird("female", family=book.family(name))
    four = plan(book)["rotation"]
    assert four["scheme"] == "circle, 1, 2 on in turn"
    assert four["moves"] != four["next_year"]
    alone = PenBook()
    alone.birds("male", 1)
    assert plan(alone)["rotation"]["moves"] == []


@pytest.mark.parametrize("odd", ["0", "1001", "two", "-1", "1.5", "9" * 5000, "\u0663"])
def test_wishes_that_are_no_numbers(odd: str) -> None:
    assert wished({"pens": odd}) is None
    assert wished({"limit": "0"}) is wished({"limit": "51"}) is wished({"limit": "nan"}) is None
    asked = {"pens": "3", "hens": "4", "cocks": "2", "limit": "6.25", "apart": "1", "must": "a,b", "breed": "Fen Buff"}
    assert wished(asked) == Wishes(3, 4, 2, 0.0625, apart=True, must=frozenset({"a", "b"}), breed="Fen Buff")
    assert wished({"pens": "", "hens": "", "limit": ""}) == Wishes(), "nothing is asked for"
    assert wished({"under_limit": "1", "must": ""}) == Wishes(under_limit=True)
    pairs = wished({"must": "a, b:c,", "never": "d:e"})
    assert pairs == Wishes(must=frozenset({"a"}), together=frozenset({("b", "c")}), never=frozenset({("d", "e")}))
    assert wished({"never": "a"}) is None, "one bird alone is no pair"


def test_todays_pens_stand_beside_the_plan_by_their_shares() -> None:
    """The cock with his daughter (F 1/4) and with a strange hen (0), 75 to 25 by their laying."""
    book, birds = two_families()
    stranger = book.bird("female", family=book.rowan)
    book.pen([birds["rowan cock"]], [(birds["rowan daughter"], 0.75), (stranger, 0.25)], "2026-03-01")
    book.pen([birds["hazel cock"]], [birds["hazel hen"]], "2026-01-01", "2026-05-01")
    report = plan(book, pens=2, hens=2)
    (pen,) = report["today"]
    assert (pen["sires"], pen["family"]) == ([birds["rowan cock"]], book.rowan)
    assert (pen["mean_F"], pen["worst_F"], pen["p_over"]) == pytest.approx((0.25, 0.25, 1)), "the stranger is left out"
    assert report["compared_with"]["today"] == pytest.approx(0.25)
    assert report["not_known"]["today"] == {"n": 1, "of": 2}
    assert plan(two_families()[0])["compared_with"]["today"] is None
    assert report["notes"] == ["In each pen of the plan every cock and every hen is taken to count alike."]


def test_what_speaks_against_a_mating_is_said_with_its_reason() -> None:
    book = PenBook()
    book.write("keeper", {"holding": "Gorse Bank", "zone": "UTC", "temperature": "C", "mass": "g",
                          "never_pair": [["crest", "crest", "open skulls"]]})  # fmt: skip
    book.bird("male", carries=["crest"])
    book.bird("male", carries=["creeper"])
    book.bird("female", carries=["creeper", "crest"])
    first, second = sorted(plan(book)["table"], key=lambda row: row["ruled_out"], reverse=True)
    assert (first["ruled_out"], first["why"]) == (True, ["Never pair crest and crest: open skulls."])
    assert not second["ruled_out"]
    assert second["cautions"][0].startswith("Both carry creeper: about 25 % of fertile eggs")


def test_matings_at_or_over_the_limit_are_ruled_out_on_wish() -> None:
    book, birds = two_families()
    book.write("left", {"bird": birds["hazel cock"], "on": "2026-06-01", "how": "died"})
    book.write("left", {"bird": birds["hazel son"], "on": "2026-06-01", "how": "died"})
    only = frozenset({birds["rowan hen"], birds["rowan daughter"]})
    assert plan(book, pens=1, hens=2, must=only)["mean_F"] == 0.25, "of the one hen of whom it is known"
    assert plan(book, pens=2, hens=2, must=only)["mean_F"] > 0
    strict = plan(book, pens=2, hens=2, must=only, under_limit=True)
    assert strict["infeasible"]["relax"] == [
        "Allow some of the matings that are ruled out.",
    ]


def test_of_the_young_birds_only_those_to_keep() -> None:
    """Two sons of one cock, never penned: as many are kept as stand in the pens, one; the old ones stay in."""
    book, birds = two_families()
    book.pen([birds["rowan cock"]], [birds["rowan hen"]], "2026-01-01")
    older, younger = (
        book.bird("male", family=book.rowan, name=name, hatched_on="2026-05-01", sires=[{"bird": birds["rowan cock"]}])
        for name in ("older", "younger")
    )
    all_cocks = {row["sire"] for row in plan(book)["table"]}
    kept_cocks = {row["sire"] for row in plan(book, kept=True)["table"]}
    assert {older, younger, birds["rowan cock"]} <= all_cocks
    assert birds["rowan cock"] in kept_cocks
    assert len(kept_cocks & {older, younger, birds["rowan son"], birds["hazel son"]}) == 1


def test_what_hatched_stands_with_the_birds() -> None:
    """12 eggs of two hens: 10 fertile, 8 hatched, 2 of them helped and 1 weak; each hen stands for half."""
    book = PenBook()
    (cock,), hens = book.birds("male", 1), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07")
    book.move(lot, "set", "clear", 2)
    book.move(lot, "set", "hatched", 5)
    book.move(lot, "set", "hatched", 2, helped=True)
    book.move(lot, "set", "hatched", 1, weak=True)
    book.move(lot, "set", "dead_late", 2)
    chick = book.bird("female", family=book.rowan, lots=[{"lot": lot}])
    told = {one["bird"]: one for one in plan(book)["birds"]}
    whole = {"eggs": 12, "fertile": 10, "hatched": 8, "helped": 2, "weak": 1}
    assert (told[cock]["hatch"], told[cock]["eggs"]) == (None, pytest.approx(whole))
    assert told[hens[0]]["eggs"] == pytest.approx({name: n / 2 for name, n in whole.items()})
    assert (told[chick]["hatch"], told[chick]["eggs"]) == (whole, None)
    # The hens are kin to their chick alone, the cock to a whole half of it: hens stand first.
    assert {one["bird"] for one in plan(book)["birds"][:2]} == set(hens)


def test_rolling_matings_and_closed_families_stand_beside_the_circle() -> None:
    book, _ = two_families()
    rotation = plan(book, pens=2, cocks=2)["rotation"]
    assert rotation["forecast_rolling"] == rolling_forecast(cocks=2, cockerels=2, hens=2, pullets=2, years=20)
    assert rotation["forecast_closed"] == pooled_forecast(cocks=2, hens=2, generations=20)
    # 4 cocks and 4 hens: 1/8/4 + 1/8/4 at random, 3/32/4 + 1/32/4 within families (Gowe, Robertson and Latter 1959).
    one_each = rotation["one_each"]
    assert (one_each["random_pct"], one_each["one_each_pct"]) == pytest.approx((6.25, 3.125))
    assert plan(PenBook())["rotation"]["forecast_rolling"] is None
