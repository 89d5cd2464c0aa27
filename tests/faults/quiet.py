"""After the storm: every phone connects until nothing is left to say, and then all must agree."""

import json
from typing import TYPE_CHECKING, Any

from broodline.book.fold import fold
from broodline.book.standing import standing_json
from broodline.book.wire import stored_entry
from broodline.store.log import all_rows
from broodline.store.verification import find_faults
from tests.faults.keeper_model import is_too_large
from tests.faults.phone_model import Answer, Phone, Transaction

if TYPE_CHECKING:
    from tests.faults.schedule import Schedule

MOST_ROUNDS = 12


async def settle(schedule: "Schedule") -> None:
    """Rounds without faults until no phone waits and all have read to the end."""
    while schedule.in_the_air:
        await schedule.deliver_late()
    schedule.expected = union_of_ids(schedule)
    for _ in range(MOST_ROUNDS):
        outcomes = [await whole_round(schedule, phone) for phone in schedule.phones]
        end = schedule.server.shelf.log.head(schedule.server.holding()).cursor
        quiet = all(not phone.waiting() and phone.storage.cursor == end for phone in schedule.phones)
        if quiet and set(outcomes) == {"complete"}:
            return
    raise AssertionError(f"no quiet after {MOST_ROUNDS} rounds: {outcomes}")


async def whole_round(schedule: "Schedule", phone: Phone) -> str:
    """One round in good weather; a phone that is not paired any more is paired again and then asked."""
    made = phone.sync_round()
    step = next(made)
    while True:
        reply = Answer(None)
        if isinstance(step, Transaction):
            step.work()
        else:
            reply = await schedule.deliver(step, phone.cookie)
        try:
            step = made.send(reply)
        except StopIteration as end:
            if end.value == "unpaired":
                await schedule.pair(phone)
            return str(end.value)


def union_of_ids(schedule: "Schedule") -> set[str]:
    """Everything that somebody still holds and a server may take."""
    held = {
        entry_id
        for phone in schedule.phones
        for entry_id, row in phone.storage.rows.items()
        if not is_too_large(row.text)
    }
    return held | log_of(schedule).keys()


def log_of(schedule: "Schedule") -> dict[str, str]:
    server = schedule.server
    rows = all_rows(server.shelf.log, server.holding())
    return {json.loads(document)["id"]: document.decode() for _, document in rows}


def expect_agreement(schedule: "Schedule") -> None:
    """Invariants 1, 10, 11, 12, 15, 16 and 17."""
    log = log_of(schedule)
    lost = schedule.expected - log.keys()
    assert not lost, f"{len(lost)} entries are lost"
    assert log.keys() == schedule.expected, "the server has entries that nobody wrote"
    assert find_faults(schedule.server.shelf.connection) == []
    ours = standing_of(log.values())
    for phone in schedule.phones:
        rows = phone.storage.rows
        placed = {entry_id: row.text for entry_id, row in rows.items() if row.position is not None}
        assert placed == log, f"{phone.name} and the server hold different entries"
        assert all(is_too_large(row.text) and row.aside for i, row in rows.items() if i not in placed)
    in_order_of_ids = [text for _, text in sorted(log.items())]  # as phones fold
    assert standing_of(in_order_of_ids) == ours, "the same entries fold to different counts"


def standing_of(texts: Any) -> dict[str, Any]:
    return standing_json(fold([stored_entry(text.encode()) for text in texts]))
