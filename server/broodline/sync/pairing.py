"""Pairing: a one-time code, typed in the app, makes a phone a device of this book.

A code has eight characters of Crockford's base 32 (no I, L, O, U: they are misread), works once and for ten
minutes. Five wrong codes a minute from one address are answered; then that address waits. Twenty wrong codes in all,
from wherever, end every code that was open meanwhile (store/devices.py).
"""

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock

from broodline.book.wire import parse_json
from broodline.errors import EnvelopeError, TooManyTries, WrongCode
from broodline.store.devices import ROLES, Device, Devices, Role
from broodline.store.holdings import Holding, Holdings

CODE_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
CODE_LENGTH = 8
CODE_LASTS_MS = 10 * 60 * 1000
WRONG_TRIES = 5
TRIES_WINDOW_MS = 60 * 1000
MOST_ADDRESSES = 10_000
LONGEST_NAME = 100
_JOINERS = frozenset("\u200c\u200d")
PAIR_ON_ITS_PAGE = "Open Broodline at its own address and type the code there."

_MISREAD = str.maketrans({"I": "1", "L": "1", "O": "0", "-": None, " ": None})


@dataclass(frozen=True, slots=True)
class Invitation:
    """A code to be typed in the app, the role it gives, and when it runs out (milliseconds since 1970, UTC)."""

    code: str
    role: Role
    expires_ms: int


@dataclass(frozen=True, slots=True)
class Pairing:
    """A device that was just paired; `token` is its secret and is kept nowhere but in its cookie."""

    device: Device
    holding: Holding
    token: str


@dataclass(frozen=True, slots=True)
class PairRequest:
    """What a phone sends to be paired. holding: the one it remembers, if any."""

    code: str
    name: str
    holding: str | None


class Tries:
    """Tries of the last minute that count against somebody, by address: wrong codes, unless said otherwise.

    Asked by several threads. Where a look-up lies between `check` and `note`, both belong on the one thread that looks
    up: requests that come at once are then judged one after another. Elsewhere `take` does both as one act.
    """

    def __init__(
        self, now_ms: Callable[[], int], words: str = "Too many wrong codes.", most: int = WRONG_TRIES
    ) -> None:
        self._now_ms = now_ms
        self._most = most
        self._words = words
        self._wrong: dict[str, deque[int]] = {}
        self._turn = Lock()

    def check(self, address: str) -> None:
        """Raise TooManyTries while the address has to wait."""
        with self._turn:
            self._check(address)

    def note(self, address: str) -> None:
        """Remember one."""
        with self._turn:
            self._note(address)

    def take(self, address: str) -> None:
        """Remember one, or raise TooManyTries."""
        with self._turn:
            self._check(address)
            self._note(address)

    def _check(self, address: str) -> None:
        recent = self._recent(address)
        if len(recent) >= self._most:
            wait_ms = recent[-self._most] + TRIES_WINDOW_MS - self._now_ms()
            raise TooManyTries(self._words, retry_after_s=max(1, -(-wait_ms // 1000)))

    def _note(self, address: str) -> None:
        if len(self._wrong) >= MOST_ADDRESSES:
            self._wrong = {known: times for known in list(self._wrong) if (times := self._recent(known))}
        recent = self._recent(address)
        recent.append(self._now_ms())
        self._wrong[address] = recent

    def _recent(self, address: str) -> deque[int]:
        recent = self._wrong.get(address, deque())
        now_ms = self._now_ms()
        while recent and recent[0] <= now_ms - TRIES_WINDOW_MS:
            recent.popleft()
        while recent and recent[-1] > now_ms:  # from before the clock was set back: nobody waits until it comes round
            recent.pop()
        return recent


def invite(
    devices: Devices,
    holding: str,
    role: object,
    random_bytes: Callable[[int], bytes],
    inviter: str | None = None,
) -> Invitation:
    """Make a code for a role. inviter: the device that asks for it, with whose pairing it ends; None: the terminal.

    Raises EnvelopeError for a role that does not exist.
    """
    for known in ROLES:
        if role == known:
            code = "".join(CODE_LETTERS[byte % len(CODE_LETTERS)] for byte in random_bytes(CODE_LENGTH))
            return Invitation(code, known, devices.invite(holding, code, known, CODE_LASTS_MS, inviter))
    raise EnvelopeError("role", "role must be keeper, helper or reader.", remedy="Choose one of the three.")


def read_pair_request(request: bytes) -> PairRequest:
    """The fields of a pairing. Raises EnvelopeError."""
    message = parse_json(request)
    if not isinstance(message, dict):
        raise EnvelopeError("$", "Pairing takes a JSON object with code and name.", remedy=PAIR_ON_ITS_PAGE)
    code, name, holding = message.get("code"), message.get("name"), message.get("holding")
    if not isinstance(code, str):
        raise EnvelopeError("code", "code must be the text of a pairing code.", remedy=PAIR_ON_ITS_PAGE)
    if holding is not None and not isinstance(holding, str):
        raise EnvelopeError("holding", "holding must be the id of a holding, or left out.", remedy=PAIR_ON_ITS_PAGE)
    return PairRequest(code, read_name(name), holding)


def read_name(name: object) -> str:
    """A device's name. Signs that join letters or pictures into one are no control signs. Raises EnvelopeError."""
    if not isinstance(name, str) or not 1 <= len(name.strip()) <= LONGEST_NAME:
        raise EnvelopeError(
            "name", f"name must be text of 1 to {LONGEST_NAME} characters.", remedy="Give the phone a short name."
        )
    if not all(sign.isprintable() or sign in _JOINERS for sign in name):
        raise EnvelopeError("name", "name holds signs that cannot be shown.", remedy="Type the phone's name anew.")
    return name.strip()


def pair(
    devices: Devices,
    holdings: Holdings,
    tries: Tries,
    request: PairRequest,
    address: str,
    random_bytes: Callable[[int], bytes],
) -> Pairing:
    """Turn a code into a device. A phone that pairs again gets a new device.

    An empty book takes over the holding the phone remembers (see Holdings.take_over). Belongs on the thread that
    writes. Raises WrongCode, and TooManyTries for what came after too many wrong ones.
    """
    tries.check(address)
    try:
        role = devices.redeem(normal_code(request.code))
    except WrongCode:
        tries.note(address)
        raise
    holding = holdings.current() if request.holding is None else holdings.take_over(request.holding)
    return sign_in(devices, holding, request.name, role, random_bytes)


def sign_in(devices: Devices, holding: Holding, name: str, role: Role, random_bytes: Callable[[int], bytes]) -> Pairing:
    """Make a device without a code: only for what has proved itself, or a demo on its own machine."""
    token = random_bytes(32).hex()
    device = devices.add(holding.id, random_bytes(8).hex(), name, role, token)
    return Pairing(device, holding, token)


def normal_code(typed: str) -> str:
    """A code as it was made, from one typed in small letters, with spaces or dashes, or with I, L, O."""
    return typed.upper().translate(_MISREAD)
