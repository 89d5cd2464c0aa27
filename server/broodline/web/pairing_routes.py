"""Pairing over HTTP: who this device is, which others there are, and codes for new ones."""

from starlette.requests import Request
from starlette.responses import Response

from broodline.book.wire import parse_json
from broodline.errors import EnvelopeError, NotFound, NotPaired, RoleRefused
from broodline.store.devices import Device
from broodline.store.holdings import Holding
from broodline.sync.pairing import invite, pair, read_name, read_pair_request
from broodline.web.auth import (
    asking_device,
    cookie_name,
    put_cookie,
    require_cookie_name,
    sign_in_demo,
    signs_in_by_itself,
)
from broodline.web.desk import Desk
from broodline.web.device_list import device_json, moment
from broodline.web.guards import read_json_body
from broodline.web.replies import reply


async def take_pair(desk: Desk, request: Request) -> Response:
    """POST /api/v1/pair {code, name, holding?}"""
    require_cookie_name(request, desk.settings)
    address = request.client.host if request.client else ""
    desk.tries.check(address)
    asked = read_pair_request(await read_json_body(request))
    made = await desk.writer.run(
        lambda shelf: pair(shelf.devices, shelf.holdings, desk.tries, asked, address, desk.random_bytes)
    )
    response = reply(await _who(desk, made.device, made.holding))
    put_cookie(response, request, desk.settings, made.token)
    return response


async def give_me(desk: Desk, request: Request) -> Response:
    """GET /api/v1/me?strangers=1. Renews the cookie; a demo on its own machine signs the browser in.

    The demo does it here too, and not only with its first page: that page may come from the app's own cache.
    strangers: who is not paired is told so with device null, not refused, for the app asks this at each start of a
    phone by itself, and browsers write every refusal down as a fault of the page.
    """
    device = await asking_device(desk, request)
    if device is None and signs_in_by_itself(request, desk.settings):
        made = await sign_in_demo(desk)
        response = reply(await _who(desk, made.device, made.holding))
        put_cookie(response, request, desk.settings, made.token)
        return response
    if device is None and request.query_params.get("strangers") == "1":
        return reply({"device": None})
    if device is None:
        raise NotPaired("This device is not paired with this book.")
    holding = await desk.reader.run(lambda shelf: shelf.holdings.current())
    response = reply(await _who(desk, device, holding))
    put_cookie(response, request, desk.settings, request.cookies[cookie_name(request, desk.settings) or ""])
    return response


async def give_devices(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/devices"""
    devices = await desk.reader.run(lambda shelf: shelf.devices.all())
    return reply({"devices": [device_json(known, own=known.id == device.id) for known in devices]})


async def give_device(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/devices/{id}"""
    asked: str = request.path_params["id"]
    devices = await desk.reader.run(lambda shelf: shelf.devices.all())
    found = next((known for known in devices if known.id == asked), None)
    if found is None:
        raise NotFound("There is no such device.")
    return reply({"device": device_json(found, own=found.id == device.id)})


async def rename_device(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/devices/{id} {name}: a keeper any device, others their own."""
    device_id = _may_change(request, device)
    asked = parse_json(await read_json_body(request))
    name = read_name(asked.get("name") if isinstance(asked, dict) else None)
    renamed = await desk.writer.run(lambda shelf: shelf.devices.rename(device_id, name))
    return reply({"device": device_json(renamed, own=renamed.id == device.id)})


async def revoke_device(desk: Desk, request: Request, device: Device) -> Response:
    """DELETE /api/v1/devices/{id}?lost=1: a keeper any device, others their own. What that device recorded stays; it
    can be paired again. Codes it asked for end with it; lost: all that were not used yet."""
    device_id = _may_change(request, device)
    lost = request.query_params.get("lost") == "1"
    revoked = await desk.writer.run(lambda shelf: shelf.devices.revoke(device_id, lost=lost))
    return reply({"device": device_json(revoked, own=revoked.id == device.id)})


def _may_change(request: Request, device: Device) -> str:
    device_id: str = request.path_params["id"]
    if device.role != "keeper" and device_id != device.id:
        raise RoleRefused(f"A device paired as {device.role} may only change itself.")
    return device_id


async def make_invitation(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/invitations {role}"""
    asked = parse_json(await read_json_body(request))
    if not isinstance(asked, dict):
        raise EnvelopeError(
            "$", "An invitation takes a JSON object with a role.", remedy="Choose keeper, helper or reader."
        )
    made = await desk.writer.run(
        lambda shelf: invite(shelf.devices, device.holding, asked.get("role"), desk.random_bytes, device.id)
    )
    return reply({"code": made.code, "role": made.role, "expires_at": moment(made.expires_ms)})


async def _who(desk: Desk, device: Device, holding: Holding) -> dict[str, object]:
    name, _ = await desk.answer(holding.id, lambda standing: standing.keeper.holding)
    return {
        "device": device.id,
        "role": device.role,
        "holding": {"id": holding.id, "name": name},
        "demo": holding.demo,
    }
