"""Where single birds are, by hand."""

from broodline.book.birds import whereabouts
from broodline.book.fold import fold
from tests.book_writer import BookWriter


def test_what_is_still_to_come_does_not_count_yet() -> None:
    """Lent from May to July, sold in September; of each only what had happened by a day."""
    book = BookWriter()
    book.keeper()
    bird = book.write("bird", {"sex": "female", "tags": [{"kind": "ring", "text": "7"}]})
    book.write("left", {"bird": bird, "on": "2026-05-01", "how": "lent"})
    book.write("came", {"bird": bird, "on": "2026-07-01", "how": "returned"})
    book.write("left", {"bird": bird, "on": "2026-09-01", "how": "sold"})
    standing = fold(book.entries())
    days = ("2026-04-30", "2026-05-01", "2026-07-01", "2026-08-31", "2026-09-01", None)
    assert [whereabouts(standing, day).get(bird) for day in days] == [None, "lent", "here", "here", "gone", "gone"]


def test_a_bird_that_came_and_died_on_one_day_is_dead_and_one_that_was_sold_back_is_here() -> None:
    book = BookWriter()
    book.keeper()
    found = {}
    for how in ("died", "culled", "sold", "lent"):
        bird = found[how] = book.write("bird", {"sex": "female", "name": how})
        book.write("came", {"bird": bird, "on": "2026-05-01", "how": "bought"})
        book.write("left", {"bird": bird, "on": "2026-05-01", "how": how})
    book.write("came", {"bird": found["culled"], "on": "2026-05-02", "how": "found"})
    where = whereabouts(fold(book.entries()), "2026-06-01")
    assert {how: where[bird] for how, bird in found.items()} == {
        "died": "gone",
        "culled": "here",
        "sold": "here",
        "lent": "here",
    }
