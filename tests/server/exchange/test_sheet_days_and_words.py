"""Sheets tell days by the holding's calendar, stages in a keeper's words, and a season's air to its end."""

from datetime import UTC, datetime, timedelta

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.exchange.book_sheets import book_sheets, season_sheets
from tests.book_writer import BookWriter

EVENING = datetime(2026, 9, 10, 22, tzinfo=UTC)  # eight in the morning of the 11th in Sydney


def sheet(standing: Standing, name: str) -> tuple[list[str], list[dict[str, object]]]:
    """Titles, and rows by field."""
    one = next(one for one in book_sheets(standing) if one.name == name)
    return [column.title for column in one.columns], [
        dict(zip((column.name for column in one.columns), row, strict=True)) for row in one.rows
    ]


def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper(zone="Australia/Sydney")
    rowan, box, lot = writer.family("Rowan"), writer.incubator(), writer.lot()
    writer.set_eggs(box, [(lot, rowan, 12)], set_at=EVENING)
    came = {"lot": writer.lot(), "n": 10, "family": rowan, "on": "2026-09-12", "how": "bought"}
    writer.write("came", {**came, "stage": "brooding", "hatched_on": "2026-09-11"})
    writer.write("marked", {"lot": lot, "webs": ["LO"], "n": 3}, at=EVENING)
    writer.move(lot, "set", "taken", at=EVENING + timedelta(days=3))
    return writer


def test_days_are_those_of_the_holding_and_a_batch_that_came_has_its_own() -> None:
    standing = fold(book().entries())
    _, batches = sheet(standing, "batches")
    assert sorted(str(row["began_on"]) for row in batches) == ["2026-09-11", "2026-09-12"]
    _, marks = sheet(standing, "marks")
    assert [str(row["on"]) for row in marks] == ["2026-09-11"]


def test_stages_are_told_in_a_keepers_words() -> None:
    standing = fold(book().entries())
    titles, _ = sheet(standing, "batches")
    _, moves = sheet(standing, "moves")
    assert [(row["from"], row["to"]) for row in moves] == [("in the setter", "removed")]
    assert {"Now removed", "Now missing", "Now sold or given"} <= set(titles)
    assert not {word for title in titles for word in title.split()} & {"taken", "unaccounted", "parted"}


def test_air_of_a_season_reaches_to_the_end_of_its_longest_eggs() -> None:
    writer = BookWriter()
    writer.keeper()
    box = writer.incubator()
    setting = writer.set_eggs(box, [(writer.lot(), writer.family("Emu", "emu"), 4)], species="emu", set_at=EVENING)
    for day in (1, 49):
        writer.write("air", {"place": box, "dry_c": 36.4}, at=EVENING + timedelta(days=day))
    for day in (-1, 1, 69, 71):
        writer.write("turned", {"place": box}, at=EVENING + timedelta(days=day))
        check = {"place": box, "gauge": "dry", "reads": 36.4, "true_value": 36.3}
        writer.write("gauge_checked", check, at=EVENING + timedelta(days=day))
    found = {one.name: len(one.rows) for one in season_sheets(fold(writer.entries()), {setting})}
    assert (found["air"], found["rounds"], found["gauge_checks"]) == (2, 2, 2)
