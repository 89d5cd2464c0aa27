"""Reminders: when each comes, that it comes once, what it says when it is late, and all of it across DST.

Times by hand. Europe/Dublin moved its clocks at 01:00 UTC on 29 March and 25 October 2026 (IANA tz database).
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.errors import EnvelopeError
from broodline.reports.agenda import due
from broodline.reports.notice import Notice, notices, payload
from broodline.reports.wishes import TASKS, USUAL, Wishes, after_quiet, read_wishes, time_on, wishes_json
from tests.book_writer import BookWriter, lot_id

LONG_AGO = datetime(2020, 1, 1, tzinfo=UTC)
DUBLIN = ZoneInfo("Europe/Dublin")
SET_AT = datetime(2026, 3, 11, 20, 0, tzinfo=UTC)  # lockdown (day 18) is on 29 March, the day the clocks move


def at(month: int, day: int, hour: int, minute: int = 0) -> datetime:
    """A time of day in Dublin, 2026."""
    return datetime(2026, month, day, hour, minute, tzinfo=DUBLIN).astimezone(UTC)


def book(set_at: datetime = SET_AT, zone: str = "Europe/Dublin") -> BookWriter:
    writer = BookWriter()
    writer.keeper(zone)
    writer.set_eggs(writer.incubator(), [(writer.lot(), writer.family("Rowan"), 12)], set_at=set_at)
    return writer


def minute_by_minute(writer: BookWriter, first: datetime, last: datetime, wishes: Wishes) -> list[tuple[str, Notice]]:
    """What a server that looks every ten minutes sends, with the UTC time at which it does."""
    standing, now = fold(writer.entries()), first
    sent: set[str] = set()
    told: list[tuple[str, Notice]] = []
    while now <= last:
        for notice in notices(standing, now, wishes, LONG_AGO, sent):
            sent.add(notice.key)
            told.append((f"{now:%m-%d %H:%M}", notice))
        now += timedelta(minutes=10)
    return told


LOCKDOWN_BOOK = fold(book().entries())


def test_a_setting_across_the_change_of_clocks() -> None:
    """Candling on day 7 and 14, lockdown on day 18, chicks from day 21. From the 29th 07:00 is 06:00 UTC."""
    told = minute_by_minute(book(), at(3, 12, 0), at(4, 1, 12), Wishes())
    assert [(when, notice.title) for when, notice in told] == [
        ("03-18 07:00", "Candling: Wednesday 18 March"),
        ("03-25 07:00", "Candling: Wednesday 25 March"),
        ("03-28 18:00", "Lockdown: Sunday 29 March"),
        ("03-29 06:00", "Lockdown: Sunday 29 March"),
        ("04-01 06:00", "First chicks: Wednesday 1 April"),
    ]
    assert len({notice.key for _, notice in told}) == 5
    assert told[2][1].topic == told[3][1].topic != told[1][1].topic


def test_the_days_agree_with_due() -> None:
    standing = fold(book().entries())
    now = at(3, 28, 18)
    [lockdown] = [task for task in due(standing, now)["tasks"] if task["task"] == "lockdown"]
    [told] = notices(standing, now, Wishes(what=frozenset({"lockdown"})), LONG_AGO, set())
    assert (lockdown["due"], told.body) == ("2026-03-29", lockdown["words"])
    assert told.path == f"/setting/{lockdown['setting']}"


@pytest.mark.parametrize(
    ("now", "title"),
    [
        (at(3, 28, 17, 59), None),
        (at(3, 28, 23, 0), "Lockdown: Sunday 29 March"),
        (at(3, 29, 6, 59), "Lockdown: Sunday 29 March"),
        (at(3, 29, 23, 0), "Lockdown: Sunday 29 March"),
        (at(3, 30, 6, 59), "Lockdown: was due on Sunday 29 March"),
        (at(3, 31, 6, 59), "Lockdown: was due on Sunday 29 March"),
        (at(3, 31, 7, 1), None),
    ],
)
def test_a_server_that_was_down_says_honestly_when_it_was_due(now: datetime, title: str | None) -> None:
    """Two days on it is Due's business alone. The evening's reminder is sent late until the morning's comes."""
    found = notices(fold(book().entries()), now, Wishes(what=frozenset({"lockdown"})), LONG_AGO, set())
    assert [notice.title for notice in found] == ([] if title is None else [title])


@given(st.integers(0, 72 * 60), st.integers(0, 72 * 60))
def test_what_it_says_is_true_whenever_it_is_sent_and_whenever_it_is_read(sent: int, read: int) -> None:
    """Read on another day than it was sent it names the same day; nothing in it counts from the day of reading."""
    now = at(3, 28, 0) + timedelta(minutes=sent)
    for notice in notices(LOCKDOWN_BOOK, now, Wishes(what=frozenset({"lockdown"})), LONG_AGO, set()):
        words = f"{notice.title} {notice.body}".lower()
        assert "sunday 29 march" in words
        assert not {"today", "tomorrow", "yesterday", "tonight"} & set(words.replace(":", " ").split())
        delivered = now + timedelta(minutes=read)
        is_over = delivered.astimezone(DUBLIN).date() > date(2026, 3, 29)
        if "was due" not in words and delivered < now + timedelta(seconds=notice.lasts_s):
            assert not is_over


def test_what_came_before_a_device_asked_was_not_promised() -> None:
    standing, wishes = fold(book().entries()), Wishes()
    assert notices(standing, at(3, 29, 9), wishes, at(3, 29, 8), set()) == []
    assert len(notices(standing, at(3, 29, 9), wishes, at(3, 29, 6), set())) == 1


def test_what_is_done_or_not_wished_for_is_not_sent() -> None:
    writer = book()
    now = at(3, 29, 9)
    assert notices(fold(writer.entries()), now, Wishes(what=frozenset({"candle"})), LONG_AGO, set()) == []
    writer.write("locked", {"setting": writer.documents[-1]["id"]}, at=at(3, 29, 8))
    assert notices(fold(writer.entries()), now, Wishes(), LONG_AGO, set()) == []


def test_nothing_comes_in_quiet_hours_and_two_that_waited_come_as_one() -> None:
    quiet = Wishes(what=frozenset({"lockdown"}), quiet=(17 * 60, 8 * 60 + 30))
    told = minute_by_minute(book(), at(3, 28, 12), at(3, 29, 20), quiet)
    assert [(when, notice.title) for when, notice in told] == [("03-29 07:30", "Lockdown: Sunday 29 March")]


def test_what_a_server_that_was_down_tells_late_waits_for_the_end_of_quiet_hours_too() -> None:
    """Down at 07:00 and back at 23:00, quiet from 22:00 to 06:00, which is 05:00 UTC."""
    quiet = Wishes(what=frozenset({"lockdown"}), quiet=(22 * 60, 6 * 60))
    told = minute_by_minute(book(), at(3, 29, 23), at(3, 30, 12), quiet)
    assert [(when, one.title) for when, one in told] == [("03-30 05:00", "Lockdown: was due on Sunday 29 March")]


def test_webs_are_asked_for_again_on_their_day() -> None:
    """Punched on the day after the hatch; looked at again 14 days later (agenda.json)."""
    writer = book()
    lot = lot_id(1)
    writer.move(lot, "set", "hatched", 9, at=at(4, 1, 12))
    writer.write("marked", {"lot": lot, "webs": ["LO"], "n": 9, "on": "2026-04-02"}, at=at(4, 2, 12))
    told = minute_by_minute(writer, at(4, 3, 0), at(4, 17, 0), Wishes(what=frozenset({"webs_again"})))
    assert [(when, one.title, one.path) for when, one in told] == [
        ("04-16 06:00", "Toe webs again: Thursday 16 April", f"/again/{lot}")
    ]


def test_a_brood_asks_for_less_heat_another_feed_and_its_weigh_days() -> None:
    """Hatched on 1 April at noon: heat lower each week from day 7, the starter until 6 weeks, weighed at 8, 12 and 16
    weeks (brooding.json, feeding.json, brood_tasks.json)."""
    writer = book()
    brooder = writer.write("place", {"name": "Barn ring", "role": "brooder"})
    writer.move(lot_id(1), "set", "hatched", 9, at=at(4, 1, 12))
    writer.move(lot_id(1), "hatched", "brooding", 9, at=at(4, 2, 12), place=brooder)
    wishes = Wishes(what=frozenset({"heat", "feed", "weigh"}))
    told = minute_by_minute(writer, at(4, 3, 0), at(6, 1, 0), wishes)
    days = [(notice.task, when[:5]) for when, notice in told]
    assert days[:2] == [("heat", "04-08"), ("heat", "04-15")]
    assert ("weigh", "05-27") in days  # 56 days
    assert [task for task, _ in days].count("feed") == 1
    assert {notice.path for _, notice in told} == {f"/broods/{brooder}"}
    assert len({notice.key for _, notice in told}) == len(told)
    assert "Barn ring" in told[0][1].body


def test_two_brooders_are_two_reminders() -> None:
    writer = book()
    for number, name in enumerate(("Barn ring", "Loft ring")):
        place = writer.write("place", {"name": name, "role": "brooder"})
        for part in range(2):
            lot = lot_id(50 + 2 * number + part)
            writer.write(
                "came",
                {"lot": lot, "n": 5, "stage": "brooding", "family": writer.documents[2]["id"], "on": "2026-04-01",
                 "how": "bought", "hatched_on": "2026-04-01"},
                at=at(4, 1, 12),
            )  # fmt: skip
            writer.move(lot, "brooding", "brooding", 5, at=at(4, 1, 13), place=place)
    found = notices(fold(writer.entries()), at(4, 8, 9), Wishes(what=frozenset({"heat"})), LONG_AGO, set())
    assert len(found) == 2
    assert len({one.key for one in found}) == len({one.topic for one in found}) == 2
    assert {name for name in ("Barn ring", "Loft ring") for one in found if name in one.body} == {
        "Barn ring",
        "Loft ring",
    }


def brood() -> BookWriter:
    """Nine chicks out on 2 April at 08:00 UTC, in a brooder two hours later."""
    writer = book()
    place = writer.write("place", {"name": "Brooder one", "role": "brooder"})
    writer.move(lot_id(1), "set", "hatched", 9, at=datetime(2026, 4, 2, 8, tzinfo=UTC))
    writer.move(lot_id(1), "hatched", "brooding", 9, at=datetime(2026, 4, 2, 10, tzinfo=UTC), place=place)
    return writer


def test_a_brood_is_asked_after_on_the_day_and_leads_to_its_place() -> None:
    """Non-eaters on days 3 to 6, each morning once; heat on days 7 and 14 (brood_tasks.json, brooding.json).

    At 06:00 UTC on 5 April the chicks are not yet three days old, so that day's comes as soon as they are; at
    06:00 on the 9th they are not yet seven.
    """
    writer = brood()
    place = writer.documents[-3]["id"]
    told = minute_by_minute(writer, at(4, 3, 0), at(4, 17, 0), Wishes(what=frozenset({"eat", "heat"})))
    assert [(when, one.title) for when, one in told] == [
        ("04-05 08:00", "Chicks that do not eat: Sunday 5 April"),
        ("04-06 06:00", "Chicks that do not eat: Monday 6 April"),
        ("04-07 06:00", "Chicks that do not eat: Tuesday 7 April"),
        ("04-08 06:00", "Chicks that do not eat: Wednesday 8 April"),
        ("04-09 06:00", "Chicks that do not eat: Thursday 9 April"),
        ("04-09 06:00", "Heat for chicks: Thursday 9 April"),
        ("04-16 06:00", "Heat for chicks: Thursday 16 April"),
    ]
    assert {one.path for _, one in told} == {f"/broods/{place}"}
    assert "9 chicks in Brooder one" in told[-1][1].body


def test_what_is_asked_once_a_week_is_told_once_and_daily_rounds_only_to_who_asks() -> None:
    told = minute_by_minute(brood(), at(4, 9, 0), at(4, 23, 12), Wishes(what=frozenset({"raise"})))
    assert [when for when, _ in told] == ["04-09 08:00", "04-16 08:00", "04-23 08:00"]
    assert {"water", "drinkers", "litter", "raise"} <= set(TASKS) - set(USUAL)
    assert {"heat", "eat", "feed", "weigh", "candle", "lockdown"} <= set(USUAL)


def test_the_message_is_declarative_and_says_how_long_it_is_worth_delivering() -> None:
    """To the midnight that ends its day: 17 h from 07:00 in Dublin, and 29 from 18:00 of the evening before, as the
    clocks skip one. What is late has no such end: six hours (reminders.json)."""
    standing, wishes = fold(book().entries()), Wishes(what=frozenset({"lockdown"}))
    [morning] = notices(standing, at(3, 29, 7), wishes, LONG_AGO, set())
    for now, hours in ((at(3, 28, 18), 29), (at(3, 29, 7), 17), (at(3, 29, 23), 1), (at(3, 30, 1), 6)):
        [notice] = notices(standing, now, wishes, LONG_AGO, set())
        assert notice.lasts_s == hours * 3600
    told = payload(morning, "https://book.example")
    assert told["web_push"] == 8030
    assert told["notification"] == {
        "title": "Lockdown: Sunday 29 March",
        "body": "Lock down Loft box: stop turning, raise the humidity, keep the families of 12 eggs apart.",
        "navigate": f"https://book.example{morning.path}",
        "tag": morning.topic,
        "renotify": True,
    }
    assert 0 < len(morning.topic) <= 32


def test_times_that_the_clocks_skip_or_show_twice() -> None:
    """01:30 is skipped on 29 March and comes as 02:30; on 25 October it is shown twice and comes first at 00:30 UTC."""
    assert time_on(date(2026, 3, 29), 90, "Europe/Dublin") == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)
    assert time_on(date(2026, 10, 25), 90, "Europe/Dublin") == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)
    assert time_on(date(2026, 10, 25), 90, "Nowhere/Land") == datetime(2026, 10, 25, 1, 30, tzinfo=UTC)


minutes = st.integers(0, 1439)


@given(st.integers(0, 366 * 1440), minutes, minutes)
def test_after_quiet_is_the_first_minute_that_is_not_quiet(later: int, start: int, end: int) -> None:
    """Beside a walk through the minutes, in a zone whose clocks never move."""
    zone = ZoneInfo("Pacific/Kiritimati")
    now = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(minutes=later)
    hours = {(start + n) % 1440 for n in range((end - start) % 1440)}

    def is_quiet(moment: datetime) -> bool:
        local = moment.astimezone(zone)
        return local.hour * 60 + local.minute in hours

    walked = now
    while is_quiet(walked):
        walked += timedelta(minutes=1)
    if start != end:
        assert after_quiet(now, Wishes(quiet=(start, end)), str(zone)) == walked


def test_wishes_are_read_back_as_they_were_written() -> None:
    odd = {"what": ["lockdown", "candle", "moonrise"], "at": "05:45", "quiet": {"from": "21:00", "until": "05:30"}}
    wishes = read_wishes(odd)
    assert read_wishes(wishes_json(wishes)) == wishes
    assert wishes == Wishes(frozenset({"candle", "lockdown"}), 345, 1080, (1260, 330))
    assert read_wishes({}) == Wishes() == Wishes(frozenset(USUAL), 420, 1080, None)


@pytest.mark.parametrize(
    "odd",
    [
        None, [], "lockdown", {"what": "lockdown"}, {"what": [3]}, {"at": "7"}, {"at": "24:00"}, {"at": 7},
        {"evening": "18:60"}, {"quiet": []}, {"quiet": {}}, {"quiet": {"from": "22:00"}},
        {"quiet": {"from": "22:00", "until": "22:00"}}, {"at": "٠٧:٠٠"},
    ],
)  # fmt: skip
def test_wishes_that_make_no_sense_are_refused(odd: object) -> None:
    with pytest.raises(EnvelopeError):
        read_wishes(odd)


@pytest.mark.parametrize("year", [1, 1900, 9999])
def test_a_setting_of_a_year_nobody_lived_in_breaks_nothing(year: int) -> None:
    writer = book(datetime(year, 1, 5, tzinfo=UTC), "Pacific/Kiritimati")
    assert notices(fold(writer.entries()), at(3, 29, 9), Wishes(), LONG_AGO, set()) == []
