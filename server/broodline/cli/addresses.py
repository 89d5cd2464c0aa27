"""Addresses as they are typed, in the one form in which browsers and connections tell them."""

import ipaddress
from urllib.parse import urlsplit

import idna

from broodline.errors import WrongUse
from broodline.jobs.house_authority import own_addresses

EVERYWHERE = "0.0.0.0"
_USUAL_PORTS = {"http": 80, "https": 443}  # browsers leave these out (RFC 6454, section 6.1)


def read_origin(url: str) -> str:
    """The origin in an address, as browsers write it: small letters, names of other alphabets in their ASCII form
    (UTS 46), no usual port. Raises WrongUse for anything that is none."""
    try:
        parts = urlsplit(url)
        port = parts.port
        well = parts.scheme in _USUAL_PORTS and parts.hostname and parts.path in ("", "/")
        host = _host(parts.hostname or "")
    except ValueError:
        well = False
    if not well or parts.query or parts.fragment or parts.username:
        raise WrongUse(f"{url} is not an origin.", remedy="Write it as https://book.example.")
    return f"{parts.scheme}://{host}" + ("" if port in (None, _USUAL_PORTS[parts.scheme]) else f":{port}")


def read_proxies(addresses: list[str]) -> frozenset[str]:
    """The addresses of proxies, as connections tell them. Raises WrongUse for anything that is none."""
    found = set()
    for one in addresses:
        try:
            found.add(str(ipaddress.ip_address(one)))
        except ValueError as fault:
            raise WrongUse(f"{one} is no address.", remedy="Write the proxy's address as 127.0.0.1.") from fault
    return frozenset(found)


def served_at(host: str, port: int) -> list[str]:
    """Where a server that listens on `host` is found, as phones write it; of all addresses, those of this machine."""
    if not _is_everywhere(host):
        return [f"http://{in_address(host)}:{port}"]
    kind = ipaddress.ip_address(host or EVERYWHERE).version
    own = [one for one in own_addresses() if ipaddress.ip_address(one).version == kind]
    return [f"http://{in_address(one)}:{port}" for one in own or ["::1"]]


def in_address(host: str) -> str:
    """A host as it stands in an address."""
    return f"[{host}]" if ":" in host else host


def _host(name: str) -> str:
    """Raises ValueError."""
    if ":" in name:
        return in_address(str(ipaddress.IPv6Address(name)))
    return name if name.isascii() else idna.encode(name, uts46=True).decode("ascii")


def _is_everywhere(host: str) -> bool:
    try:
        return not host or ipaddress.ip_address(host).is_unspecified
    except ValueError:
        return False
