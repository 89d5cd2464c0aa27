"""Who counts as breeding: the birds of the pens that stand, of last year's, or all for want of a pen."""

from broodline.reports.breeders import Breeders, breeders_of
from broodline.reports.flock_pedigree import flock_of
from broodline.reports.pens import pens_of
from tests.server.reports.pen_book import PenBook


def counted(book: PenBook, today: str) -> Breeders:
    standing = book.standing()
    birds = [bird for bird in flock_of(standing, today).birds.values() if bird.where != "gone"]
    return breeders_of(pens_of(standing), birds, today)


def test_birds_of_the_pens_that_stand_and_no_others() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 4), book.birds("female", 5)
    book.pen(cocks[:1], hens[:2], "2026-01-01")
    run = book.write("place", {"name": "Old run", "role": "pen"})
    book.pen(cocks[1:3], [hens[2]], "2026-01-01", place=run)
    book.pen([cocks[3]], [], "2026-04-01", "2026-04-02")
    found = counted(book, "2026-05-01")
    assert found.birds == {cocks[0], *hens[:2], *cocks[1:3], hens[2]}
    assert (found.cocks, found.hens, found.counted) == (3, 3, "pens")


def test_a_lent_bird_breeds_elsewhere() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 2)
    book.pen(cocks, hens, "2026-01-01")
    book.write("left", {"bird": cocks[0], "on": "2026-03-01", "how": "lent"})
    book.write("left", {"bird": hens[0], "on": "2026-03-01", "how": "died"})
    assert counted(book, "2026-05-01").birds == {cocks[1], hens[1]}


def test_out_of_season_last_years_pens_count_and_older_ones_do_not() -> None:
    book = PenBook()
    cocks, hens = book.birds("male", 2), book.birds("female", 3)
    book.pen(cocks[:1], hens[:1], "2025-01-01", "2025-06-01")
    book.pen(cocks[1:], hens[1:2], "2026-01-01", "2026-06-01")
    found = counted(book, "2026-11-01")
    assert found.birds == {cocks[1], hens[1]}
    assert found.counted == "last_pens"
    late = counted(book, "2027-07-01")
    assert (late.cocks, late.hens, late.counted) == (2, 3, "living")


def test_a_pen_of_just_a_year_ago_is_of_the_last_year() -> None:
    book = PenBook()
    book.pen(book.birds("male", 1), book.birds("female", 1), "2026-01-01", "2026-06-01")
    days = ("2027-05-31", "2027-06-01", "2027-06-02")
    assert [counted(book, day).counted for day in days] == ["last_pens", "last_pens", "living"]


def test_a_pen_that_lost_its_cock_counts_nobody() -> None:
    book = PenBook()
    cock, hens = book.bird("male", family=book.rowan), book.birds("female", 2)
    book.pen([cock], hens, "2026-01-01")
    book.write("left", {"bird": cock, "on": "2026-03-01", "how": "sold"})
    assert (counted(book, "2026-05-01").cocks, counted(book, "2026-05-01").counted) == (0, "living")
