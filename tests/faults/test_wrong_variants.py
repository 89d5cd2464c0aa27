"""The schedules would find it: each of these phones and servers is wrong in one way, and a schedule shows it."""

import asyncio

import pytest

from tests.faults import wrong_variants as wrong
from tests.faults.schedule import run_seeds

MOST_SEEDS = 300
BROKEN = r"^seed \d+: (AssertionError|BookDamaged): "


@pytest.mark.parametrize(
    "variant",
    [
        pytest.param({"phone_type": wrong.KeepsRowsFirst}, id="rows before the cursor"),
        pytest.param({"phone_type": wrong.KeepsCursorFirst}, id="cursor before the rows"),
        pytest.param({"phone_type": wrong.TrustsAcknowledgements}, id="acknowledgements are trusted"),
        pytest.param({"phone_type": wrong.OffersOnlyItsOwn}, id="only own entries are brought back"),
        pytest.param({"log_type": wrong.ChecksNoHistory}, id="any cursor is believed"),
        pytest.param({"log_type": wrong.RemembersTheChain}, id="last link from memory"),
        pytest.param({"log_type": wrong.AnswersFirst}, id="answered before it is written"),
    ],
)
def test_a_schedule_finds(variant):
    with pytest.raises(AssertionError, match=BROKEN):
        asyncio.run(run_seeds(range(MOST_SEEDS), **variant))


def test_a_schedule_finds_a_cursor_that_proves_only_its_last_entry(monkeypatch):
    for user in ("sqlite_log", "verification"):
        monkeypatch.setattr(f"broodline.store.{user}.next_link", wrong.link_of_id_alone)
    with pytest.raises(AssertionError, match=BROKEN):
        asyncio.run(run_seeds(range(MOST_SEEDS), phone_type=wrong.ProvesOnlyTheId))
