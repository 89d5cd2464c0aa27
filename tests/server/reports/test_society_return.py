"""A season's return to a society. Expected rows are counted by hand from the book written here."""

from datetime import UTC, datetime

from broodline.book.fold import fold
from broodline.reports.society_return import society_return
from tests.book_writer import BookWriter

SET = datetime(2026, 3, 1, 8, tzinfo=UTC)


def test_rows_by_breed_and_by_where_the_eggs_came_from():
    writer = BookWriter()
    writer.keeper()
    rowan, hazel = writer.family("Rowan"), writer.family("Hazel")
    cocks = [writer.write("bird", {"name": name, "sex": "male"}) for name in ("A", "B", "C")]
    hens = [writer.write("bird", {"name": name, "sex": "female"}) for name in ("D", "E", "F")]
    pens = [
        (rowan, cocks[:1], hens[:2], "2026-01-01", None),
        (hazel, cocks[1:2], hens[1:2], "2026-02-01", "2026-02-25"),  # E stood in both: one hen
        (hazel, cocks[2:], hens[2:], "2025-01-01", "2025-06-01"),  # gone before any egg was laid
    ]
    for family, sires, dams, since, until in pens:
        body = {"family": family, "since": since, "sires": [{"bird": one} for one in sires]}
        body |= {"dams": [{"bird": one} for one in dams]} | ({} if until is None else {"until": until})
        writer.write("penned", body)
    place = writer.incubator()
    own, other, bought = writer.lot(), writer.lot(), writer.lot()
    lots = [
        {"lot": own, "family": rowan, "n": 12, "laid_from": "2026-02-20"},
        {"lot": other, "family": hazel, "n": 8},
        {"lot": bought, "family": hazel, "n": 6, "from": {"who": "Whin Cottage"}},
    ]
    body = {"place": place, "species": "chicken", "set_at": "2026-03-01T08:00:00Z", "lots": lots}
    writer.write("set", body, at=SET)
    writer.move(own, "set", "hatched", 9)
    writer.move(own, "hatched", "brooding", 9)
    writer.move(own, "brooding", "died", 2)
    writer.move(own, "brooding", "growing", 7)
    writer.move(bought, "set", "hatched", 3)
    ring = {"kind": "ring", "text": "R26-1"}
    writer.write("bird", {"sex": "unknown", "family": rowan, "hatched_on": "2026-03-22", "tags": [ring]})
    old = {"kind": "ring", "text": "R25-1"}
    writer.write("bird", {"sex": "unknown", "family": rowan, "hatched_on": "2025-03-22", "tags": [old]})
    standing = fold(writer.entries())
    shared = {"species": "chicken", "breed": "Marsh Speckle", "variety": "", "not_written": 0}
    assert society_return(standing, 2026) == [
        {**shared, "origin": "bought in", "males": 0, "females": 0, "lines": 1, "eggs": 6, "hatched": 3, "reared": 0,
         "rings": []},
        {**shared, "origin": "own", "males": 2, "females": 2, "lines": 2, "eggs": 20, "hatched": 9, "reared": 7,
         "rings": ["R26-1"]},
    ]  # fmt: skip
    assert society_return(standing, 2025) == []


def test_only_birds_that_stood_there_while_the_eggs_were_laid_count():
    """An open pen ends where the next of its family begins; a hen of the later one died before any egg was laid. A day
    of laying years back is a slip: a year before setting at most, when only the second pen stood and she still lived.
    """
    writer = BookWriter()
    writer.keeper()
    rowan, place = writer.family("Rowan"), writer.incubator()
    cocks = [writer.write("bird", {"name": name, "sex": "male"}) for name in "AB"]
    hens = [writer.write("bird", {"name": name, "sex": "female"}) for name in "CDEFG"]
    for since, sires, dams in (("2023-01-10", cocks[:1], hens[:2]), ("2025-01-10", cocks[1:], hens[2:])):
        pen = {"family": rowan, "since": since, "sires": [{"bird": one} for one in sires]}
        writer.write("penned", {**pen, "dams": [{"bird": one} for one in dams]})
    for on, bird in (("2024-10-01", cocks[0]), ("2025-10-01", hens[4])):
        writer.write("left", {"bird": bird, "on": on, "how": "died"})
    lot = {"lot": writer.lot(), "family": rowan, "n": 6, "laid_from": "2026-02-25"}
    body = {"place": place, "species": "chicken", "set_at": "2026-03-01T08:00:00Z", "lots": [lot]}
    root = writer.write("set", body, at=SET)
    (row,) = society_return(fold(writer.entries()), 2026)
    assert (row["males"], row["females"]) == (1, 2)
    lots = [{**lot, "laid_from": "2016-02-25"}]
    writer.write("set", {**body, "lots": lots}, at=SET, amends=root)
    (row,) = society_return(fold(writer.entries()), 2026)
    assert (row["males"], row["females"]) == (1, 3)


def test_chicks_are_reared_once_they_grow_and_missing_ones_are_still_hatched():
    """12 hatched: 6 grow out of the brooder, 2 are missing there; 1 of the grown was lost and found: reared once."""
    writer = BookWriter()
    writer.keeper()
    rowan, lot = writer.family("Rowan"), writer.lot()
    writer.set_eggs(writer.incubator(), [(lot, rowan, 20)])
    for source, target, n in (
        ("set", "hatched", 12), ("hatched", "brooding", 12), ("brooding", "growing", 6), ("brooding", "unaccounted", 2),
        ("growing", "unaccounted", 1), ("unaccounted", "growing", 1), ("growing", "flock", 5),
    ):  # fmt: skip
        writer.move(lot, source, target, n)
    (row,) = society_return(fold(writer.entries()), 2026)
    assert (row["eggs"], row["hatched"], row["reared"]) == (20, 12, 6)
