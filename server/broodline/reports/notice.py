"""The agenda as reminders: which are to be sent now to a device with these wishes, and what they say.

A reminder belongs to a task of a setting on a date. Each of its slots (the evening before, the morning of) is sent
once; where both have passed only the later one is sent. What could not be sent in time says when it was due. A phone
may show it hours later, and its keeper read it the next day: so it names its day, and never says today or tomorrow.
"""

import base64
import hashlib
import json
from collections.abc import Container, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from broodline.book.standing import Standing
from broodline.reports.agenda import open_tasks, words_of
from broodline.reports.agenda_air import TASK as TASK_AIR
from broodline.reports.agenda_task import Task
from broodline.reports.air_alarm import AirAlarm, air_alarms
from broodline.reports.readings import place_of
from broodline.reports.wishes import Wishes, after_quiet, time_on
from broodline.trade.calendar import local_date
from broodline.trade.sources import cell, read_table

_TABLE = read_table("reminders")
_HOURS = {name: timedelta(hours=cell(written).value) for name, written in _TABLE["hours"].items()}
CAUGHT_UP = _HOURS["caught_up"]
_FAR = CAUGHT_UP + timedelta(days=3)  # no slot of a task lies further from it than a day and its quiet hours
TOPIC_LENGTH = 32  # RFC 8030, section 5.4: at most 32 letters of the URL-safe base 64
_AT_THE_MARKS = ("webs_again", "rings")
# A message holds 3,993 bytes (RFC 8291, section 4), with its address and its frame. A phone shows less than this.
MOST_TITLE, MOST_BODY = 800, 1600
SHOWN_DECLARATIVELY = 8030  # the number that marks a message a phone can show without our worker


@dataclass(frozen=True, slots=True)
class Notice:
    """One reminder. key: what is sent only once. topic: a newer one of the same task takes the place of an older.

    at: when it should come, UTC. lasts_s: for how long it is worth delivering. path: the screen a click opens. urgent:
    worth waking the phone for.
    """

    key: str
    topic: str
    task: str
    setting: str | None
    at: datetime
    title: str
    body: str
    path: str
    lasts_s: int
    urgent: bool = False


def notices(standing: Standing, now: datetime, wishes: Wishes, since: datetime, sent: Container[str]) -> list[Notice]:
    """What is to be sent at `now`, the earliest first. In quiet hours nothing but an alarm of air that kills. since:
    when the device asked for reminders: what came before was not promised. sent: keys already sent."""
    zone = standing.keeper.zone
    quiet = after_quiet(now, wishes, zone) > now
    tasks = () if quiet else (task for task in open_tasks(standing, now) if task.task in wishes.what)
    told = [_latest(standing, task, now, wishes) for task in tasks]
    if TASK_AIR in wishes.what:
        told += [_air(standing, alarm) for alarm in air_alarms(standing, now) if alarm.tier == "red" or not quiet]
    found = [
        notice
        for notice in told
        if notice is not None and max(since, now - CAUGHT_UP) < notice.at and notice.key not in sent
    ]
    return sorted(found, key=lambda notice: (notice.at, notice.key))


def _air(standing: Standing, alarm: AirAlarm) -> Notice:
    """One reminder for a spell, and another where it turns red."""
    place = place_of(standing, alarm.place)
    about = f"{TASK_AIR}/{alarm.place}"
    return Notice(
        key=f"{about}/{alarm.since:%Y-%m-%dT%H:%M}/{alarm.tier}",
        topic=topic_of(about),
        task=TASK_AIR,
        setting=alarm.setting,
        at=alarm.at,
        title=f"The air in {place.name if place is not None else 'a machine'}",
        body=alarm.words,
        path=f"/rooms/{alarm.place}/air",
        lasts_s=int(_HOURS["air_lasts"].total_seconds()),
        urgent=alarm.tier == "red",
    )


def payload(notice: Notice, origin: str) -> dict[str, Any]:
    """The message of a notice. origin: of the server, as that phone writes it."""
    return shown(notice.title, notice.body, origin + notice.path, notice.topic)


def shown(title: str, body: str, navigate: str, tag: str) -> dict[str, Any]:
    """A message in the declarative shape: browsers that know it show it by themselves, elsewhere our worker shows it.

    A newer one of a tag takes the older one's place and is heard again: the morning of, after the evening before.
    """
    title, body = cut(title, MOST_TITLE), cut(body, MOST_BODY)
    told = {"title": title, "body": body, "navigate": navigate, "tag": tag, "renotify": True}
    return {"web_push": SHOWN_DECLARATIVELY, "notification": told}


def cut(words: str, most_bytes: int) -> str:
    """Words of at most so many bytes as they stand in JSON; what had to be cut ends in an ellipsis.

    >>> cut("Loft box", 8), cut("Loft box", 7)
    ('Loft box', 'Loft…')
    """
    if _size(words) <= most_bytes:
        return words
    room, kept = most_bytes - _size("…"), ""
    for letter in words:
        room -= _size(letter)
        if room < 0:
            break
        kept += letter
    return kept.rstrip() + "…"


def _size(words: str) -> int:
    return len(json.dumps(words, ensure_ascii=False).encode()) - len('""')


def _latest(standing: Standing, task: Task, now: datetime, wishes: Wishes) -> Notice | None:
    """The reminder of the last slot of a task that has come, or None before the first."""
    if abs(task.at - now) > _FAR:
        return None
    zone = standing.keeper.zone
    day = day_told(task, zone)
    come = [(at, slot) for at, slot in slots_of(task, day, wishes, zone) if at <= now]
    if not come:
        return None
    at, slot = come[-1]
    # what is due every day until it is done, and asked for once a week, is told once
    told_on = task.since if _TABLE["tasks"][task.task].get("weekly") else day
    about = f"{task.task}/{task.lot or task.setting or task.plan or task.place}/{told_on}"
    today = date.fromisoformat(local_date(now, zone))
    over = time_on(day + timedelta(days=1), 0, zone)
    return Notice(
        key=f"{about}/{slot}",
        topic=topic_of(about),
        task=task.task,
        setting=task.setting,
        at=at,
        title=f"{name_of(task)}: {when_words(day, today)}",
        body=words_of(standing, task),
        path=path_of(task),
        lasts_s=int((over - now if over > now else _HOURS["late_lasts"]).total_seconds()),
    )


def day_told(task: Task, zone: str) -> date:
    """The day a task is told of; watching the hatch is due every day anew, and told once."""
    return date.fromisoformat(local_date(task.at, zone) if task.task == "hatch" else task.due)


def name_of(task: Task) -> str:
    """What a reminder of the task is called."""
    name: str = _TABLE["tasks"][task.task]["name"]
    return name


def slots_of(task: Task, day: date, wishes: Wishes, zone: str) -> Iterator[tuple[datetime, str]]:
    """When a task of that day is told, UTC, after quiet hours: (at, "evening_before" or "morning")."""
    for slot in _TABLE["tasks"][task.task]["slots"]:
        on = day - timedelta(days=1) if slot == "evening_before" else day
        yield after_quiet(time_on(on, wishes.minutes(slot), zone), wishes, zone), slot


def path_of(task: Task) -> str:
    """The screen where the task is done."""
    if task.task in _AT_THE_MARKS and task.lot is not None:
        return f"/again/{task.lot}"
    if task.plan is not None:
        return f"/rooms/set?plan={task.plan}"
    if task.setting is None and not task.place:
        return "/birds"
    return f"/broods/{task.place}" if task.setting is None else f"/setting/{task.setting}"


def topic_of(text: str) -> str:
    """A short name for it that a push service may read without learning anything."""
    return base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).decode()[:TOPIC_LENGTH]


def when_words(day: date, today: date) -> str:
    """The day, or honestly that it is over.

    >>> when_words(date(2026, 3, 3), date(2026, 3, 3)), when_words(date(2026, 3, 3), date(2026, 3, 4))
    ('Tuesday 3 March', 'was due on Tuesday 3 March')
    """
    return f"{'was due on ' if day < today else ''}{day:%A} {day.day} {day:%B}"
