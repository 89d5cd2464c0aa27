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
    assert (row["on"], row["how"], row["cause"]) == ("2026-03-25", "died", "predator rat")
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
