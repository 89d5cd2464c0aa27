"""What an inspector is told of chicks of unknown family, and of birds written down from a batch: by hand."""

from datetime import date, timedelta

from broodline.book.fold import fold
from broodline.reports.inspection import inspection
from tests.server.reports.test_brood import OUT
from tests.server.reports.test_brood_losses import Pair

LAST = date(2026, 12, 31)


def test_deaths_of_unknown_family_are_told_once_and_leave_the_count() -> None:
    pair = Pair()
    pair.among("died", 2, 3, cause="predator_rat")
    told = inspection(fold(pair.book.entries()), date(2026, 3, 1), LAST)
    (row,) = told["deaths"]
    assert row["what"] == "2, batch of Hazel or Rowan"
    assert (row["on"], row["how"], row["cause"]) == ("2026-03-25", "died", "predator_rat")
    assert told["batches"] == 20, "12 and 10, less 2"
    earlier = inspection(fold(pair.book.entries()), date(2026, 3, 1), date(2026, 3, 24))
    assert (earlier["deaths"], earlier["batches"]) == ([], 22)


def test_chicks_of_a_batch_that_go_are_told_with_whom_they_went_to() -> None:
    pair = Pair()
    for n, who in ((2, "A. Marsh, Fen End"), (1, "A. Marsh, Fen End"), (4, None)):
        moves = [{"lot": pair.rowan, "from": "brooding", "to": "parted", "n": n}]
        about = {"why": "left"} | ({} if who is None else {"who": who})
        pair.book.write("moved", {"moves": moves, **about}, at=OUT + timedelta(days=30))
    told = inspection(fold(pair.book.entries()), date(2026, 3, 1), LAST)
    rows = [(row["what"], row["how"], row["to"]) for row in told["left"]]
    assert sorted(rows, key=str) == [
        ("3, batch of Rowan", "sold or given", "A. Marsh, Fen End"),
        ("4, batch of Rowan", "sold or given", None),
    ]


def test_a_bird_that_came_of_one_of_two_batches_is_counted_once() -> None:
    pair = Pair()
    lots = [{"lot": pair.rowan, "share": 0.5}, {"lot": pair.hazel, "share": 0.5}]
    pair.book.write("bird", {"sex": "female", "lots": lots}, at=OUT + timedelta(days=40))
    told = inspection(fold(pair.book.entries()), date(2026, 3, 1), LAST)
    assert (told["batches"], sum(row["all"] for row in told["here"])) == (21, 1)


def test_a_bird_is_here_from_the_day_it_came_and_a_forebear_from_papers_never() -> None:
    pair = Pair()
    write = pair.book.write
    cock, sire = (write("bird", {"sex": "male", "hatched_on": "2025-04-01"}, at=OUT) for _ in range(2))
    write("came", {"bird": cock, "on": "2026-04-10", "how": "bought", "from": "Fen End"}, at=OUT)
    write("left", {"bird": sire, "on": "2026-04-10", "how": "given", "cause": "never here"}, at=OUT)
    days = [date(2026, 4, 9), date(2026, 4, 10), LAST]
    told = [inspection(fold(pair.book.entries()), date(2026, 3, 1), last) for last in days]
    assert [sum(row["all"] for row in one["here"]) for one in told] == [0, 1, 1]
    assert [len(one["came"]) for one in told] == [0, 1, 1]
    assert [one["left"] for one in told] == [[], [], []]


def test_chicks_are_counted_by_batch_until_a_bird_of_it_is_written_down_and_not_before_they_came() -> None:
    pair = Pair()
    lot = pair.book.lot()
    pair.book.write("came", {"lot": lot, "n": 5, "on": "2026-05-01", "how": "bought"}, at=OUT)
    lots = [{"lot": lot, "share": 1}]
    pair.book.write("bird", {"sex": "male", "lots": lots, "hatched_on": "2026-04-20"}, at=OUT + timedelta(days=60))
    last = [date(2026, 4, 30), date(2026, 5, 1), date(2026, 5, 22)]
    told = [inspection(fold(pair.book.entries()), date(2026, 3, 1), day) for day in last]
    found = [(one["batches"], sum(row["all"] for row in one["here"])) for one in told]
    assert found == [(22, 0), (27, 0), (26, 1)]


def test_chicks_that_were_missing_are_told_when_they_are_found_and_a_bird_of_two_names_leaves_once() -> None:
    pair = Pair()
    pair.book.move(pair.rowan, "brooding", "unaccounted", 3, at=OUT + timedelta(days=5))
    pair.book.move(pair.rowan, "unaccounted", "brooding", 2, at=OUT + timedelta(days=6))
    names = [pair.book.write("bird", {"sex": "male", "name": name}, at=OUT) for name in ("Tom", "Old Tom")]
    pair.book.write("same", {"bird": names[0], "as": names[1]}, at=OUT)
    for name in names:
        pair.book.write("left", {"bird": name, "on": "2026-04-10", "how": "sold"}, at=OUT)
    told = inspection(fold(pair.book.entries()), date(2026, 3, 1), LAST)
    assert [(row["on"], row["what"], row["how"]) for row in told["came"]] == [
        ("2026-03-28", "2, batch of Rowan", "found")
    ]
    assert [(row["what"], row["how"]) for row in told["left"]] == [("Tom", "sold")]
    assert told["batches"] == 21


def test_what_was_given_before_is_told_while_eggs_or_meat_are_still_held_back() -> None:
    pair = Pair()
    days = (
        ("still", "2026-04-01", {"until": "2026-04-05", "no_eggs_until": "2026-05-01"}),
        ("meat", "2026-04-02", {"no_meat_until": "2026-06-01"}),
        ("over", "2026-04-03", {"until": "2026-04-20", "no_eggs_until": "2026-04-30", "no_meat_until": "2026-04-30"}),
        ("into", "2026-04-04", {"until": "2026-05-01"}),
        ("later", "2026-05-11", {"no_eggs_until": "2026-06-01"}),
    )
    for product, start, more in days:
        pair.book.write("treated", {"lot": pair.rowan, "product": product, "from": start, **more}, at=OUT)
    told = inspection(fold(pair.book.entries()), date(2026, 5, 1), date(2026, 5, 10))
    assert [(row["product"], row["before"]) for row in told["treated"]] == [
        ("still", True),
        ("meat", True),
        ("into", False),
    ]


def test_a_missing_chick_put_back_into_hatched_is_found_again_and_has_not_hatched_twice() -> None:
    pair = Pair()
    later = OUT + timedelta(days=2)
    pair.book.move(pair.rowan, "brooding", "unaccounted", 1, at=later)
    pair.book.move(pair.rowan, "set", "unaccounted", 1, at=later)
    pair.book.move(pair.rowan, "unaccounted", "hatched", 2, at=later + timedelta(hours=1))
    told = inspection(fold(pair.book.entries()), later.date(), LAST)
    assert [(row["what"], row["how"]) for row in told["came"]] == [("1, batch of Rowan", "found")]
    assert [row["hatched"] for row in told["hatched"]] == [1], "the egg that was lost from sight"
