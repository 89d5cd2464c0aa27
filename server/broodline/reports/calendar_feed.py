"""The agenda as a calendar: one happening for each time a reminder would come, however far ahead.

It says what, where and how many. Notes, families, keepers and the holding's name stay out: a calendar is often read
by a company's machine.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from broodline.book.standing import Standing
from broodline.reports.agenda import open_tasks, words_of
from broodline.reports.agenda_task import Task
from broodline.reports.notice import day_told, name_of, path_of, slots_of, topic_of
from broodline.reports.wishes import Wishes
from broodline.trade.calendar import instant_text

AHEAD = timedelta(days=400)
BEHIND = timedelta(days=30)  # what is overdue for longer is no news in a calendar


@dataclass(frozen=True, slots=True)
class Event:
    """One happening. uid: the same for the same task, also when a correction moves its time. at: UTC."""

    uid: str
    at: datetime
    title: str
    words: str
    path: str


def events(standing: Standing, now: datetime, wishes: Wishes) -> list[Event]:
    """What the book still asks for and these wishes name, the earliest first. What is done is not in it."""
    zone = standing.keeper.zone
    found: dict[str, Event] = {}
    for task in open_tasks(standing, now):
        if task.task not in wishes.what or not -BEHIND < task.at - now < AHEAD:
            continue
        for at, slot in slots_of(task, day_told(task, zone), wishes, zone):
            title = name_of(task) if slot == "morning" else f"{name_of(task)} tomorrow"
            event = Event(_uid(task, slot), at, title, words_of(standing, task), path_of(task))
            found.setdefault(event.uid, event)
    return sorted(found.values(), key=lambda one: (one.at, one.uid))


def event_json(event: Event) -> dict[str, Any]:
    """An event as the phone is told it."""
    return {
        "uid": event.uid,
        "at": instant_text(event.at),
        "title": event.title,
        "words": event.words,
        "path": event.path,
    }


def _uid(task: Task, slot: str) -> str:
    """By lot or setting and the day of incubation or age; a place has many broods, so its tasks are known by date."""
    about = task.lot or task.setting or task.plan
    which = f"{about}/{task.day}" if about else f"{task.place}/{task.due}"
    return topic_of(f"calendar/{task.task}/{which}/{slot}")
