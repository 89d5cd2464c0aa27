"""`broodline sensors`: thermometers that write the air of a place by themselves."""

import secrets
from argparse import Namespace, _SubParsersAction
from typing import Any

from broodline.book.standing import Standing
from broodline.cli.place import add_place, folder_of, last_address, open_book
from broodline.cli.printing import say, say_json, say_table
from broodline.errors import NotFound, WrongUse
from broodline.store.sensors import Sensor
from broodline.sync.book_of import BookOf
from broodline.sync.sensors import ID_BYTES, TOKEN_BYTES
from broodline.web.device_list import moment
from broodline.web.guards import AIR_PATH


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    parser = commands.add_parser("sensors", help="thermometers that write the air of a place by themselves")
    add_place(parser, json=True)
    parser.add_argument("action", nargs="?", choices=("add", "list", "revoke"), default="list")
    parser.add_argument(
        "what", nargs="?", metavar="PLACE or ID", help="add: name or id of the place; revoke: which one"
    )
    parser.add_argument("--name", help="what the thermometer is called (default: as its place)")
    parser.set_defaults(run=run_sensors)


def run_sensors(options: Namespace) -> int:
    """Add, list or revoke."""
    if (options.action == "list") is not (options.what is None):
        raise WrongUse("Which place, or which thermometer?", remedy="Write `broodline sensors add PLACE`.")
    with open_book(options) as shelf:
        standing, _ = BookOf(shelf.log).standing(shelf.holdings.current().id)
        if options.action == "add":
            place = place_called(standing, options.what)
            name, token = options.name or standing.places[place].name, secrets.token_hex(TOKEN_BYTES)
            made = shelf.sensors.add(secrets.token_hex(ID_BYTES), place, name, token)
            return _told(options, standing, made, token)
        if options.action == "revoke":
            revoked = shelf.sensors.revoke(options.what)
            if options.json:
                say_json({"sensor": sensor_json(standing, revoked)})
            else:
                say(f"{revoked.name} is listened to no longer. What it wrote stays.")
            return 0
        sensors = shelf.sensors.all()
    if options.json:
        say_json({"sensors": [sensor_json(standing, one) for one in sensors]})
        return 0
    rows = [_row(sensor_json(standing, one)) for one in sensors]
    say_table(("id", "name", "place", "added (UTC)", "last heard (UTC)", "revoked (UTC)"), rows)
    return 0


def place_called(standing: Standing, text: str) -> str:
    """The place with this id or name. Raises NotFound where there is none, or several."""
    found = standing.root_of.get(text, text)
    if found in standing.places:
        return found
    named = [place for place, body in standing.places.items() if body.name.casefold() == text.casefold()]
    if len(named) != 1:
        known = ", ".join(sorted(body.name for body in standing.places.values())) or "none yet"
        raise NotFound(
            f"{'No place is' if not named else 'Several places are'} called {text}.", remedy=f"There are: {known}."
        )
    return named[0]


def sensor_json(standing: Standing, sensor: Sensor) -> dict[str, Any]:
    """A thermometer without its secret."""
    place = standing.places.get(standing.root_of.get(sensor.place, sensor.place))
    return {
        "id": sensor.id,
        "name": sensor.name,
        "place": sensor.place,
        "place_name": None if place is None else place.name,
        "created_at": moment(sensor.created_ms),
        "heard_at": None if sensor.heard_ms is None else moment(sensor.heard_ms),
        "revoked_at": None if sensor.revoked_ms is None else moment(sensor.revoked_ms),
    }


def _row(told: dict[str, Any]) -> tuple[str, ...]:
    days = (told["created_at"], told["heard_at"], told["revoked_at"])
    return (told["id"], told["name"], told["place_name"] or "", *("" if day is None else day[:16] for day in days))


def _told(options: Namespace, standing: Standing, made: Sensor, token: str) -> int:
    if options.json:
        say_json({"sensor": sensor_json(standing, made), "token": token})
        return 0
    address = last_address(folder_of(options)) or "http://127.0.0.1:8420"
    say(f"Token of {made.name}, told once: {token}")
    say("It lets a thermometer write the air of that place, and nothing else. Each reading is one request, such as:")
    say(f"  curl {address}{AIR_PATH} -H 'Authorization: Bearer {token}' \\")
    say("    -H 'Content-Type: application/json' -d '{\"dry_c\": 37.6, \"humidity_pct\": 52}'")
    say("One reading a minute is plenty; one each ten minutes is kept, and each that leaves the band or comes back.")
    return 0
