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
