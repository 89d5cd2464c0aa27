"""The holding of a folder: made once, at random, and taken over only by an empty book."""

import pytest

from broodline.errors import ResetNeeded
from broodline.store.holdings import DEMO_PREFIX
from broodline.store.shelf import open_shelf
from tests.server.store.log_suite import note

REMEMBERED = "0123456789abcdef0123456789abcdef"


def test_the_holding_is_made_with_the_folder_and_stays(tmp_path, clock, chance):
    with open_shelf(tmp_path, now_ms=clock.ms, random_bytes=chance) as first:
        made = first.holdings.current()
    with open_shelf(tmp_path, now_ms=clock.ms, random_bytes=chance, demo=True) as again:
        assert again.holdings.current() == made
    assert not made.demo
    with open_shelf(tmp_path / "other", now_ms=clock.ms, random_bytes=chance) as other:
        assert other.holdings.current().id != made.id


def test_an_empty_book_takes_over_the_holding_a_phone_remembers(shelf):
    shelf.devices.add(shelf.holdings.current().id, "d1", "phone", "keeper", "token")
    assert shelf.holdings.take_over(REMEMBERED).id == REMEMBERED
    assert shelf.holdings.current().id == REMEMBERED
    device = shelf.devices.by_token("token")
    assert device is not None
    assert device.holding == REMEMBERED, "devices come along"
    assert shelf.log.append(REMEMBERED, [note(1)], "d1")[0].status == "stored"


def test_a_take_over_begins_a_new_history_and_pairing_again_with_it_does_not(shelf):
    """A phone that was paired before holds another book's cursor: it has to hear so before it sends what it holds."""
    before = shelf.log.head(shelf.holdings.current().id).cursor
    shelf.holdings.take_over(REMEMBERED)
    with pytest.raises(ResetNeeded):
        shelf.log.read(REMEMBERED, before, 500)
    after = shelf.log.head(REMEMBERED).cursor
    shelf.holdings.take_over(REMEMBERED)
    assert shelf.log.read(REMEMBERED, after, 500).rows == []


def test_a_book_with_entries_stays_what_it_is(shelf):
    own = shelf.holdings.current().id
    shelf.log.append(own, [note(1)], "phone")
    assert shelf.holdings.take_over(REMEMBERED).id == own


@pytest.mark.parametrize("offered", ["", "-x", "a b", "é" * 20, "a" * 101, "../../../etc", "a/b", "x\n"])
def test_what_cannot_be_a_holding_is_not_taken_over(shelf, offered):
    own = shelf.holdings.current().id
    assert shelf.holdings.take_over(offered).id == own


def test_a_demo_neither_becomes_a_real_book_nor_the_other_way_round(tmp_path, shelf, clock, chance):
    with open_shelf(tmp_path / "demo", now_ms=clock.ms, random_bytes=chance, demo=True) as demo:
        own = demo.holdings.current()
        assert own.demo
        assert own.id.startswith(DEMO_PREFIX)
        assert demo.holdings.take_over(REMEMBERED) == own
    real = shelf.holdings.current()
    assert shelf.holdings.take_over(own.id) == real
