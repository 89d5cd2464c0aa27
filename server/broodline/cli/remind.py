"""`broodline remind`: sends the reminders that wait, or says what would be sent."""

from argparse import Namespace, _SubParsersAction
from datetime import UTC, datetime
from functools import partial
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.place import add_place, folder_of, now_ms, open_book
from broodline.cli.printing import say, say_json, say_table
from broodline.cli.push import last_push
from broodline.errors import WrongUse
from broodline.jobs.push_line import public_way
from broodline.jobs.push_sender import PushSender
from broodline.jobs.reminders import note_outcome, send_one, waiting_for
from broodline.jobs.web_push import own_key
from broodline.reports.notice import CAUGHT_UP, Notice, notices
from broodline.reports.wishes import Wishes
from broodline.store.shelf import Shelf
from broodline.sync.book_of import BookOf
from broodline.trade.calendar import instant_text, local_time, zone_named

YEARS = range(1900, 9000)


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("remind", help="send the reminders that wait; a running server does it by itself")
    add_place(parser, json=True)
    parser.add_argument("--dry-run", action="store_true", help="only say what would be sent")
    parser.add_argument("--at", metavar="TIME", help="as if it were then, such as 2026-03-08T18:00 in the book's zone")
    parser.set_defaults(run=run_remind)


def run_remind(options: Namespace) -> int:
    """Send or tell. 1 where a reminder could not be sent."""
    with open_book(options) as shelf:
        standing, _ = BookOf(shelf.log).standing(shelf.holdings.current().id)
        zone = standing.keeper.zone
        at = _moment(options.at, zone)
        devices = len(shelf.reminders.to_remind())
        told = _usual(standing, at) if devices == 0 else _told(options, shelf, standing, at)
    if options.json:
        say_json({"at": instant_text(at), "devices": devices, "reminders": told})
    else:
        if devices == 0:
            say("No phone has reminders turned on. With the usual choice one would be sent:")
        rows = [
            (local_time(datetime.fromisoformat(one["at"]), zone), one["name"] or "", one["title"], one["body"])
            + ((one["words"] or "",) if not options.dry_run else ())
            for one in told
        ]
        headings = ("from", "phone", "reminder", "what", *(() if options.dry_run else ("result",)))
        say_table(headings, rows) if rows else say("Nothing to be reminded of at that time.")
    return 1 if any(one["sent"] is False for one in told) else 0


def _usual(standing: Standing, at: datetime) -> list[dict[str, Any]]:
    """What a phone with the usual choice would get, if it had asked long ago."""
    return [_json(notice) for notice in notices(standing, at, Wishes(), at - CAUGHT_UP, frozenset())]


def _told(options: Namespace, shelf: Shelf, standing: Standing, at: datetime) -> list[dict[str, Any]]:
    waiting = waiting_for(shelf, standing, at)
    if options.dry_run:
        return [_json(one.notice, one.to.device, one.to.name) for one in waiting]
    folder = folder_of(options)
    contact, services = last_push(folder)
    sender = PushSender(own_key(folder), contact, now_ms, partial(public_way, more=services))
    told = []
    for one in waiting:
        outcome = send_one(sender.send, one)
        note_outcome(shelf, one, outcome)
        told.append(_json(one.notice, one.to.device, one.to.name) | {"sent": outcome.sent, "words": outcome.words})
    return told


def _json(notice: Notice, device: str | None = None, name: str | None = None) -> dict[str, Any]:
    """sent, words: null where nothing was tried."""
    return {
        "device": device,
        "name": name,
        "task": notice.task,
        "setting": notice.setting,
        "at": instant_text(notice.at),
        "title": notice.title,
        "body": notice.body,
        "path": notice.path,
        "sent": None,
        "words": None,
    }


def _moment(text: str | None, zone: str) -> datetime:
    if text is None:
        return datetime.now(UTC)
    try:
        read = datetime.fromisoformat(text)
    except ValueError as fault:
        raise WrongUse(f"{text} is no time.", remedy="Write it as 2026-03-08T18:00.") from fault
    if read.year not in YEARS:
        raise WrongUse(f"{text} is too far away.", remedy="Write it as 2026-03-08T18:00.")
    return (read if read.tzinfo else read.replace(tzinfo=zone_named(zone) or UTC)).astimezone(UTC)
