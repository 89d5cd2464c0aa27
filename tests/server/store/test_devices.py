"""Devices and codes: what is kept of them, what a code opens, what a revocation closes."""

import pytest

from broodline.errors import NotFound, WrongCode
from broodline.store.devices import WRONG_IN_ALL

MINUTE_MS = 60_000


@pytest.fixture
def holding(shelf):
    return shelf.holdings.current().id


def everything_stored(shelf):
    return "\n".join(shelf.connection.iterdump())


def test_a_device_is_known_by_its_token_and_the_token_is_not_kept(shelf, holding, clock):
    added = shelf.devices.add(holding, "d1", "Loft phone", "helper", "the-token")
    assert shelf.devices.by_token("the-token") == added
    assert (added.name, added.role, added.created_ms) == ("Loft phone", "helper", clock.ms())
    assert shelf.devices.by_token("the-token ") is None
    assert "the-token" not in everything_stored(shelf)


def test_a_revoked_device_is_known_no_more_and_the_first_time_stands(shelf, holding, clock):
    shelf.devices.add(holding, "d1", "phone", "keeper", "t")
    first = shelf.devices.revoke("d1").revoked_ms
    clock.go_on(minutes=5)
    assert shelf.devices.revoke("d1").revoked_ms == first
    assert shelf.devices.by_token("t") is None
    assert [device.id for device in shelf.devices.all()] == ["d1"]
    with pytest.raises(NotFound):
        shelf.devices.revoke("d2")


def test_last_seen_is_written_only_now_and_then(shelf, holding, clock):
    device = shelf.devices.add(holding, "d1", "phone", "keeper", "t")
    clock.go_on(minutes=9)
    assert shelf.devices.is_seen_lately(device)
    clock.go_on(minutes=2)
    assert not shelf.devices.is_seen_lately(device)
    shelf.devices.seen(device)
    assert shelf.devices.all()[0].last_seen_ms == clock.ms()


def test_a_code_works_once_and_is_not_kept(shelf, holding):
    shelf.devices.invite(holding, "0A1B2C3D", "reader", 10 * MINUTE_MS)
    assert "0A1B2C3D" not in everything_stored(shelf)
    with pytest.raises(WrongCode):
        shelf.devices.redeem("0A1B2C3E")
    assert shelf.devices.redeem("0A1B2C3D") == "reader"
    with pytest.raises(WrongCode):
        shelf.devices.redeem("0A1B2C3D")


def test_a_code_runs_out(shelf, holding, clock):
    expires_ms = shelf.devices.invite(holding, "0A1B2C3D", "keeper", 10 * MINUTE_MS)
    assert expires_ms == clock.ms() + 10 * MINUTE_MS
    clock.go_on(minutes=10)
    with pytest.raises(WrongCode):
        shelf.devices.redeem("0A1B2C3D")


def test_twenty_wrong_codes_in_all_end_each_that_was_open_meanwhile(shelf, holding, clock):
    shelf.devices.invite(holding, "0A1B2C3D", "keeper", 10 * MINUTE_MS)
    for n in range(WRONG_IN_ALL):
        if n == WRONG_IN_ALL - 1:
            shelf.devices.invite(holding, "9Z8Y7X6W", "helper", 10 * MINUTE_MS)
        clock.go_on(seconds=1)
        with pytest.raises(WrongCode):
            shelf.devices.redeem(f"WR0NG{n:03}")
    with pytest.raises(WrongCode, match="too many"):
        shelf.devices.redeem("0A1B2C3D")
    assert shelf.devices.redeem("9Z8Y7X6W") == "helper", "made after nineteen of them"


def test_a_code_stands_nineteen_wrong_ones(shelf, holding):
    shelf.devices.invite(holding, "0A1B2C3D", "keeper", 10 * MINUTE_MS)
    for n in range(WRONG_IN_ALL - 1):
        with pytest.raises(WrongCode):
            shelf.devices.redeem(f"WR0NG{n:03}")
    assert shelf.devices.redeem("0A1B2C3D") == "keeper"


def test_codes_that_ran_out_are_forgotten_with_the_next_one(shelf, holding, clock):
    shelf.devices.invite(holding, "0A1B2C3D", "keeper", MINUTE_MS)
    clock.go_on(minutes=2)
    shelf.devices.invite(holding, "9Z8Y7X6W", "keeper", MINUTE_MS)
    assert shelf.connection.execute("SELECT count(*) FROM codes").fetchone() == (1,)
