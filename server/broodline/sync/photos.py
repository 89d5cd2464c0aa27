"""What a phone may send as a picture: at most 2 MiB, JPEG, PNG or WebP by its first bytes, under its own hash.

A picture travels apart from the `photo` entry that names it, before or after it, and any number of times.
"""

import hashlib
import re

from broodline.errors import EnvelopeError, NotFound
from broodline.store.photos import Photos, Picture

MOST_PICTURE_BYTES = 2 * 1024 * 1024

_NAME = re.compile(r"[0-9a-f]{64}")


def keep_picture(photos: Photos, holding: str, sha256: str, content: bytes, brought_by: str) -> bool:
    """Keep what was sent; False where it was there already.

    Raises EnvelopeError for a name that is no hash, bytes that are no picture, or bytes of another hash.
    """
    if not _NAME.fullmatch(sha256):
        raise EnvelopeError(
            "sha256",
            "A picture is named by 64 digits of its hash, 0-9 and a-f.",
            remedy="Take the picture again with this app.",
        )
    kind = picture_type(content)
    if kind is None:
        raise EnvelopeError(
            "content", "These bytes are no JPEG, PNG or WebP picture.", remedy="Take the picture again with this app."
        )
    if hashlib.sha256(content).hexdigest() != sha256:
        raise EnvelopeError(
            "sha256",
            "The picture that arrived is not the one that was named.",
            remedy="Send it again. If it comes to this once more, the copy on the phone is damaged: take it again.",
        )
    return photos.put(holding, sha256, Picture(kind, content), brought_by)


def find_picture(photos: Photos, holding: str, sha256: str) -> Picture:
    """The picture of that name. Raises NotFound, also for a name that is no hash."""
    if not _NAME.fullmatch(sha256):
        raise NotFound("No picture has such a name.", remedy="Check the address.")
    return photos.get(holding, sha256)


def picture_type(content: bytes) -> str | None:
    """What the first bytes say, whatever a sender calls it.

    JPEG: ISO/IEC 10918-1 B.1.1.3 (SOI, then a marker). PNG: ISO/IEC 15948 5.2. WebP: RFC 9649 2.4.

    >>> picture_type(b"RIFF\\x04\\x00\\x00\\x00WEBPVP8 "), picture_type(b"GIF89a")
    ('image/webp', None)
    """
    if content.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    return None
