"""The server's journal: one line of JSON for each request that changed something or was refused, with its id.

What a line tells is chosen, not filtered: method, the route as the table writes it (an address may hold a secret), the
device's id, who asked, status, how long. No header, no query, no body and no path of a keeper ever stands in it. The
id goes back to the phone in `x-request-id`, so that what a keeper saw can be found.
"""

import json
from collections.abc import Callable
from datetime import datetime
from itertools import count

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from broodline.trade.calendar import instant_text

QUIET = frozenset({"GET", "HEAD"})  # what only reads and went well is not worth a line
DEVICE = "broodline.device"  # where auth.py notes in the scope whose request it is
APP = "(app)"  # every address that is not in the route table


class Journal:
    """Stands around everything, doors included. write: takes a line. nonce: of this start, so that ids never repeat."""

    def __init__(
        self,
        app: ASGIApp,
        write: Callable[[str], None],
        clock: Callable[[], datetime],
        nonce: str,
        routes: frozenset[str],
    ) -> None:
        self._app = app
        self._write = write
        self._clock = clock
        self._nonce = nonce
        self._routes = routes
        self._numbers = count(1)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        request_id = f"{self._nonce}-{next(self._numbers)}"
        began = self._clock()
        status = 0

        async def send_named(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                MutableHeaders(scope=message)["x-request-id"] = request_id
            await send(message)

        fault: BaseException | None = None
        try:
            await self._app(scope, receive, send_named)
        except Exception as raised:
            fault = raised
            raise
        finally:
            if fault is not None or status >= 400 or scope["method"] not in QUIET:
                self._write(self._line(scope, request_id, began, status, fault))

    def _line(self, scope: Scope, request_id: str, began: datetime, status: int, fault: BaseException | None) -> str:
        told = {
            "at": instant_text(began),
            "id": request_id,
            "method": scope["method"] if scope["method"].isalpha() and len(scope["method"]) < 12 else "?",
            "route": self._route(scope),
            "status": status,
            "ms": round((self._clock() - began).total_seconds() * 1000),
            "from": scope["client"][0] if scope["client"] else None,
            "device": scope.get(DEVICE),
        }
        if fault is not None:
            told["fault"] = type(fault).__name__  # its words may quote what was sent; the traceback says where
        return json.dumps(told)

    def _route(self, scope: Scope) -> str:
        """The route as the table writes it."""
        path: str = scope["path"]
        for name, value in scope.get("path_params", {}).items():
            path = path.replace(str(value), f"{{{name}}}") if str(value) else path
        return path if path in self._routes else APP
