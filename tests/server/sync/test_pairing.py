"""Pairing: codes, tries, and which holding the phone ends up with."""

import json
import secrets

import pytest

from broodline.errors import EnvelopeError, TooManyTries, WrongCode
from broodline.sync.pairing import (
    CODE_LENGTH,
    CODE_LETTERS,
    WRONG_TRIES,
    PairRequest,
    Tries,
    invite,
    normal_code,
    pair,
    read_pair_request,
)
from tests.server.store.log_suite import note

REMEMBERED = "0123456789abcdef0123456789abcdef"


@pytest.fixture
def tries(clock):
    return Tries(clock.ms)


@pytest.fixture
def pairing(shelf, tries, chance):
    def ask(code, holding=None, address="192.0.2.1"):
        tries.check(address)
        request = PairRequest(code, "phone", holding)
        return pair(shelf.devices, shelf.holdings, tries, request, address, chance)

    return ask


@pytest.fixture
def code(shelf):
    def make(role="keeper"):
        return invite(shelf.devices, shelf.holdings.current().id, role, secrets.token_bytes).code

    return make


def test_a_code_is_eight_characters_that_are_not_misread(code):
    made = {code() for _ in range(50)}
    assert len(made) == 50
    assert all(len(one) == CODE_LENGTH and set(one) <= set(CODE_LETTERS) for one in made)
    assert not set("ILOU") & set(CODE_LETTERS)
    assert len(CODE_LETTERS) == 32


def test_a_code_pairs_once_with_its_role(shelf, pairing, code):
    typed = code("helper")
    made = pairing(typed)
    assert made.device.role == "helper"
    assert shelf.devices.by_token(made.token) == made.device
    with pytest.raises(WrongCode):
        pairing(typed)


def test_a_code_may_be_typed_as_it_is_read(pairing, code):
    typed = code()
    pairing(f" {typed[:4].lower()}-{typed[4:].lower()} ")
    assert normal_code("oil0-1ABC") == "011" + "01ABC"


def test_a_role_that_does_not_exist_is_refused(shelf):
    for role in ("owner", "", None, 1, ["keeper"]):
        with pytest.raises(EnvelopeError):
            invite(shelf.devices, shelf.holdings.current().id, role, secrets.token_bytes)


def test_a_phone_that_pairs_again_gets_a_new_device(shelf, pairing, code):
    first, second = pairing(code()), pairing(code())
    assert first.device.id != second.device.id
    assert first.token != second.token
    assert shelf.devices.by_token(first.token) == first.device, "the earlier one is not ended by that"


def test_after_five_wrong_codes_an_address_waits_a_minute_even_with_a_right_one(pairing, code, clock):
    for n in range(WRONG_TRIES):
        clock.go_on(seconds=1)
        with pytest.raises(WrongCode):
            pairing(f"WR0NG00{n}")
    with pytest.raises(TooManyTries) as waits:
        pairing(code())
    assert waits.value.retry_after_s == 56
    assert pairing(code(), address="192.0.2.2").device, "others need not wait"
    clock.go_on(seconds=56)
    assert pairing(code()).device


def test_a_clock_that_is_set_back_makes_nobody_wait_for_hours(tries, clock):
    """As a machine without a clock of its own does when it has asked the network for the time."""
    for _ in range(WRONG_TRIES):
        tries.take("192.0.2.1")
    clock.go_on(hours=-3)
    for _ in range(WRONG_TRIES):
        tries.take("192.0.2.1")
    with pytest.raises(TooManyTries) as waits:
        tries.take("192.0.2.1")
    assert waits.value.retry_after_s == 60


def test_right_codes_do_not_count_as_tries(pairing, code):
    for _ in range(2 * WRONG_TRIES):
        pairing(code())


def test_many_addresses_do_not_fill_the_memory(tries, clock):
    for n in range(10_000):
        tries.note(f"192.0.{n // 256}.{n % 256}")
    clock.go_on(minutes=2)
    tries.note("198.51.100.1")
    assert len(tries._wrong) == 1


def test_an_empty_server_becomes_the_holding_the_phone_remembers(shelf, pairing, code):
    made = pairing(code(), holding=REMEMBERED)
    assert made.holding.id == REMEMBERED
    assert made.device.holding == REMEMBERED
    assert shelf.devices.by_token(made.token) == made.device


def test_codes_made_before_the_take_over_still_work(pairing, code):
    waiting = code("reader")
    pairing(code(), holding=REMEMBERED)
    assert pairing(waiting).device.role == "reader"


def test_a_server_with_entries_keeps_its_own_holding(shelf, pairing, code):
    own = shelf.holdings.current().id
    shelf.log.append(own, [note(1)], "phone")
    assert pairing(code(), holding=REMEMBERED).holding.id == own


def test_a_wrong_code_takes_nothing_over(shelf, pairing):
    own = shelf.holdings.current().id
    with pytest.raises(WrongCode):
        pairing("WR0NGC0D", holding=REMEMBERED)
    assert shelf.holdings.current().id == own


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ([], "$"),
        ({}, "code"),
        ({"code": 12345678, "name": "x"}, "code"),
        ({"code": "A", "name": ""}, "name"),
        ({"code": "A", "name": "  "}, "name"),
        ({"code": "A", "name": "x" * 101}, "name"),
        ({"code": "A", "name": "Ana\u202e"}, "name"),
        ({"code": "A", "name": "Ana\n"}, "name"),
        ({"code": "A"}, "name"),
        ({"code": "A", "name": "x", "holding": 5}, "holding"),
    ],
)
def test_a_request_that_is_no_pairing_names_its_field(body, field):
    with pytest.raises(EnvelopeError) as refused:
        read_pair_request(json.dumps(body).encode())
    assert refused.value.field == field


def test_a_pairing_request_is_read():
    raw = json.dumps({"code": "A", "name": " Loft ", "holding": None, "later": 1}).encode()
    assert read_pair_request(raw) == PairRequest("A", "Loft", None)


def test_a_phone_may_be_named_by_a_picture_that_is_joined_of_several():
    raw = json.dumps({"code": "A", "name": "Ana 👩‍🌾"}).encode()
    assert read_pair_request(raw).name == "Ana 👩‍🌾"
