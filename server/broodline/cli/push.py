"""What a server is told of push services: whom they may write to, and which there are beside the browser makers' own.
Kept in the book's folder for commands beside the server."""

import json
import re
from argparse import ArgumentParser, Namespace
from pathlib import Path
from urllib.parse import urlsplit

from broodline.errors import WrongUse
from broodline.jobs.push_sender import NOBODY_ASKED, contact_of
from broodline.settings import Settings

PUSH_FILE = "push.json"
NEEDS_CONTACT = (
    "Reminders on iPhones and iPads need somebody to write to: start with --contact YOU@YOUR.MAIL. Apple's push "
    "service takes nothing from a server that names nobody."
)
_MAIL = re.compile(r"[^@\s,;:<>]+@[^@\s,;:<>]+\.[^@\s,;:<>.]+")
_SERVICE = re.compile(r"\.?([a-z0-9]([a-z0-9-]*[a-z0-9])?\.)+[a-z][a-z0-9-]*[a-z0-9]")


def add_push(parser: ArgumentParser) -> None:
    """The options about push services."""
    parser.add_argument(
        "--contact", metavar="MAIL", help="whom push services may write to: your mail address, or an https address"
    )
    parser.add_argument(
        "--push-service",
        action="append",
        default=[],
        metavar="NAME",
        help="a push service beside those of the browser makers, by its name; .NAME: and all below it",
    )


def read_contact(text: str | None) -> str | None:
    """The contact as mailto: or https:. Raises WrongUse for what is neither."""
    if text is None:
        return None
    if _MAIL.fullmatch(text.removeprefix("mailto:")):
        return f"mailto:{text.removeprefix('mailto:')}"
    try:
        parts = urlsplit(text)
    except ValueError:
        parts = urlsplit("")
    if parts.scheme != "https" or "." not in (parts.hostname or ""):
        raise WrongUse(
            f"{text} is nobody to write to.", remedy="Write your mail address, as in --contact ann@farm.example."
        )
    return text


def read_services(options: Namespace) -> frozenset[str]:
    """The further push services. Raises WrongUse for what is no name of one."""
    for name in options.push_service:
        if not _SERVICE.fullmatch(name):
            raise WrongUse(f"{name} is no name of a push service.", remedy="Write its host alone, as push.example.org.")
    return frozenset(options.push_service)


def note_push(settings: Settings) -> None:
    """Remember what the server of this folder was told."""
    told = {"contact": contact_of(settings), "services": sorted(settings.push_services)}
    (settings.data_dir / PUSH_FILE).write_text(json.dumps(told) + "\n", encoding="utf-8")


def last_push(folder: Path) -> tuple[str, list[str]]:
    """The contact and the further push services of the server that ran here last."""
    try:
        told = json.loads((folder / PUSH_FILE).read_text(encoding="utf-8"))
        return str(told["contact"]), [str(name) for name in told["services"]]
    except (OSError, ValueError, LookupError, TypeError):
        return NOBODY_ASKED, []


def push_warnings(settings: Settings) -> list[str]:
    """What the keeper of a server that phones reach by https should know at its start."""
    reached = settings.public_origin is not None and settings.public_origin.startswith("https://")
    return [NEEDS_CONTACT] if reached and contact_of(settings) == NOBODY_ASKED else []
