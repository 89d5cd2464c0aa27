"""An authority of this house alone: it vouches for one name and for private addresses, and renews its certificates.

RFC 5280 on the primitives of `cryptography`. Its name constraints (section 4.2.1.10) are what makes it fair to ask for
a phone's trust: even with its key stolen, nobody can pose as a bank with it. Keys are files only their owner may read.
"""

import ipaddress
import os
import socket
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from broodline.errors import BookDamaged, WrongUse

FOLDER = "house"
AUTHORITY, CERTIFICATE = "authority", "server"  # each with -key.pem and .pem
AUTHORITY_LASTS = timedelta(days=3650)
CERTIFICATE_LASTS = timedelta(days=396)  # browsers and phones take at most 398 days
RENEW_BEFORE = timedelta(days=60)
CLOCKS_DIFFER = timedelta(hours=1)
ENDINGS = (".home.arpa", ".local")  # RFC 8375 and RFC 6762: names that belong to no one outside the house
_PRIVATE = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "fc00::/7")
_NETWORKS = tuple(map(ipaddress.ip_network, _PRIVATE))


@dataclass(frozen=True, slots=True)
class Authority:
    """name: the only one it vouches for."""

    name: str
    key: ec.EllipticCurvePrivateKey
    certificate: x509.Certificate

    @property
    def der(self) -> bytes:
        """The certificate as phones take it."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of it as phones show it: pairs of letters with colons."""
        return ":".join(f"{byte:02X}" for byte in self.certificate.fingerprint(hashes.SHA256()))


@dataclass(frozen=True, slots=True)
class ServerCertificate:
    """The files a server shows itself with; made: whether they are new."""

    certificate: Path
    key: Path
    made: bool


def is_house_name(name: str) -> bool:
    """Whether a name can only be one of this house: below .home.arpa or .local, letters, digits and dashes."""
    labels = name.split(".")
    well = all(0 < len(one) <= 63 and one.isascii() and one.replace("-", "").isalnum() for one in labels)
    return well and len(name) <= 200 and name == name.lower() and name.endswith(ENDINGS)


def is_private(address: str) -> bool:
    """Whether the authority may vouch for an address."""
    try:
        found = ipaddress.ip_address(address)
    except ValueError:
        return False
    return any(found in network for network in _NETWORKS)


def own_addresses() -> list[str]:
    """The private addresses of this machine, as far as it says; its own loopback last."""
    found: list[str] = []
    try:
        found += [str(one[4][0]) for one in socket.getaddrinfo(socket.gethostname(), None, type=socket.SOCK_STREAM)]
    except OSError:
        found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(
                ("192.0.2.1", 9)
            )  # RFC 5737, a network that is nowhere: sends nothing, only picks the way out
            found.insert(0, str(probe.getsockname()[0]))
        except OSError:
            pass
    private = [one for one in found if is_private(one) and not ipaddress.ip_address(one).is_loopback]
    return [*dict.fromkeys(private), "127.0.0.1"]


def own_authority(data_dir: Path, name: str, now: datetime) -> Authority:
    """The authority of a data folder, made the first time. now: aware.

    Raises WrongUse for a name that is none of a house or another than it was made for, BookDamaged for files that hold
    none or have run out.
    """
    if not is_house_name(name):
        raise WrongUse(
            f"{name} is no name for a house.", remedy="Choose one that ends in .home.arpa, such as broodline.home.arpa."
        )
    folder = data_dir / FOLDER
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    if not (folder / f"{AUTHORITY}.pem").exists():
        key = ec.generate_private_key(ec.SECP256R1())
        _write(folder, AUTHORITY, key, _authority_for(name, key, now))
    held = _read(folder, AUTHORITY)
    if held is None or held[1].not_valid_after_utc <= now:
        raise _damaged(folder)
    [made_for] = held[1].subject.get_attributes_for_oid(NameOID.COMMON_NAME)
    if made_for.value != _title(name):
        raise WrongUse(
            f"The authority in {folder} was made for another name: {made_for.value!s}.",
            remedy="Serve under that name again: phones keep their book under it. To begin anew with another, save a "
            "copy on every phone, move that folder away, and have each phone trust the new authority.",
        )
    return Authority(name, *held)


def own_certificate(data_dir: Path, authority: Authority, addresses: Iterable[str], now: datetime) -> ServerCertificate:
    """The server's certificate for the authority's name and these addresses: the one there is, or a new one where it
    ends soon, covers an address less, or is another authority's. Others than private addresses are left out."""
    folder = data_dir / FOLDER
    wanted = {ipaddress.ip_address(one) for one in addresses if is_private(one)}
    held = _read(folder, CERTIFICATE)
    made = held is None or not _still_serves(held[1], authority, wanted, now)
    if made:
        key = ec.generate_private_key(ec.SECP256R1())
        _write(folder, CERTIFICATE, key, _certificate_for(authority, key, sorted(map(str, wanted)), now))
    return ServerCertificate(folder / f"{CERTIFICATE}.pem", folder / f"{CERTIFICATE}-key.pem", made)


def _still_serves(
    held: x509.Certificate,
    authority: Authority,
    wanted: set[ipaddress.IPv4Address | ipaddress.IPv6Address],
    now: datetime,
) -> bool:
    names = held.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    try:
        held.verify_directly_issued_by(authority.certificate)
    except (ValueError, TypeError, InvalidSignature):  # of an older authority
        return False
    covers = wanted <= set(names.get_values_for_type(x509.IPAddress))
    return (
        covers
        and authority.name in names.get_values_for_type(x509.DNSName)
        and held.not_valid_before_utc <= now < held.not_valid_after_utc - RENEW_BEFORE
    )


def _authority_for(name: str, key: ec.EllipticCurvePrivateKey, now: datetime) -> x509.Certificate:
    own = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, _title(name))])
    allowed: list[x509.GeneralName] = [x509.DNSName(name), *map(x509.IPAddress, _NETWORKS)]
    return (
        _draft(own, own, key, now, AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints(allowed, None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )


def _certificate_for(
    authority: Authority, key: ec.EllipticCurvePrivateKey, addresses: list[str], now: datetime
) -> x509.Certificate:
    own = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, authority.name)])
    names: list[x509.GeneralName] = [x509.DNSName(authority.name)]
    names += [x509.IPAddress(ipaddress.ip_address(one)) for one in addresses]
    ends = min(CERTIFICATE_LASTS, authority.certificate.not_valid_after_utc - now)
    return (
        _draft(own, authority.certificate.subject, key, now, ends)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key()), critical=False)
        .sign(authority.key, hashes.SHA256())
    )


def _draft(
    own: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePrivateKey, now: datetime, lasts: timedelta
) -> x509.CertificateBuilder:
    return x509.CertificateBuilder(
        issuer_name=issuer,
        subject_name=own,
        public_key=key.public_key(),
        serial_number=x509.random_serial_number(),
        not_valid_before=now - CLOCKS_DIFFER,
        not_valid_after=now + lasts,
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _title(name: str) -> str:
    return f"Broodline at {name}"


def _write(folder: Path, name: str, key: ec.EllipticCurvePrivateKey, certificate: x509.Certificate) -> None:
    """The key first; each takes its place whole, so that a server stopped in between starts again."""
    written = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    for path, content in (
        (folder / f"{name}-key.pem", written),
        (folder / f"{name}.pem", certificate.public_bytes(serialization.Encoding.PEM)),
    ):
        draft = path.with_suffix(f".{os.getpid()}")
        with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(path)


def _read(folder: Path, name: str) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate] | None:
    """The pair, or None where there is none, it cannot be read, or the two do not belong together."""
    try:
        key = serialization.load_pem_private_key((folder / f"{name}-key.pem").read_bytes(), None)
        certificate = x509.load_pem_x509_certificate((folder / f"{name}.pem").read_bytes())
    except (OSError, ValueError, TypeError, UnsupportedAlgorithm):
        return None
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
        return None
    return key, certificate


def _damaged(folder: Path) -> BookDamaged:
    return BookDamaged(
        f"The authority in {folder} cannot be used.",
        remedy="Bring that folder back from a copy, or move it away: then a new one is made, and each phone has to "
        "trust it again.",
        code="house",
    )
