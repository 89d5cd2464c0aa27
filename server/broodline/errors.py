"""The error family. Every error carries a code for programs, a message and a remedy for the keeper.

    BroodlineError
    ├── EnvelopeError      an entry that cannot be stored (carries the field)
    ├── TooLarge           more bytes or entries than one request may carry
    ├── HostRefused        the request names a host this server is not
    ├── OriginRefused      a change asked for by another site
    ├── NotPaired          no device, or one whose pairing was revoked
    ├── WrongCode          a pairing code that is wrong, used or too old
    ├── OtherHolding       meant for another holding's book than the device is paired with
    ├── RoleRefused        the device may not do this
    ├── NotFound           nothing in the book by that name
    ├── LettersLacking     letters that the fonts of papers do not have
    ├── ResetNeeded        the cursor belongs to another history
    ├── ProtocolTooOld     the app speaks an older protocol
    ├── TooManyTries       wait before the next try (carries the seconds)
    ├── Busy               the book is locked for the moment
    ├── DiskFull           no room to write
    ├── BookDamaged        the stored book does not verify
    └── WrongUse           a command called with the wrong words

What a keeper wrote never raises: it becomes a Problem (book/problems.py). HTTP numbers live in web/replies.py.
"""

from collections.abc import Sequence


class BroodlineError(Exception):
    """Something refused, with words for the keeper."""

    code = "error"
    default_remedy = "Try again. Nothing that was saved is lost."

    def __init__(self, message: str, *, remedy: str | None = None, code: str | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy if remedy is not None else self.default_remedy
        if code is not None:
            self.code = code


class EnvelopeError(BroodlineError):
    """An entry whose envelope or bytes break the rules, so that it cannot be stored. index: its place in a batch."""

    code = "envelope"
    default_remedy = "Send the other entries without this one, and keep it aside."

    def __init__(self, field: str, message: str, *, remedy: str | None = None, index: int | None = None) -> None:
        super().__init__(message, remedy=remedy)
        self.field = field
        self.index = index


class TooLarge(BroodlineError):
    """A request over the size a server takes at once."""

    code = "too_large"
    default_remedy = "Send half as much at a time."


class HostRefused(BroodlineError):
    """The Host header names another machine."""

    code = "host"
    default_remedy = "Open Broodline at the address it was set up with."


class OriginRefused(BroodlineError):
    """A change that does not come from this app's own pages."""

    code = "origin"
    default_remedy = "Open Broodline at its own address and try there."


class NotPaired(BroodlineError):
    """No device is known by this cookie."""

    code = "unpaired"
    default_remedy = "Pair this phone again. Everything saved on it stays and is sent afterwards."


class WrongCode(BroodlineError):
    """A pairing code that is wrong, was used, or is over ten minutes old."""

    code = "wrong_code"
    default_remedy = "Ask for a new code with `broodline pair` and type it within ten minutes."


class OtherHolding(BroodlineError):
    """The request names another holding than the one this device is paired with."""

    code = "elsewhere"
    default_remedy = "Close the app and open it again: it then shows the book this phone is paired with."


class RoleRefused(BroodlineError):
    """The device's role does not allow this."""

    code = "role"
    default_remedy = "Ask the keeper to do this, or to pair this phone in another role."


class NotFound(BroodlineError):
    """Nothing by that name."""

    code = "not_found"
    default_remedy = "Check the name. If it was just recorded on a phone, let that phone sync first."


class LettersLacking(BroodlineError):
    """Letters on a paper that its fonts do not have; printed as boxes only where the keeper asks for that."""

    code = "letters"
    default_remedy = (
        "Write those words without them in the app, or let a box stand for each: `broodline paper … --boxes`, or "
        "?boxes=1 after the paper's address."
    )

    def __init__(self, letters: Sequence[str], words: Sequence[str]) -> None:
        named = ", ".join(f"{letter} (U+{ord(letter):04X})" for letter in letters)
        super().__init__(f"The fonts of papers lack {named}, in: {'; '.join(words)}.")
        self.letters = tuple(letters)


class ResetNeeded(BroodlineError):
    """A cursor that is not part of this book's history."""

    code = "reset"
    default_remedy = "The app sends all it holds and reads the book from the start; nothing is lost."


class ProtocolTooOld(BroodlineError):
    """The app speaks a protocol this server no longer understands."""

    code = "protocol"
    default_remedy = "Update the app. Keep recording meanwhile; nothing is lost."


class TooManyTries(BroodlineError):
    """Too many tries in a short time."""

    code = "too_many_tries"
    default_remedy = "Wait a minute, then try once more."

    def __init__(self, message: str, *, retry_after_s: int, remedy: str | None = None) -> None:
        super().__init__(message, remedy=remedy)
        self.retry_after_s = retry_after_s


class Busy(BroodlineError):
    """The book cannot be written at this moment."""

    code = "busy"
    default_remedy = "The app tries again by itself."


class DiskFull(BroodlineError):
    """The machine that keeps the book has no room left."""

    code = "disk_full"
    default_remedy = "Free some room on the server. The phones keep everything until then."


class BookDamaged(BroodlineError):
    """The stored book does not verify."""

    code = "damaged"
    default_remedy = "Stop the server and restore the last backup; the phones then send what is newer."


class WrongUse(BroodlineError):
    """A command called with words it does not understand."""

    code = "wrong_use"
    default_remedy = "See `broodline --help`."
