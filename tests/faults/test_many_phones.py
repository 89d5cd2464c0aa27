"""Two to five phones and the real server in bad weather: whatever happened, once it is quiet nothing is lost.

Every schedule comes from one seed; a failure names it and how to run it again. A longer search from the top of the
repository: python -m tests.faults.schedule 3000 50000
"""

import asyncio

import pytest

from tests.faults.schedule import run_seeds

SCHEDULES = 3000
AT_ONCE = 50


@pytest.mark.parametrize("first", range(0, SCHEDULES, AT_ONCE))
def test_nothing_is_lost_and_all_agree_once_it_is_quiet(first):
    """Invariants 1 to 6, 9 to 12 and 15 to 18, whatever was lost, doubled, late, restored, copied or revoked.

    Lost and doubled requests, lost and shortened answers, requests that arrive hours late, apps that die at any
    await, clocks off by years, servers that die, are put back to older copies (with and without a new epoch) or begin
    again from nothing, imports beside the server, phones that are cloned, put back, revoked, paired again or gone,
    entries of newer apps, broken ones, ones too large, and edited copies under known ids.
    """
    met = asyncio.run(run_seeds(range(first, first + AT_ONCE)))
    for event in ("stored", "duplicate", "401", "409", "backup", "restore", "put back", "die", "beside", "rewind"):
        assert met[event] > 0, f"these schedules never met: {event}"


def test_the_schedules_meet_what_is_rare_too():
    met = asyncio.run(run_seeds(range(120)))
    for event in ("clash", "400", "lost", "clone", "revoke", "pair", "gone", "clock"):
        assert met[event] > 3, f"these schedules hardly ever met: {event}"
