"""From a book to a pedigree: what is carried to the bird, what is joined, what cannot be."""

import pytest

from broodline.reports.flock_pedigree import Flock, flock_of
from broodline.trade.kinship import relationships
from tests.server.reports.pen_book import PenBook


def flock(book: PenBook, today: str = "2026-09-01") -> Flock:
    return flock_of(book.standing(), today)


def codes(found: Flock) -> list[str]:
    return [problem.code for problem in found.problems]


def test_a_kept_chick_carries_the_candidates_of_its_lot() -> None:
    book = PenBook()
    cock, hens = book.bird("male"), book.birds("female", 4)
    book.pen([cock], hens, "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07")
    one, other = (book.bird("female", lots=[{"lot": lot}]) for _ in range(2))
    kin = relationships(flock(book).pedigree)
    assert kin.relationship(one, other) == pytest.approx(0.3125)
    assert kin.relationship(one, hens[0]) == pytest.approx(0.125)


def test_chicks_of_one_hen_share_her() -> None:
    book = PenBook()
    book.pen(book.birds("male", 1), book.birds("female", 4), "2026-01-01")
    lot = book.eggs("2026-04-01", "2026-04-07", one_hen=True)
    one, other = (book.bird("female", lots=[{"lot": lot, "share": 1.0}]) for _ in range(2))
    assert relationships(flock(book).pedigree).relationship(one, other) == 0.5


def test_a_chick_of_one_of_two_lots() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 2)
    book.pen([cocks[0]], [hens[0]], "2026-01-01", "2026-02-01")
    book.pen([cocks[1]], [hens[1]], "2026-03-01")
    first, second = book.eggs("2026-01-20", "2026-01-25"), book.eggs("2026-04-01", "2026-04-02")
    chick = book.bird("female", lots=[{"lot": first, "share": 0.75}, {"lot": second, "share": 0.25}, {"lot": "none"}])
    kin = relationships(flock(book).pedigree)
    assert [kin.relationship(chick, cock) for cock in cocks] == pytest.approx([0.375, 0.125])


def test_parents_named_for_the_bird_outrank_its_lot_on_their_side() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 2)
    north = book.write("place", {"name": "North", "role": "pen"})
    south = book.write("place", {"name": "South", "role": "pen"})
    book.pen([cocks[0]], [hens[0]], "2026-01-01", place=north)
    book.pen([cocks[1]], [hens[1]], "2026-01-01", place=south)
    lot = book.eggs("2026-04-01", "2026-04-02")
    of_hen = book.bird("female", lots=[{"lot": lot}], dams=[{"bird": hens[1]}])
    of_cock = book.bird("female", lots=[{"lot": lot}], sires=[{"bird": cocks[0]}])
    of_both = book.bird("female", sires=[{"bird": cocks[0]}], dams=[{"bird": hens[1]}])
    of_stray = book.bird("female", lots=[{"lot": lot}], sires=[{"bird": book.bird("male")}])
    kin = relationships(flock(book).pedigree)
    assert kin.relationship(of_hen, cocks[1]) == 0.5
    assert kin.relationship(of_cock, hens[0]) == 0.5
    assert (kin.relationship(of_both, cocks[0]), kin.relationship(of_both, hens[1])) == (0.5, 0.5)
    assert [kin.relationship(of_stray, hen) for hen in hens] == [0.25, 0.25]


def test_two_ids_of_one_bird_are_one() -> None:
    book = PenBook()
    cock, twice = book.bird("unknown"), book.bird("male", name="Bram")
    book.write("same", {"bird": twice, "as": cock})
    one, other = book.bird("male", sires=[{"bird": cock}]), book.bird("female", sires=[{"bird": twice}])
    found = flock(book)
    assert len(found.birds) == 3
    assert (found.birds[cock].label, found.birds[cock].sex) == ("Bram", "male")
    assert relationships(found.pedigree).relationship(one, other) == 0.25


def test_what_cannot_be_is_named_and_the_rest_computes() -> None:
    book = PenBook()
    hen, cock = book.bird("female", name="Tansy"), book.bird("male", name="Bram", hatched_on="2026-05-01")
    chick = book.bird("male", name="Teasel", hatched_on="2026-04-01", sires=[{"bird": hen}], dams=[{"bird": cock}])
    late = book.bird("male", name="Vetch", hatched_on="2026-04-01", sires=[{"bird": cock}, {"bird": chick}])
    ring = {"kind": "ring", "colour": "red", "text": "7"}
    book.write("marked", {"bird": hen, "tag": {"kind": "ring", "text": "1"}})
    book.write("marked", {"bird": hen, "tag": ring, "replaces": "x"})
    book.write("marked", {"bird": cock, "tag": ring})
    sound = [book.bird("male", sires=[{"bird": chick}], dams=[{"bird": hen}]) for _ in range(2)]
    own = book.bird("male", name="Ouro", sires=[{"bird": sound[0], "share": 0.7}, {"bird": late, "share": 0.6}])
    book.write("bird", {"sex": "male", "name": "Loop", "sires": [{"bird": own}]}, amends=sound[1])
    found = flock(book)
    assert codes(found) == [
        "band_twice", "dam_is_cock", "parent_younger", "parent_younger", "shares_not_one", "sire_is_hen",
    ]  # fmt: skip
    assert "Teasel: Tansy is named as sire, but is a hen." in [problem.message for problem in found.problems]
    assert relationships(found.pedigree).relationship(sound[0], chick) == 0.5


def test_a_bird_that_is_its_own_ancestor() -> None:
    book = PenBook()
    one = book.bird("male", name="Ouro")
    other = book.bird("male", name="Boros", sires=[{"bird": one}])
    book.write("bird", {"sex": "male", "name": "Ouro", "sires": [{"bird": other}]}, amends=one)
    found = flock(book)
    assert codes(found) == ["own_ancestor", "own_ancestor"]
    assert relationships(found.pedigree).relationship(one, other) == 0


def test_where_birds_are() -> None:
    book = PenBook()
    dead, lent, back, later = (book.bird("female") for _ in range(4))
    book.write("left", {"bird": dead, "on": "2026-05-01", "how": "died"})
    book.write("left", {"bird": lent, "on": "2026-05-01", "how": "lent"})
    book.write("left", {"bird": back, "on": "2026-05-01", "how": "lent"})
    book.write("came", {"bird": back, "on": "2026-06-01", "how": "returned"})
    book.write("left", {"bird": later, "on": "2027-06-01", "how": "sold"})
    book.write("came", {"bird": lent, "on": "2027-06-01", "how": "returned"})
    found = flock(book)
    assert [found.birds[bird].where for bird in (dead, lent, back, later)] == ["gone", "lent", "here", "here"]


def test_rings_of_the_dead_may_be_worn_again() -> None:
    book = PenBook()
    tags = [{"kind": "ring", "text": "7"}]
    dead, _ = book.bird("female", tags=tags), book.bird("female", tags=tags)
    book.write("left", {"bird": dead, "on": "2026-05-01", "how": "died"})
    assert codes(flock(book)) == []


def test_birds_of_one_colour_are_no_fault_but_one_number_twice_is() -> None:
    """A family's blue rings tell the family, not the bird; a number is for one bird alone."""
    book = PenBook()
    for text in (None, None, " ", " ", "7", "7"):
        book.bird("female", tags=[{"kind": "ring", "colour": "blue"} | ({} if text is None else {"text": text})])
    (problem,) = flock(book).problems
    assert problem.code == "band_twice"
    assert "ring blue 7" in problem.message


def test_labels_and_breeds() -> None:
    book = PenBook()
    bare = book.bird("unknown", species="duck")
    ringed = book.bird("male", breed="Fen Buff", tags=[{"kind": "web"}, {"kind": "ring", "text": "12"}])
    coloured = book.bird("male", tags=[{"kind": "ring", "colour": "red", "text": "9"}])
    (kept,) = book.birds("female", 1)
    birds = flock(book).birds
    assert birds[bare].label == f"bird {bare[-4:]}"
    assert [birds[bird].label for bird in (ringed, coloured)] == ["12", "red 9"]
    assert birds[kept].label == f"Rowan hen {kept[-4:]}"
    assert [birds[bird].kind for bird in (bare, ringed, coloured, kept)] == [
        "duck", "Fen Buff", "unknown breed", "Marsh Speckle",
    ]  # fmt: skip
