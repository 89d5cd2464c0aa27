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
