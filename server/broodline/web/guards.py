"""The doors: which requests come in at all, and what every reply carries on its way out.

Order of refusal: host 400, origin 403, unpaired 401, meant for another holding 409, role 403, too many tries 429, too
large 413, envelope 400. The first two are decided here, before any route is looked up. Bytes that are no HTTP at all
never come so far: the HTTP server under the app answers those itself, with a bare 400 that has neither these headers
nor words for a keeper; no browser and no phone of ours sends such bytes, and nothing of the book is in that answer.
"""

import ipaddress
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from broodline.errors import BroodlineError, EnvelopeError, HostRefused, OriginRefused, TooLarge
from broodline.settings import Settings
from broodline.sync.push import MOST_BYTES
from broodline.web.replies import refusal

AIR_PATH = "/api/v1/air"  # thermometers have no origin
CHANGING = frozenset({"POST", "PUT", "PATCH", "DELETE"})
MOST_DISCARDED_BYTES = 32 * MOST_BYTES  # read and dropped, so that the sender hears the answer and not a closed line

CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types broodline",
    )
)
EVERY_REPLY = {
    "content-security-policy": CONTENT_POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
A_YEAR_OF_HTTPS = "max-age=31536000"


class Doors:
    """Stands around the whole app: checks host and origin, and adds the security headers to every reply."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        self._app = app
        self._settings = settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        believe_proxy(scope, self._settings)

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in EVERY_REPLY.items():
                    headers[name] = value
                if is_https(self._settings) and not self._settings.house:
                    headers["strict-transport-security"] = A_YEAR_OF_HTTPS
            await send(message)

        try:
            headers = Headers(scope=scope)
            own_origin = origin_asked_for(headers, self._settings)
            if scope["method"] in CHANGING and not _is_a_thermometers(scope["path"], headers):
                _check_origin(headers, own_origin)
        except BroodlineError as fault:
            await refusal(fault)(scope, receive, send_guarded)
            return
        await self._app(scope, receive, send_guarded)


def is_https(settings: Settings) -> bool:
    """Whether phones reach this server by https (a proxy in front of it ends the encryption)."""
    return settings.public_origin is not None and settings.public_origin.startswith("https://")


def origin_asked_for(headers: Headers, settings: Settings) -> str:
    """The own origin under which this request came. Raises HostRefused for a name that is not ours.

    Ours are the public origin, the names of this machine itself, and, where the server listens beyond it, any
    address in digits: a page of another site can make its name point here, but it cannot make its name a number.
    """
    hosts = headers.getlist("host")
    host = hosts[0].lower() if len(hosts) == 1 else ""
    if settings.public_origin is not None:
        scheme, _, public = settings.public_origin.lower().partition("://")
        if host in (public, f"{public}:{443 if scheme == 'https' else 80}"):
            return settings.public_origin
    name = _name_in(host)
    if name is not None and (is_loopback(name) or (_is_address(name) and not is_loopback(settings.host))):
        return f"{'https' if settings.house else 'http'}://{host}"
    raise HostRefused("This server does not go by the name the request used.")


def believe_proxy(scope: Scope, settings: Settings) -> None:
    """Put the sender and the name that a proxy of ours tells in the place of its own; anybody else's word is dropped.

    The last address is the one our proxy saw itself: what stands before it came with the request. The scheme needs no
    telling: the public origin says it.
    """
    headers = scope["headers"]
    if scope["client"] is not None and scope["client"][0] in settings.proxies:
        told = [value.decode("latin-1") for name, value in headers if name == b"x-forwarded-for"]
        sender = told[-1].rpartition(",")[2].strip() if told else ""
        if _is_address(sender):
            scope["client"] = (sender, 0)
        names = [value for name, value in headers if name == b"x-forwarded-host"]
        if len(names) == 1:
            headers = [(name, value) for name, value in headers if name != b"host"] + [(b"host", names[0].strip())]
    scope["headers"] = [(name, value) for name, value in headers if not name.startswith(b"x-forwarded-")]


def bearer_token(headers: Headers) -> str | None:
    """The token a program sends: a page of another site cannot, or its browser asks us first, and hears no."""
    kind, _, token = headers.get("authorization", "").partition(" ")
    return token.strip() or None if kind.lower() == "bearer" else None


def _is_a_thermometers(path: str, headers: Headers) -> bool:
    return path == AIR_PATH and bearer_token(headers) is not None and "cookie" not in headers


def is_loopback(name: str) -> bool:
    """Whether a name or address is this machine itself."""
    if name == "localhost":
        return True
    return _is_address(name) and ipaddress.ip_address(name).is_loopback


def comes_from_this_machine(request: Request, settings: Settings) -> bool:
    """Whether a request was made on this machine, to this machine's own name."""
    peer = request.client.host if request.client else ""
    own = origin_asked_for(request.headers, settings)
    name = urlsplit(own).hostname or ""
    at_home = peer not in settings.proxies  # a proxy beside us speaks for others
    return own != settings.public_origin and is_loopback(name) and is_loopback(peer) and at_home


def opened_here(request: Request) -> bool:
    """Whether a request comes from our own pages, from an address typed by hand, or from a program, but from no page
    of another site: browsers say so in Sec-Fetch-Site, which no page can write itself."""
    return all(site in ("same-origin", "none") for site in request.headers.getlist("sec-fetch-site"))


async def read_json_body(request: Request, most: int = MOST_BYTES) -> bytes:
    """The bytes of a POST. Raises TooLarge over `most` (256 KiB), before anything is parsed, then EnvelopeError for a
    type that is not JSON: a form of another site cannot send that type."""
    body = await read_bytes(request, most)
    if body is None:
        raise TooLarge(f"The request is over {most} bytes.")
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != "application/json":
        raise EnvelopeError(
            "content-type", "The content type must be application/json.", remedy="Send it again, named as JSON."
        )
    return body


async def read_bytes(request: Request, most: int) -> bytes | None:
    """The bytes of a request, or None where they are more than `most`."""
    body = bytearray()
    size = 0
    async for chunk in request.stream():
        size += len(chunk)
        if size <= most:
            body += chunk
        elif size > MOST_DISCARDED_BYTES:
            break
    return bytes(body) if size <= most else None


def _check_origin(headers: Headers, own_origin: str) -> None:
    sites = headers.getlist("sec-fetch-site")
    if sites:
        allowed = all(site == "same-origin" for site in sites)
    else:
        origins = headers.getlist("origin")
        allowed = len(origins) == 1 and origins[0].lower() == own_origin.lower()
    if not allowed:
        raise OriginRefused("A change is only taken from this app's own pages.")


def _name_in(host: str) -> str | None:
    try:
        return urlsplit(f"//{host}").hostname
    except ValueError:
        return None


def _is_address(name: str) -> bool:
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True
