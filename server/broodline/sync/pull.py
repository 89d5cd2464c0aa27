"""Pull: a phone asks for what came after the place it remembers."""

from broodline import __version__
from broodline.errors import EnvelopeError
from broodline.store.log import MOST_ROWS, Log, Page


def pull(log: Log, holding: str, cursor: str | None, limit: str | None) -> Page:
    """The rows after `cursor`, at most `limit` of them. No cursor is the start; a limit is brought into 1 to 500.

    Raises ResetNeeded for a cursor that cannot be read or is of another history, EnvelopeError for a limit that
    is no whole number.
    """
    return log.read(holding, cursor or None, _read_limit(limit))


def page_bytes(page: Page, server_ms: int) -> bytes:
    """The reply as JSON. Entries go out byte for byte as they were stored, fields of newer apps included. Of another
    version a phone hopes that it takes what the last one refused."""
    rows = b",".join(b'{"position":%d,"entry":%b}' % row for row in page.rows)
    more = b"true" if page.more else b"false"
    cursor = page.cursor.encode("ascii")
    version = __version__.encode("ascii")
    return b'{"entries":[%b],"cursor":"%b","more":%b,"server_ms":%d,"version":"%b"}' % (
        *(rows, cursor, more, server_ms, version),
    )


def _read_limit(limit: str | None) -> int:
    if limit is None:
        return MOST_ROWS
    digits = limit.removeprefix("-")
    if not (digits.isascii() and digits.isdigit()):
        raise EnvelopeError(
            "limit",
            f"limit must be a whole number from 1 to {MOST_ROWS}.",
            remedy="Leave the limit out, or ask for so many at once.",
        )
    return max(1, min(int(limit[:9]), MOST_ROWS))
