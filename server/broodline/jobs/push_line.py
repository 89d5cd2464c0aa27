"""The line to push services: where a message may go at all, and one POST that waits for no one.

The address comes from a browser, so it could name anything in the house: it is checked when it is saved and again
for every message, and the connection is made to one of the very addresses that were checked: to the next where one
does not answer, as in homes whose IPv6 leads nowhere.
"""

import http.client
import ipaddress
import socket
import ssl
import threading
import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import chain, zip_longest
from urllib.parse import urlsplit

WITHIN_S = 10.0
MOST_LETTERS = 2048
# The push services of the browsers. A leading dot: any name below it.
SERVICES = ("fcm.googleapis.com", ".push.services.mozilla.com", ".push.apple.com", ".notify.windows.com")

Resolve = Callable[[str], Iterable[str]]


@dataclass(frozen=True, slots=True)
class Way:
    """How one push service is reached: its checked addresses in the order in which they are tried, and what proves its
    name (None: no TLS)."""

    addresses: tuple[str, ...]
    port: int
    tls: ssl.SSLContext | None


FindWay = Callable[[str], Way]


class NoWay(Exception):
    """The service cannot be reached, or may not be."""


def is_push_address(endpoint: str, more: Iterable[str] = ()) -> bool:
    """Whether this is an address of a known push service: https, port 443, no user, not overlong. more: names that the
    server was told beside SERVICES."""
    if len(endpoint) > MOST_LETTERS or not endpoint.isascii() or not endpoint.isprintable() or " " in endpoint:
        return False
    try:
        parts = urlsplit(endpoint)
        port = parts.port
    except ValueError:
        return False
    host = parts.hostname or ""
    known = any(host == name or (name.startswith(".") and host.endswith(name)) for name in (*SERVICES, *more))
    return (
        parts.scheme == "https"
        and known
        and port in (None, 443)
        and parts.username is None
        and parts.password is None
        and len(parts.path) > 1
    )


def resolved(host: str) -> list[str]:
    """All addresses of a name. Raises OSError."""
    return [str(found[4][0]) for found in socket.getaddrinfo(host, 443, type=socket.SOCK_STREAM)]


def public_way(endpoint: str, resolve: Resolve = resolved, more: Iterable[str] = ()) -> Way:
    """The way to a push service on the internet. Raises NoWay where its name leads, even in part, anywhere else."""
    if not is_push_address(endpoint, more):
        raise NoWay("This is no address of a push service.")
    try:
        addresses = list(resolve(urlsplit(endpoint).hostname or ""))
    except OSError as fault:
        raise NoWay(f"The name of the push service was not found: {fault.strerror or fault}.") from fault
    if not addresses or not all(_is_public(address) for address in addresses):
        raise NoWay("The name of the push service leads into a private network.")
    return Way(_by_turns(addresses), 443, ssl.create_default_context())


def _by_turns(addresses: Iterable[str]) -> tuple[str, ...]:
    """Each once, the two kinds of address by turns, so that a broken one costs one try (RFC 8305, section 4)."""
    found = list(dict.fromkeys(addresses))
    first = [one for one in found if (":" in one) == (":" in found[0])]
    second = [one for one in found if one not in first]
    return tuple(one for one in chain(*zip_longest(first, second)) if one is not None)


def post(endpoint: str, way: Way, headers: Mapping[str, str], body: bytes, within_s: float = WITHIN_S) -> int:
    """Send, and return the status of the answer; its words are not read and no redirect is followed. Raises NoWay."""
    parts = urlsplit(endpoint)
    connection = _Connection(parts.hostname or "", way, within_s)
    late = threading.Timer(within_s, connection.cut)  # also for a service that answers a letter a second
    late.daemon = True
    late.start()
    try:
        path = parts.path + (f"?{parts.query}" if parts.query else "")
        connection.request("POST", path, body, dict(headers))
        return connection.getresponse().status
    except (OSError, http.client.HTTPException, AttributeError, ValueError) as fault:
        # http.client answers a line that was cut with any of these
        raise NoWay(f"The push service did not answer within {within_s:g} seconds, or broke off.") from fault
    finally:
        late.cancel()
        connection.close()


class _Connection(http.client.HTTPConnection):
    """A connection to the first checked address that answers, under the name the service goes by."""

    default_port = 443  # so that the name is written without it

    def __init__(self, host: str, way: Way, within_s: float) -> None:
        super().__init__(host, timeout=within_s)
        self._way = way
        self._raw: socket.socket | None = None
        self._until = time.monotonic() + within_s

    def connect(self) -> None:
        """Nothing was sent yet, so each address may be tried: for its share of the time that is left."""
        fault = OSError("There is no time left.")
        addresses = self._way.addresses
        for number, address in enumerate(addresses):
            share_s = (self._until - time.monotonic()) / (len(addresses) - number)
            if share_s <= 0:
                break
            try:
                self.sock = self._reach(address, share_s)
            except OSError as one:
                fault = one
                continue
            self.sock.settimeout(self.timeout)
            return
        raise fault

    def _reach(self, address: str, within_s: float) -> socket.socket:
        raw = self._raw = socket.create_connection((address, self._way.port), within_s)
        if self._way.tls is None:
            return raw
        try:
            return self._way.tls.wrap_socket(raw, server_hostname=self.host)
        except OSError:
            raw.close()
            raise

    def cut(self) -> None:
        """Break the line off, from another thread."""
        line = self.sock or self._raw
        if line is not None:
            try:
                line.shutdown(socket.SHUT_RDWR)
            except OSError:
                return


def _is_public(address: str) -> bool:
    try:
        found = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return False
    if isinstance(found, ipaddress.IPv6Address):
        inner = found.ipv4_mapped or found.sixtofour or (found.teredo[1] if found.teredo else None)
        if inner is not None or found in ipaddress.ip_network("64:ff9b::/96"):
            return False  # an address of the old kind, dressed up
    return found.is_global and not found.is_multicast
