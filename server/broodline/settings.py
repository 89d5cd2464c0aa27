"""What a server or a command is told once, at its start. Read by web, jobs and cli only."""

import os
import sys
from dataclasses import dataclass
from pathlib import Path

SERVE_PORT = 8420
DEMO_PORT = 8421
INSTALL_PORT = 8422
HOUSE_NAME = "broodline.home.arpa"
LOOPBACK = "127.0.0.1"


@dataclass(frozen=True, slots=True)
class Settings:
    """Where the book lies and where it is served.

    public_origin: scheme, name and port as phones write them, such as https://book.example, or None on one machine.
    house: whether this server itself speaks https, under an authority of the house. proxies: the addresses of the
    reverse proxies in front of it; what they say of a request's sender and name is believed, and nobody else's word.
    contact: whom push services may write to, as mailto: or https:. push_services: names of push services beside the
    browser makers' own; one that begins with a dot stands for all below it.
    """

    data_dir: Path
    host: str = LOOPBACK
    port: int = SERVE_PORT
    public_origin: str | None = None
    demo: bool = False
    house: bool = False
    proxies: frozenset[str] = frozenset()
    contact: str | None = None
    push_services: frozenset[str] = frozenset()


def user_data_dir() -> Path:
    """The folder this platform gives a person's programs for their data, with our name at its end."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "Broodline"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Broodline"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "broodline"


def demo_data_dir() -> Path:
    """The demo's own folder, beside the book's and never the same."""
    book = user_data_dir()
    return book.with_name(book.name + "-demo")
