"""`broodline serve --house`: https in the house under its own authority, renewed by itself, and the page that tells
phones how to trust it."""

import asyncio
import contextlib
import socket
import ssl
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import uvicorn

from broodline.errors import BroodlineError
from broodline.jobs.house_authority import (
    Authority,
    is_private,
    own_addresses,
    own_authority,
    own_certificate,
)
from broodline.jobs.own_faults import place_of
from broodline.settings import Settings
from broodline.web.install_page import install_app

FIRST_AFTER_S = 60.0  # a machine without a clock of its own has asked the network for the time by then
LOOK_EVERY_S = 6 * 3600.0
HTTPS_PORT = 443


@dataclass(frozen=True, slots=True)
class House:
    """What a server of a house shows itself with. addresses: of the book, as phones write them."""

    data_dir: Path
    authority: Authority
    machine: tuple[str, ...]
    addresses: tuple[str, ...]
    install_page: str
    install_listener: socket.socket

    def certify(self, now: datetime) -> tuple[Path, Path, bool]:
        """The certificate and its key as they serve now, and whether they are new."""
        made = own_certificate(self.data_dir, self.authority, self.machine, now)
        return made.certificate, made.key, made.made


def house_origin(name: str, port: int) -> str:
    """The address of a book in a house."""
    return f"https://{name}" if port == HTTPS_PORT else f"https://{name}:{port}"


def open_house(settings: Settings, name: str, install_listener: socket.socket, now: datetime) -> House:
    """The house of a folder: its authority, made the first time. Raises WrongUse and BookDamaged."""
    authority = own_authority(settings.data_dir, name, now)
    machine = own_addresses()
    if is_private(settings.host) and settings.host not in machine:
        machine.insert(0, settings.host)
    here = [one for one in machine if ":" not in one]
    port = install_listener.getsockname()[1]
    return House(
        settings.data_dir,
        authority,
        tuple(machine),
        tuple(house_origin(one, settings.port) for one in (name, *here)),
        f"http://{here[0]}:{port}/",
        install_listener,
    )


def lines_of(house: House) -> list[str]:
    """What is said when it answers: where phones begin, and what they compare."""
    others = " or ".join(house.addresses[1:])
    return [
        f"Begin on each phone at {house.install_page} – it says how to trust this server.",
        f"Compare the fingerprint there: {house.authority.fingerprint}",
        f"The same book also at {others}. A phone keeps its book under the one it was opened at: choose once.",
    ]


class InstallServer(uvicorn.Server):
    """The page's own little server. Signals are the book's business."""

    def __init__(self, house: House) -> None:
        config = uvicorn.Config(
            install_app(house.authority, house.addresses),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            ws="none",
            lifespan="off",
            timeout_graceful_shutdown=1,
        )
        super().__init__(config)

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        yield


async def renew_by_itself(
    house: House,
    context: Callable[[], ssl.SSLContext | None],
    clock: Callable[[], datetime],
    tell: Callable[[str], None],
) -> None:
    """Look soon after the start and then a few times a day whether the certificate ends soon; a new one is shown from
    the next connection on.

    What goes wrong is told and never stops the server.
    """
    wait_s = FIRST_AFTER_S
    while True:
        await asyncio.sleep(wait_s)
        wait_s = LOOK_EVERY_S
        try:
            certificate, key, made = house.certify(clock())
            shown = context()
            if made and shown is not None:
                shown.load_cert_chain(certificate, key)
        except (BroodlineError, OSError) as fault:
            tell(f"The certificate could not be renewed: {fault}")
        except Exception as fault:
            tell(f"The certificate could not be renewed: {place_of(fault)}.")
