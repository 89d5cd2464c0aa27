"""What thermometers say over HTTP. They have a token instead of a cookie: no page of another site can send it."""

from starlette.requests import Request
from starlette.responses import Response

from broodline.errors import NotPaired
from broodline.store.sensors import Sensor
from broodline.store.shelf import Shelf
from broodline.sync.sensors import read_reading, take_reading
from broodline.web.desk import Desk
from broodline.web.guards import bearer_token, read_json_body
from broodline.web.journal import DEVICE
from broodline.web.replies import reply


async def take_air(desk: Desk, request: Request) -> Response:
    """POST /api/v1/air {place?, dry_c, humidity_pct?, at?} with "Authorization: Bearer <token>" -> {kept, what, beyond}

    what: stored, thinned (too soon after the last), duplicate, or clash (another figure for the same moment). beyond:
    whether the air lies outside its band, null where none is known.
    """
    address = request.client.host if request.client else ""
    sensor = await _sensor(desk, request, address)
    request.scope[DEVICE] = sensor.device
    desk.heard.check(sensor.device)
    body = await read_json_body(request)
    desk.heard.take(sensor.device)
    said = read_reading(body, desk.clock())
    holding = await desk.reader.run(lambda shelf: shelf.holdings.current().id)
    standing, _ = await desk.answer(holding, lambda it: it)
    what, beyond = await desk.writer.run(lambda shelf: take_reading(shelf, standing, sensor, said))
    desk.news.set()
    return reply({"kept": what == "stored", "what": what, "beyond": beyond})


async def _sensor(desk: Desk, request: Request, address: str) -> Sensor:
    token = bearer_token(request.headers)

    def known(shelf: Shelf) -> Sensor:
        # Behind one address there may be several: a wrong token silences no thermometer that is known.
        sensor = None if token is None else shelf.sensors.by_token(token)
        if sensor is None:
            desk.unheard.check(address)
            desk.unheard.note(address)
            raise NotPaired(
                "This thermometer is not known here.", remedy="Make a token with `broodline sensors add PLACE`."
            )
        return sensor

    return await desk.reader.run(known)
