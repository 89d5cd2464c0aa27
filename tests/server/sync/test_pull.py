"""Pull: what a cursor gives, and that entries travel byte for byte."""

import json
from importlib.metadata import version

import pytest

from broodline.errors import EnvelopeError, ResetNeeded
from broodline.store.memory_log import MemoryLog
from broodline.sync.pull import page_bytes, pull
from tests.server.store.log_suite import HOLDING, note


@pytest.fixture
def log():
    made = MemoryLog(lambda: "epoch")
    made.found(HOLDING)
    made.append(HOLDING, [note(n, f"ü {n}", later={"10": 1, "9": 2}) for n in range(1, 6)], "phone")
    return made


def test_entries_go_out_byte_for_byte(log):
    raw = page_bytes(pull(log, HOLDING, None, None), 1_772_000_000_123)
    message = json.loads(raw)
    assert set(message) == {"entries", "cursor", "more", "server_ms", "version"}
    assert message["version"] == version("broodline")
    assert message["server_ms"] == 1_772_000_000_123
    assert message["cursor"] == log.head(HOLDING).cursor
    assert message["more"] is False
    assert [row["position"] for row in message["entries"]] == [1, 2, 3, 4, 5]
    for n in range(1, 6):
        assert note(n, f"ü {n}", later={"10": 1, "9": 2}).canonical in raw


@pytest.mark.parametrize("start", [None, ""])
def test_no_cursor_is_the_start(log, start):
    assert len(pull(log, HOLDING, start, None).rows) == 5


def test_a_phone_goes_on_from_its_cursor(log):
    page = pull(log, HOLDING, None, "2")
    assert page.more
    assert [position for position, _ in pull(log, HOLDING, page.cursor, None).rows] == [3, 4, 5]


@pytest.mark.parametrize(("limit", "rows"), [("1", 1), ("0", 1), ("-3", 1), ("500", 5), ("501", 5), ("9" * 5000, 5)])
def test_a_limit_is_brought_into_1_to_500(log, limit, rows):
    assert len(pull(log, HOLDING, None, limit).rows) == rows


@pytest.mark.parametrize("limit", ["", "x", "1.5", "1e3", "٣", "--1", " 1"])
def test_a_limit_that_is_no_whole_number_is_refused(log, limit):
    with pytest.raises(EnvelopeError) as refused:
        pull(log, HOLDING, None, limit)
    assert refused.value.field == "limit"
    assert "limit" in refused.value.remedy


@pytest.mark.parametrize("cursor", ["nonsense", "epoch.9." + "0" * 64, "other.0." + "0" * 64])
def test_a_foreign_or_unreadable_cursor_asks_for_a_reset(log, cursor):
    with pytest.raises(ResetNeeded):
        pull(log, HOLDING, cursor, None)
