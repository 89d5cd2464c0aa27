"""Dating a template: wall times, ids, references and seasons."""

import json
from datetime import UTC, date, datetime, timedelta
from uuid import UUID

import pytest

from broodline.exchange.seed import ScenarioFault, seed_entries, story_day
from seed_scenario.rooms import FOUNDED
from tests.seed.told import LOAD_DAYS, Told

KEEPER = {
    "name": "keeper",
    "written": [-50, "09:00:00"],
    "device": "phone",
    "kind": "keeper",
    "body": {"holding": "Gorse Bank", "zone": "Europe/Dublin", "season_starts": {"season_with_day": -46}},
}


def line(name, written, body, **more):
    return {"name": name, "written": written, "device": "phone", "kind": "note", "body": body, **more}


def template(*lines):
    return b"".join(json.dumps(each).encode() + b"\n" for each in (KEEPER, *lines))


def test_wall_times_stay_wall_times_over_a_change_of_clocks():
    # Europe/Dublin went to summer time on 29 March 2026 at 01:00 UTC (last Sunday of March, directive 2000/84/EC).
    told = template(line("before", [-1, "06:00:00"], {}), line("after", [0, "06:00:00"], {}))
    assert [entry.at for entry in seed_entries(told, date(2026, 3, 29))[1:]] == [
        "2026-03-28T06:00:00.000Z",
        "2026-03-29T05:00:00.000Z",
    ]


def test_dates_and_moments_in_bodies_move_along_at_every_depth():
    body = {"text": "x", "deep": [{"on": {"on_day": -2}, "set_at": {"on_day": 0, "at_time": "20:30:00"}}]}
    entry = seed_entries(template(line("one", [0, "21:00:00"], body)), date(2026, 7, 1))[-1]
    assert entry.body == {"text": "x", "deep": [{"on": "2026-06-29", "set_at": "2026-07-01T19:30:00.000Z"}]}


def test_a_correction_keeps_the_time_it_happened_and_gets_a_later_id():
    told = template(
        line("one", [-1, "09:00:00"], {"text": "a"}),
        line("two", [0, "10:00:00"], {"text": "b"}, at=[-1, "09:00:00"], amends="@one", void=True),
    )
    _, one, two = seed_entries(told, date(2026, 7, 1))
    assert (two.at, two.amends, two.void) == (one.at, one.id, True)
    assert two.id > one.id


def test_lots_get_ids_of_their_own():
    body = {"lots": [{"lot": "@red"}, {"lot": "@blue"}]}
    told = template(
        line("set", [-1, "06:00:00"], body, kind="set"), line("moved", [0, "06:00:00"], {"among": ["@blue", "@red"]})
    )
    _, founded, moved = seed_entries(told, date(2026, 7, 1))
    red, blue = (lot["lot"] for lot in founded.body["lots"])
    assert founded.id < red < blue < moved.id
    assert moved.body["among"] == [blue, red]


@pytest.mark.parametrize(
    ("today", "month"),
    [(date(2026, 11, 20), 1), (date(2026, 2, 16), 1), (date(2026, 2, 15), 12), (date(2026, 1, 1), 11)],
)
def test_the_season_holds_the_first_setting_and_today(today, month):
    assert seed_entries(template(), today)[0].body["season_starts"] == month


@pytest.mark.parametrize(
    "lines",
    [
        [line("one", [0, "06:00:00"], {"about": "@nobody"})],
        [line("one", [0, "06:00:00"], {}), line("one", [0, "06:00:01"], {})],
        [line("one", [0, "06:00:00"], {}), line("two", [-1, "06:00:00"], {})],
    ],
    ids=["a word nobody explains", "two of one name", "out of order"],
)
def test_a_broken_template_is_refused(lines):
    with pytest.raises(ScenarioFault):
        seed_entries(template(*lines), date(2026, 7, 1))


def test_the_story_is_told_on_the_last_day_whose_morning_is_over():
    told = template(line("one", [0, "07:05:00"], {}))
    summer = [
        (datetime(2026, 7, 1, 6, 4, tzinfo=UTC), date(2026, 6, 30)),
        (datetime(2026, 7, 1, 6, 5, tzinfo=UTC), date(2026, 7, 1)),
    ]
    for now, day in summer:
        assert story_day(told, now) == day
    assert story_day(template(), datetime(2026, 7, 1, 12, tzinfo=UTC)) == date(2026, 8, 20)


@pytest.mark.parametrize("today", LOAD_DAYS, ids=str)
def test_ids_are_uuid7_unique_growing_and_timed_by_when_a_line_was_written(today):
    told = Told(today)
    ids = [entry.id for entry in told.entries]
    assert ids == sorted(ids)
    every = list(told.ids.values())
    assert len(set(every)) == len(every)
    assert {(UUID(one).version, UUID(one).variant) for one in every} == {(7, "specified in RFC 4122")}
    for line, entry in zip(told.lines, told.entries, strict=True):
        made = datetime.fromtimestamp((UUID(entry.id).int >> 80) / 1000, UTC)
        from_the_exercise_book = line["written"][0] == FOUNDED
        assert made - datetime.fromisoformat(entry.at) < timedelta(days=1200 if from_the_exercise_book else 3)
        assert made >= datetime.fromisoformat(entry.at)


def test_the_same_day_gives_the_same_bytes():
    today = date(2026, 7, 1)
    assert [e.canonical for e in Told(today).entries] == [e.canonical for e in Told(today).entries]
