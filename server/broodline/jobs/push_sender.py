"""Sending one message to one device, and what became of it, in words for its keeper."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

from broodline.jobs.push_line import FindWay, NoWay, post
from broodline.jobs.web_push import PushKey, encrypted, signature
from broodline.settings import Settings
from broodline.store.reminders import Subscription

# Push services ask for somebody to write to. This name leads nowhere: Apple's refuses it with 403, others look no
# closer (reported against several servers, such as web-push-libs/web-push issue 947; not tried from here).
NOBODY_ASKED = "https://broodline.invalid"
_NAMES_AT_HOME = (".local", ".home.arpa", ".internal", ".invalid", ".localhost", ".test")  # RFC 6761, 6762, 8375


def contact_of(settings: Settings) -> str:
    """Whom push services may write to: as the server was told, or its own address where the internet knows that."""
    if settings.contact is not None:
        return settings.contact
    origin = settings.public_origin or ""
    host = urlsplit(origin).hostname or ""
    if not origin.startswith("https://") or "." not in host or host.endswith(_NAMES_AT_HOME) or _is_number(host):
        return NOBODY_ASKED
    return origin


def _is_number(host: str) -> bool:
    return host.replace(".", "").isdigit() or ":" in host


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a push service answered. ended: the subscription is no more. again: worth another try. words: for the
    keeper."""

    status: int | None
    sent: bool
    ended: bool
    again: bool
    words: str


@dataclass(frozen=True, slots=True)
class PushSender:
    """Sends with the server's own key. contact: see contact_of. find_way: to a push service."""

    key: PushKey
    contact: str
    now_ms: Callable[[], int]
    find_way: FindWay

    def send(
        self, to: Subscription, message: Mapping[str, Any], *, topic: str, lasts_s: int, urgent: bool = False
    ) -> Outcome:
        """Send a message. topic: an undelivered older one of the same topic is dropped. lasts_s: how long the push
        service keeps it for a phone that is off. Blocks for at most ten seconds and a name's look-up."""
        try:
            body = encrypted(json.dumps(message, ensure_ascii=False).encode(), to.p256dh, to.auth)
            headers = {
                "Authorization": signature(self.key, to.endpoint, self.contact, self.now_ms()),
                "Content-Encoding": "aes128gcm",
                "Content-Type": "application/octet-stream",
                "TTL": str(lasts_s),
                "Urgency": "high" if urgent else "normal",
                "Topic": topic,
            }
            return outcome_of(post(to.endpoint, self.find_way(to.endpoint), headers, body))
        except NoWay as fault:
            return Outcome(None, sent=False, ended=False, again=True, words=str(fault))
        except ValueError:
            return Outcome(None, sent=False, ended=False, again=False, words="The message could not be encrypted.")


def outcome_of(status: int) -> Outcome:
    """What an answer of a push service means (RFC 8030, RFC 8292; 404 as 410, as services use both)."""
    if 200 <= status < 300:
        return Outcome(status, sent=True, ended=False, again=False, words="Handed to the phone's push service.")
    if status in (404, 410):
        words = "The push service no longer knows this phone. Turn reminders on again on it."
        return Outcome(status, sent=False, ended=True, again=False, words=words)
    if status in (401, 403):
        words = (
            f"The push service refused this server ({status}). Check that the server's clock is right, and that it was "
            "started with --contact: Apple's takes nothing from a server that names nobody to write to."
        )
        return Outcome(status, sent=False, ended=False, again=True, words=words)
    if status == 413:
        words = "The push service found the message too long."
        return Outcome(status, sent=False, ended=False, again=False, words=words)
    if status == 429 or status >= 500:
        words = f"The push service is busy ({status}). It is tried again."
        return Outcome(status, sent=False, ended=False, again=True, words=words)
    words = f"The push service sent an answer that is not followed ({status})."
    return Outcome(status, sent=False, ended=False, again=False, words=words)
