"""Candidate parents of a lot, from the pens while its eggs were laid."""

from datetime import date, timedelta
from random import Random

import pytest

from broodline.reports.pens import pens_of
from tests.server.oracles.parents_egg_by_egg import Row, draw_parents
from tests.server.reports.pen_book import PenBook, chances


def test_one_cock_and_four_hens() -> None:
    book = PenBook()
    cock, hens = book.bird("male"), book.birds("female", 4)
    book.pen([cock], hens, "2026-01-01")
    parents = book.parents(book.eggs("2026-04-01", "2026-04-07"))
    assert chances(parents, 0) == {cock: pytest.approx(1.0)}
    assert chances(parents, 1) == {hen: pytest.approx(0.25) for hen in hens}
    assert parents.notes == ()


def test_shares_of_the_pen_stand_and_what_they_leave_is_divided() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 3)
    book.pen([(cocks[0], 0.75), (cocks[1], 0.25)], [(hens[0], 0.5), hens[1], hens[2]], "2026-01-01")
    parents = book.parents(book.eggs("2026-04-01", "2026-04-07"))
    assert chances(parents, 0) == pytest.approx({cocks[0]: 0.75, cocks[1]: 0.25})
    assert chances(parents, 1) == pytest.approx({hens[0]: 0.5, hens[1]: 0.25, hens[2]: 0.25})


@pytest.mark.parametrize(
    ("species", "day", "old"),
    [("chicken", "2026-04-10", 0.5), ("chicken", "2026-04-11", 0.0), ("turkey", "2026-05-20", 0.5)],
)
def test_the_old_cock_stays_a_candidate_for_the_species_overlap(species: str, day: str, old: float) -> None:
    """Chicken 21 days after 20 March is 10 April; turkey 70 days."""
    book = PenBook(species)
    first, second, hen = book.bird("male"), book.bird("male"), book.bird("female")
    book.pen([first], [hen], "2026-01-01", "2026-03-20")
    book.pen([second], [hen], "2026-03-21")
    found = chances(book.parents(book.eggs(day, day)), 0)
    assert found.get(first, 0.0) == old
    assert found[second] == 1 - old


def test_a_species_without_a_figure_keeps_every_earlier_cock() -> None:
    book = PenBook("emu")
    first, second, hen = book.bird("male"), book.bird("male"), book.bird("female")
    book.pen([first], [hen], "2024-01-01", "2024-03-20")
    book.pen([second], [hen], "2026-03-21")
    assert chances(book.parents(book.eggs("2026-04-01", "2026-04-01")), 0) == {first: 0.5, second: 0.5}


def test_an_open_pen_ends_where_the_next_begins() -> None:
    book = PenBook()
    first, second, hen = book.bird("male"), book.bird("male"), book.bird("female")
    book.pen([first], [hen], "2025-01-01")
    book.pen([second], [hen], "2026-01-01")
    assert chances(book.parents(book.eggs("2026-04-01", "2026-04-02")), 0) == {second: pytest.approx(1.0)}


def test_a_bird_got_in() -> None:
    """A visit without a share counts like any cock inside the overlap; with one, by it; later not at all."""
    for share, expected in ((None, 0.5), (0.1, 0.1)):
        book = PenBook()
        cock, stray, hen = book.bird("male"), book.bird("male"), book.bird("female")
        book.pen([cock], [hen], "2026-01-01")
        book.pen([stray if share is None else (stray, share)], [], "2026-03-20", "2026-03-20")
        assert chances(book.parents(book.eggs("2026-04-01", "2026-04-01")), 0) == pytest.approx(
            {cock: 1 - expected, stray: expected}
        )
        assert chances(book.parents(book.eggs("2026-05-01", "2026-05-01")), 0) == {cock: 1.0}
        assert chances(book.parents(book.eggs("2026-03-01", "2026-03-01")), 0) == {cock: 1.0}
        assert pens_of(book.standing()).problems == ()


def test_a_visit_to_another_house_of_the_family_is_none_here() -> None:
    book = PenBook()
    north, south = (book.write("place", {"name": name, "role": "pen"}) for name in ("North", "South"))
    cock, stray, hen, other = book.bird("male"), book.bird("male"), book.bird("female"), book.bird("female")
    book.pen([cock], [hen], "2026-01-01", place=north)
    book.pen([cock], [other], "2026-01-01", place=south)
    book.pen([stray], [], "2026-03-30", place=south)
    found = book.parents(book.eggs("2026-04-01", "2026-04-01"))
    pairs = {(pair.sire, pair.dam): pair.chance for pair in found.pairs}
    assert pairs == {(cock, hen): 0.5, (cock, other): 0.25, (stray, other): 0.25}


def test_a_cock_that_died_is_a_candidate_for_the_overlap_only() -> None:
    book = PenBook()
    cocks, hen = book.birds("male", 2), book.bird("female")
    book.pen(cocks, [hen], "2026-01-01")
    book.write("left", {"bird": cocks[0], "on": "2026-03-01", "how": "died"})
    assert chances(book.parents(book.eggs("2026-03-10", "2026-03-10")), 0) == {cocks[0]: 0.5, cocks[1]: 0.5}
    assert chances(book.parents(book.eggs("2026-04-01", "2026-04-01")), 0) == {cocks[1]: 1.0}


def test_a_dead_hen_lays_no_more() -> None:
    book = PenBook()
    cock, hens = book.bird("male"), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    book.write("left", {"bird": hens[0], "on": "2026-03-31", "how": "died"})
    assert chances(book.parents(book.eggs("2026-04-01", "2026-04-04")), 1) == {hens[1]: pytest.approx(1.0)}


def test_a_lent_cock_is_no_candidate_while_he_is_away_but_for_the_overlap() -> None:
    """Lent on 1 March, back on 10 April: a candidate till 22 March, 21 days on (Lippincott), and again when back."""
    book = PenBook()
    cocks, hen = book.birds("male", 2), book.bird("female")
    book.pen(cocks, [hen], "2026-01-01")
    book.write("left", {"bird": cocks[0], "on": "2026-03-01", "how": "lent"})
    book.write("came", {"bird": cocks[0], "on": "2026-04-10", "how": "returned"})
    both = {cocks[0]: 0.5, cocks[1]: 0.5}
    for day, expected in (
        ("2026-02-27", both),
        ("2026-03-22", both),
        ("2026-03-23", {cocks[1]: 1.0}),
        ("2026-04-09", {cocks[1]: 1.0}),
        ("2026-04-10", both),
    ):
        assert chances(book.parents(book.eggs(day, day)), 0) == expected, day


def test_a_cock_written_into_a_pen_he_never_stood_in() -> None:
    """He was lent before the pen began, and died where he was: no egg of it is his."""
    book = PenBook()
    cocks, hen = book.birds("male", 2), book.bird("female")
    book.write("left", {"bird": cocks[0], "on": "2026-03-20", "how": "lent"})
    book.write("left", {"bird": cocks[0], "on": "2026-03-27", "how": "died"})
    book.pen(cocks, [hen], "2026-03-25")
    assert chances(book.parents(book.eggs("2026-03-26", "2026-03-30")), 0) == {cocks[1]: pytest.approx(1.0)}


def test_a_lent_hen_lays_elsewhere() -> None:
    book = PenBook()
    cock, hens = book.bird("male"), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    book.write("left", {"bird": hens[0], "on": "2026-03-30", "how": "lent"})
    book.write("came", {"bird": hens[0], "on": "2026-04-04", "how": "returned"})
    found = chances(book.parents(book.eggs("2026-03-30", "2026-04-04")), 1)
    # There on the first and the last of six days, and half of each day's eggs is hers.
    assert found == {hens[0]: pytest.approx(1 / 6), hens[1]: pytest.approx(5 / 6)}


def test_hens_named_for_the_lot_outrank_the_pen_and_bring_their_own_cocks() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 2)
    book.pen([cocks[0]], [hens[0]], "2026-01-01")
    other = book.family("Hazel")
    book.pen([cocks[1]], [hens[1]], "2026-01-01", family=other)
    lot = book.eggs("2026-04-01", "2026-04-02", dams=[{"bird": hens[1]}], one_hen=True)
    parents = book.parents(lot)
    assert [(pair.sire, pair.dam) for pair in parents.pairs] == [(cocks[1], hens[1])]
    assert parents.one_hen


def test_without_a_pen_nobody_is_known_and_it_is_said() -> None:
    book = PenBook()
    parents = book.parents(book.eggs())
    assert [tuple(pair) for pair in parents.pairs] == [(None, None, 1.0)]
    assert parents.notes == (
        "No cock is known for 100 % of it; an unrelated one is taken.",
        "No hen is known for 100 % of it; an unrelated one is taken.",
    )


def test_a_cock_that_got_in_where_no_pen_was_written() -> None:
    book = PenBook()
    stray = book.bird("male")
    book.pen([(stray, 0.2)], [], "2026-03-20")
    assert chances(book.parents(book.eggs("2026-04-01", "2026-04-01")), 0) == {stray: 1.0}


def test_eggs_from_elsewhere_have_no_parents_here() -> None:
    book = PenBook()
    book.pen(book.birds("male", 1), book.birds("female", 1), "2026-01-01")
    parents = book.parents(book.eggs("2026-04-01", "2026-04-01", **{"from": {"who": "Aileen"}}))
    assert parents.pairs[0].sire is None
    assert "elsewhere" in parents.notes[0]


def test_shares_that_do_not_sum_to_one_are_said_and_scaled() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 2)
    pen = book.pen([(cocks[0], 0.9), (cocks[1], 0.3)], [(hens[0], 1.0), hens[1]], "2026-01-01")
    found = pens_of(book.standing())
    assert [(one.code, one.entry) for one in found.problems] == [("shares_not_one", pen)]
    assert found.stays[0].sires == pytest.approx({cocks[0]: 0.75, cocks[1]: 0.25})
    assert found.stays[0].dams == pytest.approx({hens[0]: 2 / 3, hens[1]: 1 / 3})


def test_dozens_of_books_egg_by_egg() -> None:
    """4,000 drawn eggs each, a cock lent for a while: within four standard errors (.032) of the shares drawn."""
    chance = Random(11)
    begin = date(2026, 2, 1)
    for _ in range(25):
        book = PenBook()
        cocks, hens = book.birds("male", 3), book.birds("female", 3)
        change = chance.randint(20, 60)
        rows = [
            Row(0, change, tuple(chance.sample(cocks, chance.randint(1, 2))), tuple(chance.sample(hens, 2))),
            Row(change + 1, None, tuple(chance.sample(cocks, chance.randint(1, 2))), tuple(hens)),
        ]
        for row in rows:
            since, until = (
                None if day is None else (begin + timedelta(days=day)).isoformat() for day in (row.first, row.last)
            )
            book.pen(list(row.cocks), list(row.hens), since or "", until)
        left = chance.randint(5, change + 20)
        lent = {cocks[0]: (left, left + chance.randint(1, 60))}
        for day, kind, how in zip(lent[cocks[0]], ("left", "came"), ("lent", "returned"), strict=True):
            on = (begin + timedelta(days=day)).isoformat()
            book.write(kind, {"bird": cocks[0], "on": on, "how": how})
        first = chance.randint(change, change + 30)
        days = range(first, first + chance.randint(1, 9))
        laid = [(begin + timedelta(days=day)).isoformat() for day in (days[0], days[-1])]
        found = {(pair.sire, pair.dam): pair.chance for pair in book.parents(book.eggs(*laid)).pairs}
        assert sum(found.values()) == pytest.approx(1)
        drawn = draw_parents(rows, days, 21, 4000, chance, lent)
        assert set(drawn) <= set(found)
        for pair, share in found.items():
            assert share == pytest.approx(drawn.get(pair, 0.0), abs=0.032)


def test_days_of_laying_long_before_the_year_120_are_no_fault() -> None:
    """At most 120 days of laying count, the last ones; before the first day of the calendar there is none."""
    book = PenBook()
    lot = book.eggs("0001-01-01", "0001-01-03")
    assert [pair.sire for pair in book.parents(lot).pairs] == [None]
