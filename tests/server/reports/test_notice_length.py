"""How long a reminder may be: a message of more than 3,993 bytes cannot be encrypted into one record (RFC 8291)."""

import json
from datetime import timedelta

import pytest

from broodline.book.fold import fold
from broodline.jobs.web_push import MOST_PLAIN_BYTES
from broodline.reports.notice import cut, notices, payload
from broodline.reports.wishes import TASKS, Wishes
from tests.book_writer import BookWriter
from tests.server.reports.test_notice import LONG_AGO, SET_AT


@pytest.mark.parametrize("name", ["L" * 3900, "\U0001f423" * 1900, '"' * 3900, "\\" * 3900])
def test_a_reminder_fits_into_its_message_however_long_the_names_are(name: str) -> None:
    writer = BookWriter()
    writer.keeper()
    place = writer.incubator(name)
    writer.set_eggs(place, [(writer.lot(), writer.family("Rowan"), 12)], set_at=SET_AT)
    lockdown = SET_AT + timedelta(days=17, hours=12)
    told = notices(fold(writer.entries()), lockdown, Wishes(frozenset(TASKS)), LONG_AGO, set())
    assert told
    for notice in told:
        message = payload(notice, "https://" + "a" * 250)
        assert len(json.dumps(message, ensure_ascii=False).encode()) <= MOST_PLAIN_BYTES
        words = message["notification"]["title"] + message["notification"]["body"]
        assert "\N{HORIZONTAL ELLIPSIS}" in words
        assert name[:100] in words


def test_what_is_not_too_long_stays_as_it_is_and_no_letter_is_cut_in_two() -> None:
    assert cut("Lockdown: Sunday 29 March", 25) == "Lockdown: Sunday 29 March"
    assert cut("\U0001f423" * 5, 19) == "\U0001f423" * 4 + "\N{HORIZONTAL ELLIPSIS}"
    assert cut("\U0001f423" * 5, 18) == "\U0001f423" * 3 + "\N{HORIZONTAL ELLIPSIS}"
