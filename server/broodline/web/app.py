"""The composition root of the server: everything is put together here, and the whole route table stands here."""

import asyncio
import secrets
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from functools import partial

from anyio import CapacityLimiter, create_task_group
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.routing import Route, request_response
from starlette.types import ASGIApp

from broodline.errors import BroodlineError
from broodline.jobs.kept_answers import KeptAnswers, keep_answers_fresh
from broodline.jobs.own_faults import place_of
from broodline.jobs.push_line import FindWay, public_way
from broodline.jobs.push_sender import PushSender, contact_of
from broodline.jobs.reminders import remind_by_itself
from broodline.jobs.web_push import own_key
from broodline.settings import Settings
from broodline.store.shelf import open_shelf
from broodline.sync.book_of import BookOf
from broodline.sync.pairing import Tries
from broodline.sync.sensors import MOST_A_MINUTE
from broodline.web.auth import KEEPERS, READERS, RECORDERS, anyone, only
from broodline.web.calendar_routes import end_calendar, give_calendar, give_event, give_feed, make_calendar
from broodline.web.desk import Desk, Thread
from broodline.web.export_routes import (
    give_lines,
    give_package,
    give_season_workbook,
    give_society_return,
    give_travel_file,
    give_workbook,
)
from broodline.web.guards import AIR_PATH, Doors
from broodline.web.health_routes import give_health
from broodline.web.import_routes import take_copy, take_table, take_travel_file
from broodline.web.journal import Journal
from broodline.web.pairing_routes import (
    give_device,
    give_devices,
    give_me,
    make_invitation,
    rename_device,
    revoke_device,
    take_pair,
)
from broodline.web.paper_routes import (
    give_away,
    give_cards,
    give_inspection,
    give_marks_paper,
    give_matings_paper,
    give_pedigree,
    give_season_paper,
    give_setting_paper,
    give_tally_card,
)
from broodline.web.photo_routes import give_photo, take_photo
from broodline.web.pwa_files import give_file
from broodline.web.reminder_routes import give_key, give_reminders, stop_reminders, take_reminders, try_reminder
from broodline.web.replies import on_crash, on_gone, on_http_fault, on_refusal
from broodline.web.report_routes import (
    give_brood,
    give_choose,
    give_due,
    give_family,
    give_flock,
    give_growth,
    give_matings,
    give_plan,
    give_season,
    give_setting,
    give_store,
    waiting_reports,
)
from broodline.web.sensor_routes import take_air
from broodline.web.sync_routes import give_pull, take_push


def system_clock() -> datetime:
    """The clock of this machine, in UTC."""
    return datetime.now(UTC)


def route_table(desk: Desk) -> list[Route]:
    """Every address of the server, with who may use it."""
    return [
        Route("/healthz", anyone(desk, give_health), methods=["GET"]),
        Route("/api/v1/pair", anyone(desk, take_pair), methods=["POST"]),
        Route("/api/v1/me", anyone(desk, give_me), methods=["GET"]),
        Route("/api/v1/devices", only(desk, KEEPERS, give_devices), methods=["GET"]),
        Route("/api/v1/devices/{id}", only(desk, KEEPERS, give_device), methods=["GET"]),
        Route("/api/v1/devices/{id}", only(desk, READERS, rename_device), methods=["POST"]),
        Route("/api/v1/devices/{id}", only(desk, READERS, revoke_device), methods=["DELETE"]),
        Route("/api/v1/invitations", only(desk, KEEPERS, make_invitation), methods=["POST"]),
        Route("/api/v1/push", only(desk, RECORDERS, take_push), methods=["POST"]),
        Route("/api/v1/pull", only(desk, READERS, give_pull), methods=["GET"]),
        Route("/api/v1/reports/setting/{id}", only(desk, READERS, give_setting), methods=["GET"]),
        Route("/api/v1/reports/season/{year:int}", only(desk, READERS, give_season), methods=["GET"]),
        Route("/api/v1/reports/brood/{lot}", only(desk, READERS, give_brood), methods=["GET"]),
        Route("/api/v1/reports/growth", only(desk, READERS, give_growth), methods=["GET"]),
        Route("/api/v1/reports/due", only(desk, READERS, give_due), methods=["GET"]),
        Route("/api/v1/reports/family", only(desk, READERS, give_family), methods=["GET"]),
        Route("/api/v1/reports/matings", only(desk, READERS, give_matings), methods=["GET"]),
        Route("/api/v1/reports/choose", only(desk, READERS, give_choose), methods=["GET"]),
        Route("/api/v1/reports/plan", only(desk, READERS, give_plan), methods=["GET"]),
        Route("/api/v1/reports/flock", only(desk, READERS, give_flock), methods=["GET"]),
        Route("/api/v1/reports/store", only(desk, READERS, give_store), methods=["GET"]),
        Route("/api/v1/papers/season/{year:int}.pdf", only(desk, READERS, give_season_paper), methods=["GET"]),
        Route("/api/v1/papers/marks/{year:int}.pdf", only(desk, READERS, give_marks_paper), methods=["GET"]),
        Route("/api/v1/papers/setting/{id}.pdf", only(desk, READERS, give_setting_paper), methods=["GET"]),
        Route("/api/v1/papers/cards/{id}.pdf", only(desk, READERS, give_cards), methods=["GET"]),
        Route("/api/v1/papers/tally/{id}.pdf", only(desk, READERS, give_tally_card), methods=["GET"]),
        Route("/api/v1/papers/pedigree/{id}.pdf", only(desk, READERS, give_pedigree), methods=["GET"]),
        Route("/api/v1/papers/matings.pdf", only(desk, READERS, give_matings_paper), methods=["GET"]),
        Route("/api/v1/papers/away.pdf", only(desk, READERS, give_away), methods=["GET"]),
        Route("/api/v1/papers/inspection.pdf", only(desk, READERS, give_inspection), methods=["GET"]),
        Route("/api/v1/exports/book.jsonl", only(desk, READERS, give_lines), methods=["GET"]),
        Route("/api/v1/exports/book.xlsx", only(desk, READERS, give_workbook), methods=["GET"]),
        Route("/api/v1/exports/book.zip", only(desk, READERS, give_package), methods=["GET"]),
        Route("/api/v1/exports/season.xlsx", only(desk, READERS, give_season_workbook), methods=["GET"]),
        Route("/api/v1/exports/society.csv", only(desk, KEEPERS, give_society_return), methods=["GET"]),
        Route("/api/v1/exports/bird/{id}.zip", only(desk, READERS, give_travel_file), methods=["GET"]),
        Route("/api/v1/imports/bird", only(desk, KEEPERS, take_travel_file), methods=["POST"]),
        Route("/api/v1/imports/sheet", only(desk, KEEPERS, take_table), methods=["POST"]),
        Route("/api/v1/imports/book", only(desk, KEEPERS, take_copy), methods=["POST"]),
        Route("/api/v1/reminders/key", only(desk, READERS, give_key), methods=["GET"]),
        Route("/api/v1/reminders/subscription", only(desk, READERS, give_reminders), methods=["GET"]),
        Route("/api/v1/reminders/subscription", only(desk, READERS, take_reminders), methods=["POST"]),
        Route("/api/v1/reminders/subscription", only(desk, READERS, stop_reminders), methods=["DELETE"]),
        Route("/api/v1/reminders/try", only(desk, READERS, try_reminder), methods=["POST"]),
        Route("/api/v1/calendar", only(desk, READERS, give_calendar), methods=["GET"]),
        Route("/api/v1/calendar", only(desk, READERS, make_calendar), methods=["POST"]),
        Route("/api/v1/calendar", only(desk, READERS, end_calendar), methods=["DELETE"]),
        Route("/api/v1/calendar/{uid}.ics", only(desk, READERS, give_event), methods=["GET"]),
        Route(AIR_PATH, anyone(desk, take_air), methods=["POST"]),
        Route("/calendar/{token}.ics", anyone(desk, give_feed), methods=["GET"]),
        Route("/api/v1/photos/{sha256}", only(desk, RECORDERS, take_photo), methods=["PUT"]),
        Route("/api/v1/photos/{sha256}", only(desk, READERS, give_photo), methods=["GET"]),
    ]  # everything else: the built app, see create_app


def open_desk(
    settings: Settings,
    clock: Callable[[], datetime] = system_clock,
    random_bytes: Callable[[int], bytes] = secrets.token_bytes,
    find_way: FindWay | None = None,
) -> Desk:
    """Open the book of the settings' folder for serving. find_way: to push services, where not the public one.

    Raises DiskFull, Busy or BookDamaged.
    """

    def now_ms() -> int:
        return int(clock().timestamp() * 1000)

    def thread(*, checkpoints: bool = False) -> Thread:
        shelf = open_shelf(
            settings.data_dir,
            now_ms=now_ms,
            random_bytes=random_bytes,
            demo=settings.demo,
            checkpoints=checkpoints,
        )
        return Thread(shelf, CapacityLimiter(1))

    writer, reader, reports = thread(checkpoints=True), thread(), thread()
    book = BookOf(reports.shelf.log)
    way = find_way or partial(public_way, more=settings.push_services)
    push = PushSender(own_key(settings.data_dir), contact_of(settings), now_ms, way)
    trials = Tries(now_ms, "Reminders were tried too often.")
    heard = Tries(now_ms, "This thermometer speaks too often.", MOST_A_MINUTE)
    unheard = Tries(now_ms, "Too many wrong tokens.")
    kept, news = KeptAnswers(), asyncio.Event()
    known = (settings, clock, random_bytes, writer, reader, reports, book, kept, news)
    return Desk(*known, Tries(now_ms), push, trials, heard, unheard)


def create_app(
    desk: Desk,
    tell: Callable[[str], None] = lambda _: None,
    write: Callable[[str], None] = lambda _: None,
    end: Callable[[], None] = lambda: None,
) -> ASGIApp:
    """The app over an open desk; it sends reminders and keeps reports ready, and closes the desk when it shuts down.

    tell: hears what stood in the way of a reminder. write: takes a line of the journal. end: ends the server, where
    something that goes on by itself ended by a fault.
    """

    async def watch(job: Callable[..., Awaitable[None]], *what: object) -> None:
        try:
            await job(*what)
        except Exception as fault:
            end()  # first: what stopped the job may be that nothing can be told
            tell(f"The server ends, to be started anew: {place_of(fault)}.")

    @asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[None]:
        try:
            async with create_task_group() as jobs:
                jobs.start_soon(watch, remind_by_itself, desk.look, desk.writer.run, desk.push.send, desk.clock, tell)
                desk.news.set()  # so that the book is added up before the first phone asks
                jobs.start_soon(watch, keep_answers_fresh, desk.news, partial(waiting_reports, desk), desk.renew, tell)
                yield
                jobs.cancel_scope.cancel()  # and then waits for a thread that is writing: the desk closes after it
        finally:
            desk.close()

    app = Starlette(
        routes=route_table(desk),
        exception_handlers={
            BroodlineError: on_refusal,
            HTTPException: on_http_fault,
            ClientDisconnect: on_gone,
            Exception: on_crash,
        },
        lifespan=lifespan,
    )
    app.router.redirect_slashes = False
    app.router.default = request_response(anyone(desk, give_file))
    routes = frozenset(route.path.replace(":int}", "}") for route in app.routes if isinstance(route, Route))
    return Journal(Doors(app, desk.settings), write, desk.clock, secrets.token_hex(4), routes)
