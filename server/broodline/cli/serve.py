"""`broodline serve`: the book on the network."""

import asyncio
import signal
import socket
from argparse import Namespace, _SubParsersAction
from contextlib import suppress
from dataclasses import replace
from typing import Any
from urllib.parse import urlsplit

import uvicorn

from broodline.cli.place import add_place, folder_of, note_address
from broodline.cli.printing import say, warn
from broodline.errors import Busy, WrongUse
from broodline.jobs.backup import back_up_daily
from broodline.settings import LOOPBACK, SERVE_PORT, Settings
from broodline.store.server_lock import ServerLock
from broodline.store.start_check import warnings_at_start
from broodline.web.app import create_app, open_desk
from broodline.web.desk import Desk

LISTEN_BACKLOG = 128
STOP_WITHIN_S = 5


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("serve", help="serve the book to the phones")
    add_place(parser)
    parser.add_argument("--host", default=LOOPBACK, help="the address to listen on (default: this machine only)")
    parser.add_argument("--port", type=int, default=SERVE_PORT)
    parser.add_argument("--public-origin", metavar="URL", help="the address phones use, such as https://book.example")
    parser.set_defaults(run=run_serve)


def run_serve(options: Namespace) -> int:
    """Serve until stopped."""
    folder = folder_of(options)
    origin = None if options.public_origin is None else read_origin(options.public_origin)
    return serve(Settings(folder, options.host, options.port, origin))


def serve(settings: Settings) -> int:
    """Open the book, say where it is served once it answers, and serve until stopped.

    Raises Busy where another server has the folder or the port, WrongUse where a demo's folder is not served as
    one or the other way round.
    """
    settings.data_dir.mkdir(parents=True, exist_ok=True, mode=0o700)
    with ServerLock(settings.data_dir), listen(settings) as listener:
        settings = replace(settings, port=listener.getsockname()[1])
        desk = open_desk(settings)
        if desk.writer.shelf.holdings.current().demo is not settings.demo:
            desk.close()
            raise WrongUse(
                "This folder holds the demo's book." if not settings.demo else "This folder holds a real book.",
                remedy="Use `broodline demo` for the demo's folder and `broodline serve` for any other.",
            )
        address = settings.public_origin or f"http://{_in_address(settings.host)}:{settings.port}"
        config = uvicorn.Config(
            create_app(desk, warn),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,  # whoever tries pairing codes is counted by their own address, not by one they name
            ws="none",
            lifespan="on",
            timeout_graceful_shutdown=STOP_WITHIN_S,
        )
        note_address(settings.data_dir, address)
        warnings = warnings_at_start(desk.writer.shelf.connection)
        announced = _Announced(config, f"Broodline answers at {address}/", warnings)
        signal.signal(signal.SIGTERM, signal.default_int_handler)  # being told to stop is no fault either
        with suppress(KeyboardInterrupt):  # stopping it by hand is the usual end
            asyncio.run(_serve_and_back_up(announced, listener, desk))
    return 0


async def _serve_and_back_up(server: uvicorn.Server, listener: socket.socket, desk: Desk) -> None:
    backups = asyncio.create_task(back_up_daily(desk.settings.data_dir, desk.clock, desk.random_bytes, warn))
    try:
        await server.serve([listener])
    finally:
        backups.cancel()


class _Announced(uvicorn.Server):
    """A server that says its address when it answers, not before, and then what its keeper should know."""

    def __init__(self, config: uvicorn.Config, line: str, warnings: list[str]) -> None:
        super().__init__(config)
        self._line = line
        self._warnings = warnings

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            say(self._line)
            for words in self._warnings:
                warn(words)


def read_origin(url: str) -> str:
    """The origin in an address. Raises WrongUse for anything that is none."""
    try:
        parts = urlsplit(url)
        well = parts.scheme in ("http", "https") and parts.hostname and parts.path in ("", "/")
    except ValueError:
        well = False
    if not well or parts.query or parts.fragment or parts.username:
        raise WrongUse(f"{url} is not an origin.", remedy="Write it as https://book.example.")
    return f"{parts.scheme}://{parts.netloc.lower()}"


def listen(settings: Settings) -> socket.socket:
    """The socket the server answers on. Raises Busy where the address cannot be had."""
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    try:
        listener = socket.create_server(
            (settings.host, settings.port), family=family, backlog=LISTEN_BACKLOG, reuse_port=False
        )
    except (OSError, OverflowError) as fault:
        raise Busy(
            f"Nothing can be served at {settings.host}, port {settings.port}: {fault}.",
            remedy="Stop what uses that port, or choose another with --port.",
        ) from fault
    # asyncio lets small answers go at once only on sockets that call themselves TCP; on others each waits 40 ms.
    return socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP, fileno=listener.detach())


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host
