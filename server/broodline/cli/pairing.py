"""`broodline pair` and `broodline devices`: letting phones in, and out. Both work while the server runs."""

import io
import secrets
from argparse import Namespace, _SubParsersAction
from typing import Any

import segno

from broodline.cli.place import add_place, folder_of, last_address, last_install_page, open_book
from broodline.cli.printing import say, say_json, say_table
from broodline.errors import WrongUse
from broodline.store.devices import ROLES
from broodline.sync.pairing import invite
from broodline.web.device_list import device_json, moment


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the commands."""
    pair = commands.add_parser("pair", help="make a one-time code that pairs a phone")
    add_place(pair, json=True)
    pair.add_argument("--role", choices=ROLES, default="keeper", help="what the phone may do (default: keeper)")
    pair.set_defaults(run=run_pair)
    devices = commands.add_parser("devices", help="list paired devices, or end a pairing")
    add_place(devices, json=True)
    devices.add_argument("action", nargs="?", choices=("revoke",), help="end the pairing of a device")
    devices.add_argument("id", nargs="?", help="which device")
    devices.set_defaults(run=run_devices)


def run_pair(options: Namespace) -> int:
    """Print a code. The QR picture holds the app's address only: a code in it would land in the wrong browser."""
    with open_book(options) as shelf:
        made = invite(shelf.devices, shelf.holdings.current().id, options.role, secrets.token_bytes)
    if options.json:
        say_json({"code": made.code, "role": made.role, "expires_at": moment(made.expires_ms)})
        return 0
    install_page = last_install_page(folder_of(options))
    if (address := install_page or last_address(folder_of(options))) is not None:
        picture = io.StringIO()
        segno.make(address, micro=False).terminal(picture, compact=True)
        say(picture.getvalue())
        if install_page is not None:
            say(f"Open {address} on the phone and follow its steps. Then type this in the app:")
        else:
            say(f"Open {address} on the phone, install the app, and type this in the app:")
    say(f"Pairing code: {made.code[:4]}-{made.code[4:]}")
    say(f"It pairs one {made.role}'s phone and works once, for ten minutes.")
    return 0


def run_devices(options: Namespace) -> int:
    """List devices, or revoke one."""
    if options.action == "revoke" and options.id is None:
        raise WrongUse("Which device?", remedy="Write `broodline devices revoke ID`; `broodline devices` lists them.")
    with open_book(options) as shelf:
        if options.action == "revoke":
            revoked = shelf.devices.revoke(options.id)
            if options.json:
                say_json({"device": device_json(revoked)})
            else:
                say(f"{revoked.name} is no longer paired. What it recorded stays.")
            return 0
        devices = shelf.devices.all()
    if options.json:
        say_json({"devices": [device_json(device) for device in devices]})
        return 0
    say_table(
        ("id", "name", "role", "paired", "last seen", "revoked"),
        [
            (
                device.id,
                device.name,
                device.role,
                moment(device.created_ms)[:10],
                moment(device.last_seen_ms)[:10],
                "" if device.revoked_ms is None else moment(device.revoked_ms)[:10],
            )
            for device in devices
        ],
    )
    return 0
