"""Push: a phone hands over entries. All of a batch is taken or nothing; sizes are judged before anything is read."""

from dataclasses import dataclass

from broodline.book.canonical import canonical_entries
from broodline.book.wire import Entry, load_json, read_entry
from broodline.errors import EnvelopeError, ProtocolTooOld, TooLarge
from broodline.store.log import Log, Placed

PROTOCOL = 1
MOST_ENTRIES = 200
MOST_BYTES = 256 * 1024

UPDATE_THE_APP = "Update the app. The phone keeps everything until then."
HALVE = "Send half of the entries at a time; the one that is refused alone is kept aside."


@dataclass(frozen=True, slots=True)
class Pushed:
    """The answer to a push: what became of each entry, in the order they came."""

    epoch: str
    results: list[Placed]


def push(log: Log, holding: str, request: bytes, brought_by: str) -> Pushed:
    """Store the entries of a request {v, entries}; when this returns they are on the disk.

    Raises TooLarge (over 200 entries or 256 KiB), EnvelopeError (field, and index in the batch), ProtocolTooOld,
    DiskFull, Busy; then nothing was stored.
    """
    entries = read_batch(request)
    placed = log.append(holding, entries, brought_by) if entries else []
    return Pushed(log.head(holding).epoch, placed)


def read_batch(request: bytes) -> list[Entry]:
    """The entries of a push request. Raises as `push` does."""
    if len(request) > MOST_BYTES:
        raise TooLarge(f"The request has {len(request)} bytes; {MOST_BYTES} are taken at once.")
    try:
        entries = canonical_entries(request, b'{"entries":[', b'],"v":%d}' % PROTOCOL)
    except EnvelopeError:
        entries = None  # a closer look says what is wrong, and where
    if entries is None or len(entries) > MOST_ENTRIES:
        return _entries_in(_read_text(request))
    return entries


def _read_text(request: bytes) -> object:
    """The request as a value. Where the text itself is at fault, nobody can say yet which entry it is."""
    try:
        return load_json(request)
    except EnvelopeError as fault:
        raise EnvelopeError(fault.field, fault.message, remedy=HALVE) from fault


def _entries_in(message: object) -> list[Entry]:
    if not isinstance(message, dict):
        raise EnvelopeError("$", "A push is a JSON object with v and entries.", remedy=UPDATE_THE_APP)
    entries = message.get("entries")
    if isinstance(entries, list) and len(entries) > MOST_ENTRIES:
        raise TooLarge(f"The request has {len(entries)} entries; {MOST_ENTRIES} are taken at once.")
    _check_protocol(message.get("v"))
    if not isinstance(entries, list):
        raise EnvelopeError("entries", "entries must be a list of entries.", remedy=UPDATE_THE_APP)
    return [_read(index, value) for index, value in enumerate(entries)]


def _check_protocol(v: object) -> None:
    if isinstance(v, float) and v.is_integer():
        v = int(v)
    if not isinstance(v, int) or isinstance(v, bool):
        raise EnvelopeError("v", f"v must be the number of the protocol, {PROTOCOL}.", remedy=UPDATE_THE_APP)
    if v < PROTOCOL:
        raise ProtocolTooOld(f"The app speaks protocol {v}; this server understands {PROTOCOL}.")
    if v > PROTOCOL:
        raise EnvelopeError(
            "v",
            f"The app speaks protocol {v}; this server understands {PROTOCOL}.",
            remedy="Update Broodline on the server. The phone keeps everything until then.",
        )


def _read(index: int, value: object) -> Entry:
    try:
        return read_entry(value)
    except EnvelopeError as fault:
        raise EnvelopeError(
            fault.field, f"entries[{index}], {fault.field}: {fault.message}", remedy=fault.remedy, index=index
        ) from fault
