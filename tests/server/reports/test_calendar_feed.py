"""The agenda as a calendar: what is in it, when, under which name, and what never is."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from broodline.book.fold import fold
from broodline.reports.calendar_feed import event_json, events
from broodline.reports.wishes import Wishes
from tests.book_writer import BookWriter
from tests.server.reports.test_notice import SET_AT, at, book

DUBLIN = ZoneInfo("Europe/Dublin")


def told(writer: BookWriter, now: datetime, wishes: Wishes | None = None) -> list[tuple[str, str]]:
    found = events(fold(writer.entries()), now, wishes or Wishes())
    return [(f"{one.at.astimezone(DUBLIN):%m-%d %H:%M}", one.title) for one in found]


def test_a_setting_gives_its_days_in_the_time_of_day_of_the_place() -> None:
    """Days 7, 14, 18 and 21 after 11 March; the clocks move on the 29th."""
    assert told(book(), at(3, 12, 0)) == [
        ("03-18 07:00", "Candling"),
        ("03-25 07:00", "Candling"),
        ("03-28 18:00", "Lockdown tomorrow"),
        ("03-29 07:00", "Lockdown"),
        ("04-01 07:00", "First chicks"),
    ]


def test_the_device_says_what_and_when() -> None:
    wishes = Wishes(what=frozenset({"lockdown"}), morning=390, evening_before=1200)
    assert told(book(), at(3, 12, 0), wishes) == [("03-28 20:00", "Lockdown tomorrow"), ("03-29 06:30", "Lockdown")]


def test_a_corrected_time_moves_the_event_and_keeps_its_name() -> None:
    writer = book()
    before = events(fold(writer.entries()), at(3, 12, 0), Wishes())
    first = next(one for one in writer.documents if one["kind"] == "set")
    moved = {**first["body"], "set_at": "2026-03-12T20:00:00Z"}
    writer.write("set", moved, amends=first["id"], at=at(3, 12, 0))
    after = events(fold(writer.entries()), at(3, 12, 0), Wishes())
    assert [one.uid for one in after] == [one.uid for one in before]
    assert {(b.at - a.at).days for a, b in zip(before, after, strict=True)} <= {0, 1}
    assert after != before


def test_what_is_done_is_gone_and_names_never_double() -> None:
    writer = book()
    writer.set_eggs(writer.incubator("Shed box"), [(writer.lot(), writer.documents[2]["id"], 12)], set_at=SET_AT)
    found = events(fold(writer.entries()), at(3, 12, 0), Wishes())
    assert len({one.uid for one in found}) == len(found) == 10
    writer.write("locked", {"setting": writer.documents[3]["id"]}, at=at(3, 29, 8))
    titles = [title for _, title in told(writer, at(3, 29, 9))]
    assert titles.count("Lockdown") == 1


def test_notes_families_and_names_stay_in_the_book() -> None:
    writer = BookWriter()
    writer.write("keeper", {"holding": "Gorse Bank", "zone": "Europe/Dublin", "temperature": "C", "mass": "g"})
    family, place = writer.family("Rowan"), writer.incubator()
    setting = writer.set_eggs(place, [(writer.lot(), family, 12)], set_at=SET_AT, note="Mrs Hedge's eggs")
    writer.write("note", {"about": setting, "text": "the vet's bill"})
    text = repr([event_json(one) for one in events(fold(writer.entries()), at(3, 12, 0), Wishes())])
    assert "Loft box" in text
    assert [word for word in ("Rowan", "Gorse", "Hedge", "vet", "Marsh") if word in text] == []


def test_years_nobody_lived_in_give_no_events() -> None:
    for year in (1, 1900, 9999):
        writer = book(datetime(year, 1, 5, tzinfo=UTC), "Pacific/Kiritimati")
        assert events(fold(writer.entries()), at(3, 29, 9), Wishes()) == []
