"""`broodline serve`: the book on the network."""

import asyncio
import errno
import signal
import socket
from argparse import Namespace, _SubParsersAction
from contextlib import suppress
from dataclasses import replace
from typing import Any

import uvicorn

from broodline.cli.addresses import EVERYWHERE, read_origin, read_proxies, served_at
from broodline.cli.house import House, InstallServer, house_origin, lines_of, open_house, renew_by_itself
from broodline.cli.place import add_place, folder_of, note_address
from broodline.cli.printing import say, warn
from broodline.cli.push import add_push, note_push, push_warnings, read_contact, read_services
from broodline.errors import Busy, WrongUse
from broodline.jobs.backup import back_up_daily
from broodline.jobs.own_faults import place_of
from broodline.settings import HOUSE_NAME, INSTALL_PORT, LOOPBACK, SERVE_PORT, Settings
from broodline.store.server_lock import ServerLock
from broodline.store.start_check import warnings_at_start
from broodline.web.app import create_app, open_desk, system_clock
from broodline.web.desk import Desk

LISTEN_BACKLOG = 128
STOP_WITHIN_S = 5
MOST_PORT = 65535
_WHY = {
    errno.EADDRINUSE: "another program uses that port",
    errno.EACCES: "this user may not use that port",
    errno.EADDRNOTAVAIL: "this machine has no such address",
    socket.EAI_NONAME: "there is no such address",
}
_OF_THE_PORT = (errno.EADDRINUSE, errno.EACCES)


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("serve", help="serve the book to the phones")
    add_place(parser)
    parser.add_argument("--host", help="the address to listen on (default: this machine only; with --house all)")
    parser.add_argument("--port", type=int, default=SERVE_PORT)
    parser.add_argument("--public-origin", metavar="URL", help="the address phones use, such as https://book.example")
    parser.add_argument(
        "--proxy",
        action="append",
        default=[],
        metavar="ADDRESS",
        help="the address of the reverse proxy in front: what it says of a request's sender is believed",
    )
    parser.add_argument(
        "--house", action="store_true", help="https for the home network, under an authority of its own"
    )
    parser.add_argument(
        "--house-name", default=HOUSE_NAME, metavar="NAME", help=f"its name, for good (default: {HOUSE_NAME})"
    )
    parser.add_argument(
        "--install-port", type=int, default=INSTALL_PORT, help="where phones read how to trust it (plain http)"
    )
    add_push(parser)
    parser.set_defaults(run=run_serve)


def run_serve(options: Namespace) -> int:
    """Serve until stopped."""
    folder = folder_of(options)
    told = Settings(folder, contact=read_contact(options.contact), push_services=read_services(options))
    if not options.house:
        origin = None if options.public_origin is None else read_origin(options.public_origin)
        proxies = read_proxies(options.proxy)
        host, port = options.host or LOOPBACK, options.port
        return serve(replace(told, host=host, port=port, public_origin=origin, proxies=proxies))
    if options.public_origin is not None or options.proxy:
        raise WrongUse(
            "--house is for a server without a proxy in front.", remedy="Use either --house or --public-origin."
        )
    origin = house_origin(options.house_name, options.port)
    settings = replace(told, host=options.host or EVERYWHERE, port=options.port, public_origin=origin, house=True)
    with listen(replace(settings, port=options.install_port), "--install-port") as install_listener:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        return serve(settings, open_house(settings, options.house_name, install_listener, system_clock()))


def serve(settings: Settings, house: House | None = None) -> int:
    """Open the book, say where it is served once it answers, and serve until stopped. Returns 1 where a part of it
    ended by a fault, so that whatever keeps it running starts it again: half a server looks whole from outside.

    A demo's folder is served to phones that pair, as any other; only `broodline demo` opens it to whoever sits at this
    machine. Raises Busy where another server has the folder or the port, WrongUse where a real book would be so opened.
    """
    settings.data_dir.mkdir(parents=True, exist_ok=True, mode=0o700)
    with ServerLock(settings.data_dir), listen(settings) as listener:
        settings = replace(settings, port=listener.getsockname()[1])
        desk = open_desk(settings)
        if settings.demo and not desk.writer.shelf.holdings.current().demo:
            desk.close()
            raise WrongUse("This folder holds a real book.", remedy="Use `broodline serve` for it.")
        addresses = [settings.public_origin] if settings.public_origin else served_at(settings.host, settings.port)
        certificate = None if house is None else house.certify(desk.clock())
        config = uvicorn.Config(
            create_app(desk, warn, warn, lambda: announced.end_with_fault()),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,  # web/guards.py believes the proxies that were named, and nobody else
            ws="none",
            lifespan="on",
            timeout_graceful_shutdown=STOP_WITHIN_S,
            ssl_certfile=None if certificate is None else str(certificate[0]),
            ssl_keyfile=None if certificate is None else str(certificate[1]),
        )
        note_address(settings.data_dir, addresses[0], None if house is None else house.install_page)
        note_push(settings)
        others = [f"The same book also at {one}/" for one in addresses[1:]]
        lines = [f"Broodline answers at {addresses[0]}/", *others, *([] if house is None else lines_of(house))]
        warnings = [*warnings_at_start(desk.writer.shelf.connection), *push_warnings(settings)]
        announced = _Announced(config, lines, warnings)
        signal.signal(signal.SIGTERM, signal.default_int_handler)  # being told to stop is no fault either
        with suppress(KeyboardInterrupt):  # stopping it by hand is the usual end
            asyncio.run(_serve_with_jobs(announced, listener, desk, house))
    return 1 if announced.faulty else 0


async def _serve_with_jobs(server: "_Announced", listener: socket.socket, desk: Desk, house: House | None) -> None:
    jobs = [back_up_daily(desk.settings.data_dir, desk.clock, desk.random_bytes, warn)]
    if house is not None:
        jobs.append(renew_by_itself(house, lambda: server.config.ssl, desk.clock, warn))
        jobs.append(InstallServer(house).serve([house.install_listener]))
    running = [asyncio.create_task(job) for job in jobs]
    for task in running:
        task.add_done_callback(server.look_after)
    try:
        await server.serve([listener])
    finally:
        for job in running:
            job.cancel()


class _Announced(uvicorn.Server):
    """A server that says its address when it answers, not before, and then what its keeper should know."""

    def __init__(self, config: uvicorn.Config, lines: list[str], warnings: list[str]) -> None:
        super().__init__(config)
        self._lines = lines
        self._warnings = warnings
        self.faulty = False

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            with suppress(OSError):  # where nobody can be told, phones are served all the same
                for line in self._lines:
                    say(line)
            for words in self._warnings:
                warn(words)

    def end_with_fault(self) -> None:
        """Answer what was asked, then end."""
        self.faulty = True
        self.should_exit = True

    def look_after(self, job: "asyncio.Task[None]") -> None:
        """End with a job that ended by itself: none of them should."""
        if job.cancelled() or self.should_exit:
            return
        fault = job.exception()
        warn(f"The server ends, to be started anew: {'a part of it stopped' if fault is None else place_of(fault)}.")
        self.end_with_fault()


def listen(settings: Settings, port_option: str = "--port") -> socket.socket:
    """The socket the server answers on. port_option: where its port was chosen. Raises Busy where the address cannot
    be had."""
    if not 0 <= settings.port <= MOST_PORT:
        raise Busy(f"{settings.port} is no port.", remedy=f"Choose one up to {MOST_PORT} with {port_option}.")
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    try:
        listener = socket.create_server(
            (settings.host, settings.port), family=family, backlog=LISTEN_BACKLOG, reuse_port=False
        )
    except OSError as fault:
        why = _WHY.get(fault.errno or 0, (fault.strerror or str(fault)).lower())
        raise Busy(
            f"Nothing can be served at {settings.host}, port {settings.port}: {why}.",
            remedy=f"Stop what uses that port, or choose another with {port_option}."
            if fault.errno in _OF_THE_PORT
            else "Name an address of this machine with --host.",
        ) from fault
    # asyncio lets small answers go at once only on sockets that call themselves TCP; on others each waits 40 ms.
    return socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP, fileno=listener.detach())
