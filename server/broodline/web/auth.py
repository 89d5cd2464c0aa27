"""Who is asking: the device behind the cookie, and which roles may use a route."""

from collections.abc import Awaitable, Callable
from contextlib import suppress

from starlette.requests import Request
from starlette.responses import Response

from broodline.errors import Busy, DiskFull, NotPaired, OriginRefused, OtherHolding, RoleRefused
from broodline.settings import Settings
from broodline.store.devices import Device, Role
from broodline.sync.pairing import Pairing, sign_in
from broodline.web.desk import Desk
from broodline.web.guards import comes_from_this_machine, opened_here, origin_asked_for
from broodline.web.journal import DEVICE

KEEPERS: frozenset[Role] = frozenset({"keeper"})
RECORDERS: frozenset[Role] = frozenset({"keeper", "helper"})
READERS: frozenset[Role] = frozenset({"keeper", "helper", "reader"})

MEANT_FOR = "broodline-holding"  # a page may have another book open than the one its browser was paired with since
COOKIE_DAYS = 400  # browsers keep none longer; it is renewed whenever the app asks who it is
DEMO_DEVICE = "This browser"

Endpoint = Callable[[Request], Awaitable[Response]]
DeskHandler = Callable[[Desk, Request], Awaitable[Response]]
DeviceHandler = Callable[[Desk, Request, Device], Awaitable[Response]]


def anyone(desk: Desk, handler: DeskHandler) -> Endpoint:
    """A route that needs no pairing."""

    async def endpoint(request: Request) -> Response:
        return await handler(desk, request)

    return endpoint


def only(desk: Desk, roles: frozenset[Role], handler: DeviceHandler) -> Endpoint:
    """A route for devices of these roles. Others are refused before anything of their request is read."""

    async def endpoint(request: Request) -> Response:
        device = await asking_device(desk, request)
        if device is None:
            raise NotPaired("This device is not paired with this book.")
        request.scope[DEVICE] = device.id
        if request.headers.get(MEANT_FOR, device.holding) != device.holding:
            raise OtherHolding("This request is meant for another holding's book.")
        if device.role not in roles:
            raise RoleRefused(f"A device paired as {device.role} may not do this.")
        return await handler(desk, request, device)

    return endpoint


async def asking_device(desk: Desk, request: Request) -> Device | None:
    """The device whose cookie came along, unless it was revoked; notes that it was seen."""
    name = cookie_name(request, desk.settings)
    token = request.cookies.get(name) if name else None
    if not token:
        return None
    device = await desk.reader.run(lambda shelf: shelf.devices.by_token(token))
    if device is not None and not desk.reader.shelf.devices.is_seen_lately(device):
        seen = device
        with suppress(DiskFull, Busy):  # a book that can only be read is still read
            await desk.writer.run(lambda shelf: shelf.devices.seen(seen))
    return device


def cookie_name(request: Request, settings: Settings) -> str | None:
    """The cookie's name under the address the request used, or None where a secret must not travel."""
    if origin_asked_for(request.headers, settings).startswith("https://"):
        return "__Host-broodline"
    if comes_from_this_machine(request, settings):
        return f"broodline_{settings.port}"
    return None


def require_cookie_name(request: Request, settings: Settings) -> str:
    """The cookie's name. Raises OriginRefused over plain http beyond this machine."""
    name = cookie_name(request, settings)
    if name is None:
        raise OriginRefused(
            "Over plain http anyone on the network could read this phone's secret.",
            remedy="Open Broodline at its https address, or on the machine it runs on.",
            code="insecure",
        )
    return name


def put_cookie(response: Response, request: Request, settings: Settings, token: str) -> None:
    """Hand the token to the browser, out of reach of scripts."""
    name = require_cookie_name(request, settings)
    response.set_cookie(
        name,
        token,
        max_age=COOKIE_DAYS * 24 * 3600,
        path="/",
        secure=name.startswith("__Host-"),
        httponly=True,
        samesite="lax",
    )


def signs_in_by_itself(request: Request, settings: Settings) -> bool:
    """A demo, opened on its own machine: anyone who can open it there may play with it. A page of another site that
    asks for it without being seen makes no device."""
    return settings.demo and comes_from_this_machine(request, settings) and opened_here(request)


async def sign_in_demo(desk: Desk) -> Pairing:
    """A keeper's device for a browser that opened the demo."""
    return await desk.writer.run(
        lambda shelf: sign_in(shelf.devices, shelf.holdings.current(), DEMO_DEVICE, "keeper", desk.random_bytes)
    )
