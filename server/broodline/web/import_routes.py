"""Spreadsheets and copies over HTTP: tried, taken in, undone."""

import base64
from functools import partial
from typing import Any

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import Response

from broodline.book.moments import day_of_text
from broodline.book.wire import load_json
from broodline.errors import EnvelopeError, TooLarge
from broodline.exchange.archive import Line, read_lines
from broodline.exchange.table_in import MOST_BYTES
from broodline.exchange.told_in import read_told
from broodline.store.devices import Device
from broodline.store.shelf import Shelf
from broodline.sync.copies import CopyTaken, in_batches
from broodline.web.desk import Desk
from broodline.web.guards import read_json_body
from broodline.web.imports import read_sheet, store_sheet
from broodline.web.replies import reply
from broodline.web.travelling import HOW, take_bird

MOST_BODY_BYTES = MOST_BYTES * 4 // 3 + 64 * 1024  # in base64, with the words beside it


async def take_table(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/imports/sheet?dry_run=1&undo=1 {name, text or base64, kind?, columns?, dates?, species?, breed?,
    sheet?, sheets?}: as `told_in.read_told` reads them."""
    words, content = await _words(request)
    told, name, now = read_told(words), _name(words), desk.clock()
    dry_run, undo = _is_on(request, "dry_run"), _is_on(request, "undo")
    read, _ = await desk.answer(
        device.holding, lambda standing: read_sheet(standing, name, content, told, now, undo=undo)
    )
    taken = await desk.writer.run(lambda shelf: store_sheet(shelf.log, device.holding, read, dry_run=dry_run))
    desk.news.set()
    return reply(taken)


async def take_copy(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/imports/book?dry_run=1 {name, text or base64}: JSON lines, as the export wrote them."""
    _, content = await _words(request)
    dry_run = _is_on(request, "dry_run")
    taken = CopyTaken(device.holding, dry_run=dry_run)
    batches = in_batches(read_lines(content.splitlines()))
    while batch := await to_thread.run_sync(next, batches, None):
        await desk.writer.run(partial(_take_lines, taken=taken, lines=batch))  # pushes come in between
        desk.news.set()
    told = [line.as_json() for line in taken.bad]
    counts = taken.counts
    return reply({"dry_run": dry_run, "added": counts["stored"], "known": counts["duplicate"], "bad": told})


async def take_travel_file(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/imports/bird?dry_run=1 {name, text or base64, on, how?, from?}: a bird's travelling papers."""
    words, content = await _words(request)
    now, dry_run = desk.clock(), _is_on(request, "dry_run")
    how, origin = words.get("how", "bought"), words.get("from")
    if how not in HOW or not (origin is None or isinstance(origin, str)):
        raise EnvelopeError("how", "How it came cannot be read.", remedy=f"Say one of: {', '.join(HOW)}.")
    try:
        on = day_of_text(str(words.get("on")))
    except ValueError as fault:
        raise EnvelopeError("on", "The day it came cannot be read.", remedy="Write it as 2026-03-08.") from fault

    standing, _ = await desk.answer(device.holding, lambda standing: standing)

    def take(shelf: Shelf) -> dict[str, Any]:
        return take_bird(shelf.log, device.holding, standing, content, now, on, how, origin, dry_run=dry_run)

    taken = await desk.writer.run(take)
    desk.news.set()
    return reply(taken)


def _take_lines(shelf: Shelf, taken: CopyTaken, lines: list[Line]) -> None:
    taken.take(shelf.log, lines)


async def _words(request: Request) -> tuple[dict[str, Any], bytes]:
    """The words of a request and the content of its file, read off the event loop: a large one takes seconds."""
    return await to_thread.run_sync(_read, await read_json_body(request, MOST_BODY_BYTES))


def _read(sent: bytes) -> tuple[dict[str, Any], bytes]:
    body = load_json(sent)
    if not isinstance(body, dict):
        raise EnvelopeError("$", "A file comes as an object.", remedy="Send {name, text} or {name, base64}.")
    return body, _content(body)


def _name(words: dict[str, Any]) -> str:
    name = words.get("name")
    if not isinstance(name, str) or not name:
        raise EnvelopeError("name", "The file has no name.", remedy="Send its name: the ending says what it is.")
    return name


def _content(words: dict[str, Any]) -> bytes:
    text, packed = words.get("text"), words.get("base64")
    if isinstance(text, str):
        content = text.encode("utf-8", "replace")
    elif isinstance(packed, str):
        try:
            content = base64.b64decode(packed, validate=True)
        except ValueError as fault:
            raise EnvelopeError("base64", "The file's bytes cannot be read.", remedy="Choose the file anew.") from fault
    else:
        raise EnvelopeError("text", "The file has no content.", remedy="Send it as text or base64.")
    if len(content) > MOST_BYTES:
        raise TooLarge(f"The file is over {MOST_BYTES // 1024 // 1024} MiB.", remedy="Split it and take in the parts.")
    return content


def _is_on(request: Request, name: str) -> bool:
    return request.query_params.get(name, "0") not in ("", "0", "false")
