"""Chicks lost by age, at the moments where one age ends and the next begins. Counted by hand."""

from datetime import datetime, timedelta

import pytest

from broodline.book.fold import fold
from broodline.reports.season_chicks import chick_losses, scale_of
from tests.book_writer import START, BookWriter

OUT = START + timedelta(days=21)
NOW = OUT + timedelta(days=200)
MOMENT = timedelta(milliseconds=1)


class Hatch:
    """Ten chicks that were out at one moment, OUT."""

    def __init__(self, n: int = 10) -> None:
        self.book = BookWriter()
        self.book.keeper()
        self.lot = self.book.lot()
        self.setting = self.book.set_eggs(self.book.incubator(), [(self.lot, self.book.family("Rowan"), 20)])
        self.out(n, timedelta())

    def out(self, n: int, after: timedelta) -> None:
        self.book.move(self.lot, "set", "hatched", n, at=OUT + after)

    def leave(self, how: str, n: int, after: timedelta, **more: str) -> None:
        self.book.move(self.lot, "hatched", how, n, at=OUT + after, **more)

    def rows(self, now: datetime = NOW) -> dict[int, tuple[int, int, int, int, int]]:
        """First day of the age -> (died, missing, culled, lost, of)."""
        standing = fold(self.book.entries())
        rows = chick_losses(standing, [standing.settings[self.setting]], int(now.timestamp() * 1000))
        return {
            row["from_days"]: (row["died"], row["missing"], row["culled"], row["lost"]["k"], row["lost"]["n"])
            for row in rows
        }


def test_the_ages_follow_one_another_without_a_gap() -> None:
    standing = fold(Hatch().book.entries())
    rows = chick_losses(standing, list(standing.settings.values()), int(NOW.timestamp() * 1000))
    assert [(row["from_days"], row["to_days"]) for row in rows] == [(0, 2), (3, 7), (8, 28), (29, 84)]


@pytest.mark.parametrize(("age", "days"), [(0, 3), (3, 8), (8, 29), (29, 85)])
def test_a_chick_that_dies_at_the_end_of_an_age_is_of_the_next(age: int, days: int) -> None:
    """The third day is over 72 hours after the hatch: who dies then came through the first three days."""
    just, before = Hatch(), Hatch()
    just.leave("died", 1, timedelta(days=days))
    before.leave("died", 1, timedelta(days=days) - MOMENT)
    assert just.rows()[age] == (0, 0, 0, 0, 10)
    assert before.rows()[age] == (1, 0, 0, 1, 10)
    assert just.rows().get(days, (1, 0, 0, 1, 10)) == (1, 0, 0, 1, 10)
    assert before.rows().get(days, (0, 0, 0, 0, 9)) == (0, 0, 0, 0, 9)


def test_who_dies_as_it_hatches_is_lost_on_its_first_day() -> None:
    hatch = Hatch()
    hatch.leave("died", 2, timedelta())
    assert hatch.rows()[0] == (2, 0, 0, 2, 10)


@pytest.mark.parametrize(("age", "days"), [(0, 3), (3, 8), (8, 29), (29, 85)])
def test_an_age_counts_from_the_moment_on_when_it_is_over(age: int, days: int) -> None:
    now = OUT + timedelta(days=days)
    assert max(Hatch().rows(now)) == age
    assert age not in Hatch().rows(now - MOMENT)


def test_those_not_past_an_age_yet_count_in_none_of_it() -> None:
    """Four more came out a day later: at three days of the first ten they are two days old."""
    hatch = Hatch()
    hatch.out(4, timedelta(days=1))
    hatch.leave("died", 1, timedelta(days=2))
    assert hatch.rows(OUT + timedelta(days=3)) == {0: (1, 0, 0, 1, 10)}
    assert hatch.rows(OUT + timedelta(days=4))[0] == (1, 0, 0, 1, 14)


def test_sold_and_culled_are_left_out_of_their_own_age_alone() -> None:
    hatch = Hatch()
    hatch.leave("parted", 2, timedelta(days=5))
    hatch.leave("culled", 1, timedelta(days=5))
    hatch.leave("unaccounted", 1, timedelta(days=6))
    assert hatch.rows() == {
        0: (0, 0, 0, 0, 10),
        3: (0, 1, 1, 1, 7),
        8: (0, 0, 0, 0, 6),
        29: (0, 0, 0, 0, 6),
    }


def test_an_age_in_which_all_were_sold_is_left_out() -> None:
    hatch = Hatch()
    hatch.leave("parted", 10, timedelta(days=5))
    assert hatch.rows() == {0: (0, 0, 0, 0, 10)}
    lost = Hatch(1)
    lost.leave("died", 1, timedelta(days=5))
    assert lost.rows() == {0: (0, 0, 0, 0, 1), 3: (1, 0, 0, 1, 1)}


def test_whoever_leaves_is_the_one_that_hatched_first() -> None:
    """Ten at once and ten two days later; seven die on day 4, five on day 8: three of these are the last of the first
    ten, two are of the others and six days old."""
    hatch = Hatch()
    hatch.out(10, timedelta(days=2))
    hatch.leave("died", 7, timedelta(days=4))
    hatch.leave("died", 5, timedelta(days=8))
    assert hatch.rows()[3] == (9, 0, 0, 9, 20)
    assert hatch.rows()[8] == (3, 0, 0, 3, 11)


def test_from_the_moment_on_when_some_went_untold_nothing_is_told_of_any() -> None:
    """One dead on day 2; on day 5 three are gone and nobody wrote how; one dead that same moment, one later."""
    hatch = Hatch()
    hatch.leave("died", 1, timedelta(days=2))
    hatch.leave("died", 1, timedelta(days=5) - MOMENT)
    hatch.leave("parted", 3, timedelta(days=5), cause="not written")
    hatch.leave("died", 1, timedelta(days=5))
    hatch.leave("died", 1, timedelta(days=40))
    assert hatch.rows() == {0: (1, 0, 0, 1, 10), 3: (1, 0, 0, 1, 1)}


def test_a_chick_found_again_is_no_new_one_and_neither_is_one_put_back() -> None:
    """One missing on day 1 and put back beside the others on day 2; one in the brooder put back there by mistake."""
    hatch = Hatch()
    hatch.leave("unaccounted", 1, timedelta(days=1))
    hatch.book.move(hatch.lot, "unaccounted", "hatched", 1, at=OUT + timedelta(days=2))
    hatch.leave("brooding", 1, timedelta(days=1))
    hatch.book.move(hatch.lot, "brooding", "hatched", 1, at=OUT + timedelta(days=2))
    assert hatch.rows()[0] == (0, 0, 0, 0, 10)


def test_losses_of_unknown_family_are_of_all_they_may_be_of_together() -> None:
    """Ten of Rowan, five of Hazel and two of either; one dead is of either, another of Hazel."""
    hatch = Hatch()
    other = hatch.book.lot()
    first = hatch.book.documents[-2]["body"]
    first["lots"].append({"lot": other, "family": hatch.book.family("Hazel"), "n": 5})
    hatch.book.move(other, "set", "hatched", 5, at=OUT)
    for source, target, n, days in (("set", "hatched", 2, 0), ("hatched", "died", 1, 1)):
        moves = [{"among": [hatch.lot, other], "from": source, "to": target, "n": n}]
        hatch.book.write("moved", {"moves": moves}, at=OUT + timedelta(days=days))
    hatch.book.move(other, "hatched", "died", 1, at=OUT + timedelta(days=4))
    assert {age: row for age, row in hatch.rows().items() if age < 8} == {0: (1, 0, 0, 1, 17), 3: (1, 0, 0, 1, 16)}


def test_the_axis_holds_an_interval_that_ends_on_its_end() -> None:
    for end, more in ((0.1, 0.2), (0.2, 0.5), (0.5, 1.0)):
        assert (scale_of([end]), scale_of([end + 0.001])) == (end, more)
    assert (scale_of([]), scale_of([None])) == (1.0, 1.0)
    assert scale_of([0.02, 0.3, None]) == 0.5
