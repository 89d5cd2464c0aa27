"""`broodline pair` and `broodline devices`: letting phones in, and out. Both work while the server runs."""

import io
import secrets
from argparse import Namespace, _SubParsersAction
from typing import Any

import segno

from broodline.cli.place import add_place, folder_of, last_address, last_install_page, open_book
from broodline.cli.printing import holds, say, say_json, say_table
from broodline.errors import WrongUse
from broodline.store.devices import ROLES, Device
from broodline.sync.pairing import invite, read_name
from broodline.web.device_list import device_json, moment


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the commands."""
    pair = commands.add_parser("pair", help="make a one-time code that pairs a phone")
    add_place(pair, json=True)
    pair.add_argument("--role", choices=ROLES, default="keeper", help="what the phone may do (default: keeper)")
    pair.set_defaults(run=run_pair)
    devices = commands.add_parser("devices", help="list paired devices, name them, or end a pairing")
    add_place(devices, json=True)
    devices.add_argument("action", nargs="?", choices=("revoke", "lost", "rename"), help="end a pairing, or name it")
    devices.add_argument("id", nargs="?", help="which device")
    devices.add_argument("name", nargs="?", help="what it is called from now on")
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
        if holds(picture.getvalue()):
            say(picture.getvalue())
        if install_page is not None:
            say(f"Open {address} on the phone and follow its steps. Then type this in the app:")
        else:
            say(f"Open {address} on the phone, install the app, and type this in the app:")
    say(f"Pairing code: {made.code[:4]}-{made.code[4:]}")
    say(f"It pairs one {made.role}'s phone and works once, for ten minutes.")
    return 0


def run_devices(options: Namespace) -> int:
    """List devices, or change one."""
    action: str | None = options.action
    if action is not None and (options.id is None or (action == "rename") is not (options.name is not None)):
        name = " NAME" if action == "rename" else ""
        raise WrongUse(
            "Which device?" if options.id is None else "A name is for `rename`, and only for it.",
            remedy=f"Write `broodline devices {action} ID{name}`; `broodline devices` lists them.",
        )
    with open_book(options) as shelf:
        if action is not None:
            changed = (
                shelf.devices.rename(options.id, read_name(options.name))
                if action == "rename"
                else shelf.devices.revoke(options.id, lost=action == "lost")
            )
            if options.json:
                say_json({"device": device_json(changed)})
            else:
                for line in _told(action, changed):
                    say(line)
            return 0
        devices = shelf.devices.all()
    if options.json:
        say_json({"devices": [device_json(device) for device in devices]})
        return 0
    say_table(
        ("id", "name", "role", "paired (UTC)", "last seen (UTC)", "revoked (UTC)"),
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


def _told(action: str, device: Device) -> list[str]:
    if action == "rename":
        return [f"It is called {device.name} now."]
    lines = [f"{device.name} is no longer paired. Codes it asked for end too; what it recorded stays."]
    if action == "lost":
        seen = moment(device.last_seen_ms)
        lines += [
            "It can neither read nor write the book from now on; its reminders and its calendar end, and so do pairing "
            "codes that were not used yet.",
            f"It was last here on {seen[:10]} at {seen[11:16]} UTC. What was written on it after that is only on it.",
            "A copy of the book stays on the phone: lock or wipe it with the means of its maker.",
            "Should it turn up, pair it again: what it still holds is sent then.",
        ]
    return lines
