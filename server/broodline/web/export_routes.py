"""The book as files over HTTP: workbook, data package, JSON lines. Whoever may read the book may take it along."""

from collections.abc import Callable
from datetime import datetime

from starlette.requests import Request
from starlette.responses import Response

from broodline.book.standing import Standing
from broodline.errors import EnvelopeError
from broodline.exchange.datapackage import package_zip
from broodline.store.devices import Device
from broodline.store.log import all_rows
from broodline.store.shelf import Shelf
from broodline.web.desk import Desk
from broodline.web.exports import (
    book_lines,
    book_package,
    book_workbook,
    season_workbook,
    society_csv,
    this_season,
)
from broodline.web.guards import origin_asked_for
from broodline.web.papers import Wanted
from broodline.web.travelling import travel_file

LINES = "application/jsonl"
WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
ZIP = "application/zip"
CSV = "text/csv; charset=utf-8"


async def give_lines(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/book.jsonl: every entry, in the order of the log."""
    content = await desk.reports.run(lambda shelf: book_lines(_entries(shelf, device.holding)))
    return attached(content, LINES, f"broodline-{_today(desk)}.jsonl")


async def give_workbook(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/book.xlsx"""
    return await _workbook(desk, device, book_workbook, "broodline")


async def give_season_workbook(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/season.xlsx?year=: without a year the season that runs. Raises EnvelopeError."""
    asked = _asked_year(request)

    def make(standing: Standing, now: datetime) -> bytes:
        return season_workbook(standing, this_season(standing, now) if asked is None else asked, now)

    return await _workbook(desk, device, make, "season" if asked is None else f"season-{asked}")


async def give_package(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/book.zip: the data package."""
    now = desk.clock()

    def make(shelf: Shelf) -> bytes:
        standing, _ = desk.book.standing(device.holding)
        return package_zip(book_package(standing, _entries(shelf, device.holding), now), now)

    return attached(await desk.reports.run(make), ZIP, f"broodline-{_today(desk)}.zip")


async def give_society_return(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/society.csv?year="""
    now, asked = desk.clock(), _asked_year(request)

    def make(standing: Standing) -> bytes:
        return society_csv(standing, this_season(standing, now) if asked is None else asked)[0]

    content, _ = await desk.answer(device.holding, make)
    return attached(content, CSV, f"society-{asked or 'season'}.csv")


async def give_travel_file(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/exports/bird/{id}.zip: a bird's travelling papers"""
    wanted = Wanted(desk.clock(), None, origin_asked_for(request.headers, desk.settings), boxes=True)

    def make(shelf: Shelf) -> bytes:
        standing, _ = desk.book.standing(device.holding)
        return travel_file(standing, _entries(shelf, device.holding), request.path_params["id"], wanted)[0]

    return attached(await desk.reports.run(make), ZIP, "bird.zip")


def attached(content: bytes, media_type: str, name: str) -> Response:
    """A file to be saved. name: of plain letters."""
    headers = {"cache-control": "no-store", "content-disposition": f'attachment; filename="{name}"'}
    return Response(content, headers=headers, media_type=media_type)


async def _workbook(desk: Desk, device: Device, make: Callable[[Standing, datetime], bytes], name: str) -> Response:
    now = desk.clock()
    content, _ = await desk.answer(device.holding, lambda standing: make(standing, now))
    return attached(content, WORKBOOK, f"{name}-{_today(desk)}.xlsx")


def _asked_year(request: Request) -> int | None:
    asked = request.query_params.get("year")
    if asked is None:
        return None
    if not (asked.isascii() and asked.isdigit() and len(asked) == 4):
        raise EnvelopeError("year", "The year cannot be read.", remedy="Ask for a year such as 2026.")
    return int(asked)


def _entries(shelf: Shelf, holding: str) -> list[bytes]:
    return [document for _, document in all_rows(shelf.log, holding)]


def _today(desk: Desk) -> str:
    return desk.clock().date().isoformat()
