"""Rates against an oracle that makes every egg an object, against published hatch counts, and by hand."""

from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.book.moments import moment_ms
from broodline.book.stages import ALLOWED, STAGES
from broodline.reports.rates import Outcome, lot_outcome, setting_outcome, sum_of
from broodline.trade.proportions import rate_of
from tests.book_writer import START, BookWriter
from tests.server.oracles.eggs_one_by_one import Nest

LATE_MS = moment_ms("2027-01-01T00:00:00Z")
HOUR_MS = 3_600_000
WAYS = sorted(ALLOWED)


def written(n: int, *steps: tuple[Any, ...], lots: int = 1) -> tuple[BookWriter, str, list[str]]:
    """A book with one setting of `lots` lots of n eggs each, and steps on the first: (source, target, n) or a look."""
    book = BookWriter()
    family, place = book.family("Rowan"), book.incubator()
    names = [book.lot() for _ in range(lots)]
    setting = book.set_eggs(place, [(name, family, n) for name in names])
    for step in steps:
        if step[0] == "look":
            book.look(setting, names[0], live=step[2], day=step[1])
        else:
            book.move(names[0], step[0], step[1], step[2])
    return book, setting, names


def outcomes(book: BookWriter, setting: str, now_ms: int = LATE_MS) -> tuple[dict[str, Outcome], Outcome]:
    standing = fold(book.entries())
    found = standing.settings[setting]
    lots = [standing.lots[name] for name in found.lots]
    return {lot.id: lot_outcome(lot, found, now_ms) for lot in lots}, setting_outcome(found, lots, now_ms)


def pairs(outcome: Outcome) -> dict[str, tuple[int, int]]:
    return {
        name: (getattr(outcome, name).k, getattr(outcome, name).n)
        for name in ("fertility", "hatch_of_set", "hatch_of_fertile", "alive_7d")
    }


@st.composite
def stories(draw: st.DrawFn) -> tuple[Nest, list[tuple[Any, ...]], int]:
    """A true story of a lot: legal moves of eggs that are there, looks, and a moment to ask."""
    nest = Nest(draw(st.integers(1, 12)))
    steps: list[tuple[Any, ...]] = []
    hours = 0
    for _ in range(draw(st.integers(0, 25))):
        hours += draw(st.integers(0, 60))
        open_ways = [way for way in WAYS if nest.movable(*way)]
        if draw(st.integers(0, 6)) == 0:
            day, live = draw(st.integers(3, 6)), draw(st.integers(0, nest.n))
            nest.look(day, live)
            steps.append(("look", day, live))
        elif open_ways:
            source, target = draw(st.sampled_from(open_ways))
            n = draw(st.integers(1, len(nest.movable(source, target))))
            for _ in range(n):
                nest.move(hours * HOUR_MS, source, target)
            steps.append((source, target, n, hours))
    return nest, steps, draw(st.integers(0, 2000))


@settings(max_examples=200)
@given(stories())
def test_rates_are_those_of_eggs_told_one_by_one(story: tuple[Nest, list[tuple[Any, ...]], int]) -> None:
    nest, steps, asked = story
    book = BookWriter()
    family, place, lot = book.family("Rowan"), book.incubator(), book.lot()
    setting = book.set_eggs(place, [(lot, family, nest.n)])
    for step in steps:
        if step[0] == "look":
            book.look(setting, lot, day=step[1], live=step[2])
        else:
            book.move(lot, step[0], step[1], step[2], at=START + timedelta(hours=step[3]))
    start_ms = moment_ms("2026-03-01T08:00:00Z")
    each, whole = outcomes(book, setting, start_ms + asked * HOUR_MS)
    expected = nest.rates(asked * HOUR_MS)
    assert pairs(each[lot]) == expected
    assert pairs(whole) == expected
    assert each[lot].sound
    assert sum(whole.deaths.values()) == sum(
        egg.stage.startswith("dead_") or egg.stage in ("blood_ring", "quitter", "unhatched") for egg in nest.eggs
    )


@pytest.mark.parametrize(
    ("eggs", "fertile", "hatched", "fertility", "of_fertile", "of_set"),
    [
        (861, 736, 433, 85.5, 58.8, 50.3),
        (955, 836, 657, 87.5, 78.6, 68.8),
        (10, 5, 3, 50.0, 60.0, 30.0),
        (26, 14, 13, 53.8, 92.9, 50.0),
        (150, 112, 96, 74.7, 85.7, 64.0),
    ],
)
def test_published_counts_through_a_whole_book(
    eggs: int, fertile: int, hatched: int, fertility: float, of_fertile: float, of_set: float
) -> None:
    """Kenyan crosses (Trop. Agric. 79(1)); pheasants 1936, 1940; red-legged partridge (counts inferred)."""
    steps = [("set", "clear", eggs - fertile), ("set", "locked", fertile), ("locked", "hatched", hatched)]
    book, setting, names = written(eggs, *steps, ("locked", "unhatched", fertile - hatched))
    found = outcomes(book, setting)[0][names[0]]
    shown = [found.fertility.rate, found.hatch_of_fertile.rate, found.hatch_of_set.rate]
    assert [100 * (rate or 0) for rate in shown] == pytest.approx([fertility, of_fertile, of_set], abs=0.1)
    assert found.fertility.basis == "candled"


def test_deaths_by_class_close_with_the_hatch() -> None:
    """Siruvidai (IJCMAS 2020;9(8):1893), % of fertile: 95.28 hatched, early 2.57, mid 0.84, late 1.31."""
    steps = [("set", "locked", 10_000), ("locked", "hatched", 9528), ("locked", "unhatched", 472)]
    opened = [("unhatched", "dead_early", 257), ("unhatched", "dead_mid", 84), ("unhatched", "dead_late", 131)]
    book, setting, _ = written(10_000, *steps, *opened)
    whole = outcomes(book, setting)[1]
    assert whole.hatch_of_fertile.rate == pytest.approx(0.9528, abs=1e-9)
    assert whole.hatch_of_fertile.basis == "opened"
    assert sum(whole.deaths.values()) == 472
    assert whole.hatch_of_fertile.k + sum(whole.deaths.values()) == whole.hatch_of_fertile.n


def test_nothing_fertile_gives_no_rate_instead_of_nought() -> None:
    book, setting, names = written(6, ("set", "clear", 6))
    found = outcomes(book, setting)[0][names[0]]
    assert (found.fertility.k, found.fertility.n, found.fertility.rate) == (0, 6, 0.0)
    assert found.hatch_of_fertile == rate_of(0, 0)


def test_rates_wait_while_eggs_rest_that_nobody_looked_into() -> None:
    book, setting, names = written(12)
    found = outcomes(book, setting)[0][names[0]]
    assert pairs(found) == {
        "fertility": (0, 0), "hatch_of_set": (0, 12), "hatch_of_fertile": (0, 0), "alive_7d": (0, 0)
    }  # fmt: skip
    assert found.hatch_of_set.so_far
    assert found.fertility.basis is None


def test_lot_never_candled_waits_for_the_opening() -> None:
    hatching = [("set", "locked", 12), ("locked", "hatched", 7), ("locked", "unhatched", 5)]
    book, setting, names = written(12, *hatching)
    assert pairs(outcomes(book, setting)[0][names[0]])["fertility"] == (0, 0)
    book.move(names[0], "unhatched", "infertile", 3)
    book.move(names[0], "unhatched", "dead_late", 2)
    found = outcomes(book, setting)[0][names[0]]
    assert pairs(found)["fertility"] == (9, 12)
    assert found.fertility.basis == "opened"


def test_unsure_eggs_are_not_examined() -> None:
    book, setting, names = written(12, ("set", "clear", 2))
    book.look(setting, names[0], day=7, live=8, unsure=2)
    assert pairs(outcomes(book, setting)[0][names[0]])["fertility"] == (8, 10)
    book.look(setting, names[0], day=10, live=9)
    assert pairs(outcomes(book, setting)[0][names[0]])["fertility"] == (9, 11)


def test_missing_chicks_stay_hatched_and_lost_eggs_do_not() -> None:
    steps = [("set", "locked", 11), ("set", "unaccounted", 1), ("look", 7, 0), ("locked", "hatched", 11)]
    book, setting, names = written(12, *steps, ("hatched", "unaccounted", 2))
    found = outcomes(book, setting)[0][names[0]]
    assert pairs(found)["hatch_of_set"] == (11, 12)
    assert pairs(found)["fertility"] == (11, 11)
    assert pairs(found)["alive_7d"] == (9, 11)


def test_unknown_stage_counts_as_missing() -> None:
    book, setting, names = written(12, ("set", "clear", 2), ("set", "locked", 9), ("set", "fledged", 1))
    assert pairs(outcomes(book, setting)[0][names[0]])["fertility"] == (9, 11)


def test_below_zero_keeps_counts_and_gives_no_rate() -> None:
    book, setting, names = written(12, ("set", "clear", 50), lots=2)
    each, whole = outcomes(book, setting)
    bad = each[names[0]]
    assert not bad.sound
    assert (bad.hatch_of_set.k, bad.hatch_of_set.n, bad.hatch_of_set.rate) == (0, 12, None)
    assert bad.fertility.rate is None
    assert not whole.sound
    assert sum_of([bad.hatch_of_set, rate_of(3, 4)]) == rate_of(3, 4)


def test_order_of_clocks_never_makes_a_book_unsound() -> None:
    book, setting, names = written(5)
    book.move(names[0], "hatched", "died", 1, at=START + timedelta(days=1))
    book.move(names[0], "set", "hatched", 5, at=START + timedelta(days=21))
    found = outcomes(book, setting)[0][names[0]]
    assert found.sound
    assert pairs(found)["alive_7d"] == (4, 5)


def among(book: BookWriter, names: list[str], source: str, target: str, n: int) -> str:
    return book.write("moved", {"moves": [{"among": names, "from": source, "to": target, "n": n}]})


def test_move_among_lots_counts_in_the_setting_and_stands_beside_its_lots() -> None:
    book, setting, names = written(10, ("set", "clear", 2), ("set", "locked", 8), lots=2)
    book.move(names[1], "set", "clear", 1)
    book.move(names[1], "set", "locked", 9)
    among(book, names, "locked", "hatched", 5)
    each, whole = outcomes(book, setting)
    assert pairs(whole) == {
        "fertility": (17, 20), "hatch_of_set": (5, 20), "hatch_of_fertile": (5, 17), "alive_7d": (5, 5)
    }  # fmt: skip
    assert whole.hatch_of_set.open == 0
    for name in names:
        assert each[name].hatch_of_set.open == 5
        assert each[name].hatch_of_set.k == 0
        assert each[name].hatch_of_fertile.open == 5
        assert each[name].fertility.open == 0
        assert each[name].alive_7d.open == 5


def test_clears_of_unknown_family_take_the_unseen_eggs_first() -> None:
    book, setting, names = written(10, lots=2)
    for name in names:
        book.look(setting, name, day=7, live=9, unsure=1)
    among(book, names, "set", "clear", 2)
    each, whole = outcomes(book, setting)
    assert pairs(whole)["fertility"] == (18, 20)
    assert pairs(each[names[0]])["fertility"] == (9, 9)
    assert each[names[0]].fertility.open == 2


def test_move_among_lots_stays_open_until_each_of_them_was_looked_into() -> None:
    book, setting, names = written(10, ("set", "clear", 2), ("set", "locked", 8), lots=2)
    among(book, names, "set", "clear", 3)
    whole = outcomes(book, setting)[1]
    assert pairs(whole)["fertility"] == (8, 10)
    assert whole.fertility.open == 3


def test_missing_chicks_of_unknown_family_stay_hatched_in_the_setting() -> None:
    book, setting, names = written(5, ("set", "hatched", 5), lots=2)
    book.move(names[1], "set", "hatched", 5)
    among(book, names, "hatched", "unaccounted", 2)
    each, whole = outcomes(book, setting)
    assert pairs(whole)["hatch_of_set"] == (10, 10)
    assert each[names[0]].hatch_of_set.open == 0


def test_deaths_of_unknown_family_count_in_the_first_week_of_the_setting() -> None:
    """Two lots of five chicks; two die on day 3 and nobody knows whose: 8 of the 10 are alive at seven days."""
    book, setting, names = written(5, ("set", "hatched", 5), lots=2)
    book.move(names[1], "set", "hatched", 5)
    among(book, names, "hatched", "died", 2)
    each, whole = outcomes(book, setting)
    assert pairs(whole)["alive_7d"] == (8, 10)
    assert [pairs(each[name])["alive_7d"] for name in names] == [(5, 5), (5, 5)]
    assert {each[name].alive_7d.open for name in names} == {2}


def test_bases_mix_in_a_sum() -> None:
    opened = [("set", "clear", 3), ("set", "hatched", 9), ("clear", "infertile", 2), ("clear", "dead_early", 1)]
    book, setting, names = written(12, *opened, lots=2)
    book.move(names[1], "set", "clear", 4)
    book.move(names[1], "set", "hatched", 8)
    each, whole = outcomes(book, setting)
    assert [each[name].fertility.basis for name in names] == ["opened", "candled"]
    assert whole.fertility.basis == "mixed"
    assert sum_of(each[name].fertility for name in names).basis == "mixed"
    assert sum_of([]) == rate_of(0, 0)


def test_every_stage_is_judged_one_way() -> None:
    """An egg in each stage: what counts as hatched, examined and fertile, from the contract's own list."""
    hatched = {"hatched", "brooding", "growing", "flock", "died", "culled", "parted"}
    dropped = {"cracked", "rotten", "taken", "unaccounted"}
    for stage in STAGES:
        if stage == "set":
            continue
        book, setting, names = written(2, ("look", 7, 0), ("set", "locked", 1), ("set", stage, 1))
        found = pairs(outcomes(book, setting)[0][names[0]])
        assert found["hatch_of_set"] == (int(stage in hatched), 2), stage
        examined = 2 - (stage in dropped)
        assert found["fertility"] == (examined - (stage in ("clear", "infertile")), examined), stage
