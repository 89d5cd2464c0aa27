"""What is handed to a push service: a message only the phone can read, and who sends it.

RFC 8291 (with RFC 8188's aes128gcm) and RFC 8292 on the primitives of `cryptography`.
"""

import base64
import json
import os
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from cryptography.exceptions import UnsupportedAlgorithm
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from broodline.errors import BookDamaged

KEY_FILE = "push-key.pem"
RECORD_BYTES = 4096  # what every push service takes, RFC 8030 section 7.2
MOST_PLAIN_BYTES = RECORD_BYTES - 86 - 17  # less the header, the tag and the padding's first byte: RFC 8291, section 4
SIGNED_FOR_S = 12 * 3600  # RFC 8292 allows 24 h; the rest is for a clock that is wrong
_LAST_RECORD = b"\x02"
_POINT = (serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint)


@dataclass(frozen=True, slots=True)
class PushKey:
    """The server's own key, by which push services know it. A new one ends all subscriptions."""

    private: ec.EllipticCurvePrivateKey

    @property
    def public(self) -> str:
        """As browsers take it for a subscription: the point, in URL-safe base 64."""
        return to_base64(self.private.public_key().public_bytes(*_POINT))


def own_key(data_dir: Path) -> PushKey:
    """The key of a data folder, made the first time; only its owner may read the file.

    Raises BookDamaged for a file that holds none.
    """
    path = data_dir / KEY_FILE
    if not path.exists():
        made = ec.generate_private_key(ec.SECP256R1()).private_bytes(
            serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
        )
        draft = path.with_suffix(f".{os.getpid()}")
        with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(made)
            file.flush()
            os.fsync(file.fileno())
        try:
            os.link(draft, path)  # another process may have been first: its key stands
        except FileExistsError:
            pass
        finally:
            draft.unlink()
    try:
        private = serialization.load_pem_private_key(path.read_bytes(), None)
    except (ValueError, TypeError, UnsupportedAlgorithm):
        private = None
    if not isinstance(private, ec.EllipticCurvePrivateKey) or not isinstance(private.curve, ec.SECP256R1):
        raise BookDamaged(
            f"{path} holds no key for reminders.",
            remedy="Move that file away and start again. Phones take up the new key when the app is opened.",
            code="push_key",
        )
    return PushKey(private)


def encrypted(
    message: bytes,
    p256dh: bytes,
    auth: bytes,
    *,
    one_time: ec.EllipticCurvePrivateKey | None = None,
    random_bytes: Callable[[int], bytes] = secrets.token_bytes,
) -> bytes:
    """The message for the browser with this public key and secret. one_time: the key of this message alone.

    Raises ValueError for a key that is no point of P-256 and for a message over MOST_PLAIN_BYTES.
    """
    if len(message) > MOST_PLAIN_BYTES:
        raise ValueError(f"A message of {len(message)} bytes does not fit one record.")
    theirs = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), p256dh)
    ours = one_time or ec.generate_private_key(ec.SECP256R1())
    sender = ours.public_key().public_bytes(*_POINT)
    shared = ours.exchange(ec.ECDH(), theirs)
    secret = _derived(shared, auth, b"WebPush: info\x00" + p256dh + sender, 32)
    salt = random_bytes(16)
    key = _derived(secret, salt, b"Content-Encoding: aes128gcm\x00", 16)
    nonce = _derived(secret, salt, b"Content-Encoding: nonce\x00", 12)
    sealed = AESGCM(key).encrypt(nonce, message + _LAST_RECORD, None)
    return salt + RECORD_BYTES.to_bytes(4, "big") + len(sender).to_bytes(1, "big") + sender + sealed


def signature(key: PushKey, endpoint: str, contact: str, now_ms: int) -> str:
    """The Authorization header for one push service: a token made for it alone. contact: mailto: or https:."""
    parts = urlsplit(endpoint)
    claims = {"aud": f"{parts.scheme}://{parts.netloc}", "exp": now_ms // 1000 + SIGNED_FOR_S, "sub": contact}
    text = ".".join(to_base64(json.dumps(part).encode()) for part in ({"typ": "JWT", "alg": "ES256"}, claims))
    r, s = decode_dss_signature(key.private.sign(text.encode(), ec.ECDSA(hashes.SHA256())))
    signed = to_base64(r.to_bytes(32, "big") + s.to_bytes(32, "big"))
    return f"vapid t={text}.{signed}, k={key.public}"


def to_base64(value: bytes) -> str:
    """URL-safe base 64 without its padding."""
    return base64.urlsafe_b64encode(value).decode().rstrip("=")


def from_base64(text: str) -> bytes:
    """The bytes of URL-safe base 64, padded or not. Raises ValueError."""
    bare = text.rstrip("=")
    return base64.b64decode(bare + "=" * (-len(bare) % 4), altchars=b"-_", validate=True)


def _derived(secret: bytes, salt: bytes, info: bytes, length: int) -> bytes:
    return HKDF(hashes.SHA256(), length, salt, info).derive(secret)
