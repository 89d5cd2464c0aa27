"""The calendar over HTTP: a feed at a secret address, and single happenings for the phone that asks."""

import json
from contextlib import suppress
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from broodline.book.standing import Standing
from broodline.book.wire import parse_json
from broodline.errors import Busy, DiskFull, NotFound
from broodline.exchange.calendar_text import calendar_file
from broodline.reports.calendar_feed import Event, event_json, events
from broodline.reports.wishes import Wishes, read_wishes
from broodline.store.devices import Device
from broodline.store.shelf import Shelf
from broodline.web.desk import Desk
from broodline.web.device_list import moment
from broodline.web.guards import origin_asked_for, read_json_body
from broodline.web.replies import reply

TOKEN_BYTES = 16  # 128 bits: nobody finds it by trying
MEDIA_TYPE = "text/calendar; charset=utf-8"


async def give_calendar(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/calendar -> {on, made_at, read_at, events: [{uid, at, title, words, path}]}: the next events."""
    return reply(await _state(desk, device.id))


async def make_calendar(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/calendar {} -> {path} and what give_calendar says. The address is told here and never again; one
    made before ends."""
    parse_json(await read_json_body(request))
    token = desk.random_bytes(TOKEN_BYTES).hex()
    await desk.writer.run(lambda shelf: shelf.calendars.make(device.id, token))
    return reply({"path": f"/calendar/{token}.ics", **await _state(desk, device.id)})


async def end_calendar(desk: Desk, request: Request, device: Device) -> Response:
    """DELETE /api/v1/calendar"""
    await desk.writer.run(lambda shelf: shelf.calendars.end(device.id))
    return reply(await _state(desk, device.id))


async def give_feed(desk: Desk, request: Request) -> Response:
    """GET /calendar/{token}.ics: for calendars, which have no cookie. Raises NotFound."""
    token = request.path_params["token"]
    feed = await desk.reader.run(lambda shelf: shelf.calendars.by_token(token))
    if feed is None:
        raise NotFound(
            "There is no calendar at this address.", remedy="Make a new address on the Phone page, and subscribe to it."
        )
    if not desk.reader.shelf.calendars.is_read_lately(feed):
        with suppress(DiskFull, Busy):  # a book that can only be read still has a calendar
            await desk.writer.run(lambda shelf: shelf.calendars.read(feed))
    return await _file(desk, request, feed.device, None)


async def give_event(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/calendar/{uid}.ics: one happening, to be put into a calendar by hand. Raises NotFound."""
    return await _file(desk, request, device.id, request.path_params["uid"])


async def _file(desk: Desk, request: Request, device: str, only: str | None) -> Response:
    now = desk.clock()

    def ask(shelf: Shelf, standing: Standing) -> tuple[list[Event], str, int]:
        found = [one for one in events(standing, now, _wishes(shelf, device)) if only in (None, one.uid)]
        return found, standing.keeper.zone, shelf.log.count(shelf.holdings.current().id)

    found, zone, entries = await desk.look(ask)
    if only is not None and not found:
        raise NotFound("This is no longer due.", remedy="Look at the list again.")
    content = calendar_file(
        found, zone=zone, origin=origin_asked_for(request.headers, desk.settings), now=now, sequence=entries
    )
    headers = {"cache-control": "no-store"}
    if only is not None:
        headers["content-disposition"] = f'attachment; filename="broodline-{found[0].at:%Y-%m-%d}.ics"'
    return Response(content, headers=headers, media_type=MEDIA_TYPE)


def _wishes(shelf: Shelf, device: str) -> Wishes:
    """What the device is reminded of, and at what hour; the usual where it never said."""
    held = shelf.reminders.of(device)
    return Wishes() if held is None else read_wishes(json.loads(held.wishes))


async def _state(desk: Desk, device: str) -> dict[str, Any]:
    now = desk.clock()
    found = await desk.look(lambda shelf, standing: events(standing, now, _wishes(shelf, device)))
    feed = await desk.writer.run(lambda shelf: shelf.calendars.of(device))
    return {
        "on": feed is not None,
        "made_at": None if feed is None else moment(feed.made_ms),
        "read_at": None if feed is None or feed.read_ms is None else moment(feed.read_ms),
        "events": [event_json(one) for one in found if one.at >= now],
    }
