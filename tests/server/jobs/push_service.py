"""A push service on this machine: takes messages as a browser's would, opens them with the browser's half of the
keys, and answers as it is told."""

import base64
import json
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import http_ece
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature

from broodline.jobs.push_line import Way

ENDPOINT = "https://fcm.googleapis.com/fcm/send/phone-1"
HANG = 0


@dataclass
class PushService:
    """received: (path, headers, message) in order. answers: statuses to give, the last for ever; HANG: none at all.
    subjects: whom each signature names to write to.

    A message whose signature, time to live or topic is not as RFC 8030 and RFC 8292 ask is answered 400 or 403.
    """

    private: ec.EllipticCurvePrivateKey = field(default_factory=lambda: ec.generate_private_key(ec.SECP256R1()))
    auth: bytes = b"sixteen bytes ok"
    answers: list[int] = field(default_factory=lambda: [201])
    received: list[tuple[str, dict[str, str], Any]] = field(default_factory=list)
    subjects: list[str] = field(default_factory=list)
    port: int = 0
    ended: threading.Event = field(default_factory=threading.Event)

    def way(self, endpoint: str) -> Way:
        """The way here, whatever the endpoint."""
        return Way(("127.0.0.1",), self.port, None)

    @property
    def p256dh(self) -> bytes:
        return self.private.public_key().public_bytes(
            serialization.Encoding.X962, serialization.PublicFormat.UncompressedPoint
        )

    def subscription(self, endpoint: str = ENDPOINT) -> dict[str, Any]:
        """What a browser hands to its page."""
        keys = {"p256dh": base64url(self.p256dh), "auth": base64url(self.auth)}
        return {"endpoint": endpoint, "expirationTime": None, "keys": keys}

    def fault_in(self, headers: dict[str, str]) -> int | None:
        """The status with which a real service refuses what was sent, by the headers' own words; None where it is
        well. The signature (ES256) is verified with the key that came along."""
        topic = headers.get("topic", "")
        if not headers.get("ttl", "").isdigit() or not re.fullmatch(r"[A-Za-z0-9_-]{1,32}", topic):
            return 400
        found = re.fullmatch(r"vapid t=([\w-]+)\.([\w-]+)\.([\w-]+), k=([\w-]+)", headers.get("authorization", ""))
        if found is None:
            return 403
        head, claims, signed, key = found.groups()
        raw = unpadded(signed)
        whole = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
        verifier = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), unpadded(key))
        try:
            verifier.verify(whole, f"{head}.{claims}".encode(), ec.ECDSA(hashes.SHA256()))
        except InvalidSignature:
            return 403
        self.subjects.append(json.loads(unpadded(claims))["sub"])
        audience = json.loads(unpadded(claims)).get("aud")
        return None if audience == f"https://{headers['host']}" else 403

    def open(self, body: bytes) -> Any:
        """The message, decrypted by the library http_ece: another hand than the one that wrote it."""
        text = http_ece.decrypt(body, private_key=self.private, auth_secret=self.auth, version="aes128gcm")
        return json.loads(text)


@contextmanager
def push_service() -> Iterator[PushService]:
    """A service that runs until the end of the block."""
    service = PushService()

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["content-length"]))
            headers = {k.lower(): v for k, v in self.headers.items()}
            service.received.append((self.path, headers, service.open(body)))
            status = service.answers.pop(0) if len(service.answers) > 1 else service.answers[0]
            status = (service.fault_in(headers) or status) if headers.get("authorization") else status
            if status == HANG:
                service.ended.wait(30)
                return
            self.send_response(status)
            self.send_header("location", f"http://127.0.0.1:{service.port}/inside-the-house")
            self.send_header("content-length", "0")
            self.end_headers()

        def log_message(self, *_: object) -> None:
            """Says nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    service.port = server.server_address[1]
    thread = threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    try:
        yield service
    finally:
        service.ended.set()
        server.shutdown()
        server.server_close()
        thread.join()


def unpadded(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def base64url(value: bytes) -> str:
    return base64.urlsafe_b64encode(value).decode().rstrip("=")
