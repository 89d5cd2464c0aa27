"""Reminders over HTTP: the key a browser subscribes with, where a device is reminded and of what, and a trial."""

import json
from typing import Any

from anyio import to_thread
from cryptography.hazmat.primitives.asymmetric import ec
from starlette.requests import Request
from starlette.responses import Response

from broodline.book.wire import parse_json
from broodline.errors import EnvelopeError, NotFound
from broodline.jobs.push_line import is_push_address
from broodline.jobs.push_sender import Outcome
from broodline.jobs.web_push import from_base64
from broodline.reports.notice import shown, topic_of
from broodline.reports.wishes import Wishes, read_wishes, wishes_json
from broodline.store.devices import Device
from broodline.store.reminders import Subscription
from broodline.store.shelf import Shelf
from broodline.web.desk import Desk
from broodline.web.device_list import moment
from broodline.web.guards import origin_asked_for, read_json_body
from broodline.web.replies import reply

AUTH_BYTES = 16
TRIAL_LASTS_S = 60
_AGAIN = "Turn reminders off and on again on this phone."


async def give_key(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reminders/key -> {key}: what a browser subscribes with."""
    return reply({"key": desk.push.key.public})


async def give_reminders(desk: Desk, request: Request, device: Device) -> Response:
    """GET /api/v1/reminders/subscription -> {on, working, wishes, last: {at, words}}"""
    return reply(_state(await desk.reader.run(lambda shelf: shelf.reminders.of(device.id))))


async def take_reminders(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/reminders/subscription {subscription: {endpoint, keys: {p256dh, auth}}, wishes}

    The app says it anew at each start and after each pairing, without wishes: then those it told before stay, also
    those it told as the device it was before it was paired again.
    """
    asked = parse_json(await read_json_body(request))
    if not isinstance(asked, dict):
        raise EnvelopeError("$", "Reminders take a JSON object with subscription and wishes.", remedy=_AGAIN)
    endpoint, p256dh, auth = _read_subscription(asked.get("subscription"), desk.settings.push_services)
    told = read_wishes(asked["wishes"]) if "wishes" in asked else None
    origin = origin_asked_for(request.headers, desk.settings)

    def subscribe(shelf: Shelf) -> Subscription | None:
        shelf.reminders.inherit(device.id, endpoint)
        held = shelf.reminders.of(device.id)
        wishes = held.wishes if held and told is None else json.dumps(wishes_json(told or Wishes()))
        shelf.reminders.subscribe(device.id, endpoint, p256dh, auth, origin, wishes)
        return shelf.reminders.of(device.id)

    return reply(_state(await desk.writer.run(subscribe)))


async def stop_reminders(desk: Desk, request: Request, device: Device) -> Response:
    """DELETE /api/v1/reminders/subscription"""
    await desk.writer.run(lambda shelf: shelf.reminders.unsubscribe(device.id))
    return reply(_state(None))


async def try_reminder(desk: Desk, request: Request, device: Device) -> Response:
    """POST /api/v1/reminders/try {} -> {sent, words} and what give_reminders says: one message to this device, now."""
    desk.trials.check(device.id)
    parse_json(await read_json_body(request))
    to = await desk.writer.run(lambda shelf: shelf.reminders.of(device.id))
    if to is None or to.ended_ms is not None:
        raise NotFound("This phone has no reminders turned on.", remedy="Turn them on, then try again.")
    desk.trials.take(device.id)
    outcome = await to_thread.run_sync(_send_trial, desk, to, abandon_on_cancel=True)
    await desk.writer.run(lambda shelf: shelf.reminders.told(to, outcome.words, well=outcome.sent, ended=outcome.ended))
    after = await desk.writer.run(lambda shelf: shelf.reminders.of(device.id))
    return reply({"sent": outcome.sent, "words": outcome.words, **_state(after)})


def _send_trial(desk: Desk, to: Subscription) -> Outcome:
    title, body = "Reminders work on this phone", "You asked for this one to try them out."
    message = shown(title, body, f"{to.origin}/phone", "trial")
    return desk.push.send(to, message, topic=topic_of("trial"), lasts_s=TRIAL_LASTS_S, urgent=True)


def _read_subscription(written: object, services: frozenset[str]) -> tuple[str, bytes, bytes]:
    keys = written.get("keys") if isinstance(written, dict) else None
    if not isinstance(written, dict) or not isinstance(keys, dict):
        raise EnvelopeError("subscription", "A subscription has an endpoint and keys.", remedy=_AGAIN)
    endpoint = written.get("endpoint")
    if not isinstance(endpoint, str) or not is_push_address(endpoint, services):
        raise EnvelopeError(
            "endpoint",
            "This browser's push service is not one this server knows.",
            remedy="Use another browser on this phone, or start the server with `--push-service` and that one's name.",
        )
    p256dh, auth = _key(keys, "p256dh"), _key(keys, "auth")
    try:
        ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), p256dh)
    except ValueError as fault:
        raise EnvelopeError("p256dh", "p256dh is no public key of P-256.", remedy=_AGAIN) from fault
    if len(auth) != AUTH_BYTES:
        raise EnvelopeError("auth", f"auth must be {AUTH_BYTES} bytes.", remedy=_AGAIN)
    return endpoint, p256dh, auth


def _key(keys: dict[str, object], name: str) -> bytes:
    text = keys.get(name)
    try:
        return from_base64(text) if isinstance(text, str) and len(text) < 200 else b""
    except ValueError:
        return b""


def _state(held: Subscription | None) -> dict[str, Any]:
    """working: null until something was sent."""
    if held is None:
        return {"on": False, "working": None, "wishes": None, "last": None}
    last = None if held.told_ms is None else {"at": moment(held.told_ms), "words": held.outcome}
    return {
        "on": held.ended_ms is None,
        "working": None if held.told_well is None else bool(held.told_well),
        "wishes": json.loads(held.wishes),
        "last": last,
    }
