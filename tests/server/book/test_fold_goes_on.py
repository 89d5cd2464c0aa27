"""A fold that goes on from where it is gives what a fold from nothing gives, whatever comes when.

The fold from nothing is held to other implementations elsewhere: the phone's (test_mirror) and eggs counted one by one.
"""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import Fold, fold
from broodline.book.standing import standing_json
from broodline.book.wire import canonical_bytes, read_entry
from tests.book_writer import BookWriter, entry_id
from tests.server.book.odd_books import odd_book
from tests.server.book.test_fold_properties import books


def compare_step_by_step(entries, chance):
    """Entries in any order, some twice, in batches of any size; every standing on the way is one from nothing."""
    coming = entries + chance.choices(entries, k=len(entries) // 4) if entries else []
    chance.shuffle(coming)
    growing, given, kept = Fold(), [], []
    while True:
        batch = [coming.pop() for _ in range(min(len(coming), chance.choice([1, 1, 2, 5, 20])))]
        growing.take(batch)
        given += batch
        if chance.random() < 0.5 or not coming:  # not asked after every batch: changes add up in between
            standing = growing.standing()
            afresh = fold(given)
            assert standing == afresh
            assert [*standing.lots, *standing.settings, *standing.heads, *standing.families] == [
                *afresh.lots, *afresh.settings, *afresh.heads, *afresh.families
            ]  # fmt: skip
            kept.append((standing, text_of(standing)))
        if not coming:
            break
    assert len(growing) == len({entry.id for entry in entries})
    for standing, text in kept:
        assert text_of(standing) == text, "a standing that was given out changed later"


def text_of(standing):
    return canonical_bytes({**standing_json(standing), "root_of": dict(standing.root_of)})


@settings(max_examples=60)
@given(books(), st.integers(0, 2**32))
def test_any_book_in_any_batches(entries, seed):
    compare_step_by_step(entries, Random(seed))


@pytest.mark.parametrize("tenth", range(10))
def test_odd_books_in_any_batches(tenth):
    for seed in range(tenth, 150, 10):
        compare_step_by_step([read_entry(entry) for entry in odd_book(seed)], Random(seed))


@pytest.fixture
def book():
    writer = BookWriter()
    writer.keeper()
    return writer


def last_alone(book):
    """All but the last entry folded, then the last taken in: what a fold of all gives."""
    entries = book.entries()
    growing = Fold()
    growing.take(entries[:-1])
    before = growing.standing()
    growing.take(entries[-1:])
    after = growing.standing()
    assert after == fold(entries)
    return before, after


def words_of(standing):
    return [problem.message for problem in standing.problems]


def test_a_family_with_a_new_name_is_named_so_in_older_problems(book):
    lot, family = book.lot(), book.family("Rowan")
    book.set_eggs(book.incubator(), [(lot, family, 5)])
    book.move(lot, "set", "hatched", 9)
    book.write("family", {"name": "Hazel", "species": "chicken", "breed": "Marsh Speckle"}, amends=family)
    before, after = last_alone(book)
    assert any("Rowan" in words for words in words_of(before))
    assert not any("Rowan" in words for words in words_of(after))
    assert any("Hazel" in words for words in words_of(after))


def test_a_lot_that_goes_to_another_setting_takes_moves_among_it_and_others_along(book):
    one, other, family, place = book.lot(), book.lot(), book.family("Rowan"), book.incubator()
    setting = book.set_eggs(place, [(one, family, 5), (other, family, 5)])
    book.write("moved", {"moves": [{"among": [one, other], "from": "set", "to": "clear", "n": 2}]})
    body = {"place": place, "species": "chicken", "set_at": "2026-03-01T08:00:00Z"}
    book.write("set", {**body, "lots": [{"lot": one, "family": family, "n": 5}]}, amends=setting)
    before, after = last_alone(book)
    assert before.lots[other].open == {"clear": 2}
    assert after.lots[other].open == {}
    assert after.lots[other].setting is None


def test_a_setting_at_another_time_gives_its_looks_other_days(book):
    lot, family, place = book.lot(), book.family("Rowan"), book.incubator()
    setting = book.set_eggs(place, [(lot, family, 5)])
    book.write("looked", {"setting": setting, "lot": lot, "what": "candled", "live": 4})
    body = {"place": place, "species": "chicken", "set_at": "2026-02-20T08:00:00Z"}
    book.write("set", {**body, "lots": [{"lot": lot, "family": family, "n": 5}]}, amends=setting)
    before, after = last_alone(book)
    assert list(before.lots[lot].seen("candled")) == [0]
    assert list(after.lots[lot].seen("candled")) == [9]


def test_a_name_gets_its_meaning_once_the_corrected_entry_comes(book):
    """A setting names a correction of the family; that stands for itself until the family's own entry is there."""
    lot, place = book.lot(), book.incubator()
    family = entry_id(len(book.documents) + 3)
    corrected = book.write("family", {"name": "Hazel", "species": "chicken", "breed": "Marsh Speckle"}, amends=family)
    book.set_eggs(place, [(lot, corrected, 5)])
    assert book.family("Rowan") == family
    before, after = last_alone(book)
    assert before.lots[lot].family == corrected
    assert after.lots[lot].family == family


def test_corrections_made_apart_are_told_once_when_their_target_comes_last(book):
    """The later tree had a loser of its own before it became a branch."""
    name = {"name": "Rowan", "species": "chicken", "breed": "Marsh Speckle"}
    target = book.family("Rowan")
    between = book.write("family", {**name, "name": "Rowan old line"}, amends=target)
    first = book.write("family", {**name, "name": "Rowan of the hill"}, amends=between)
    book.write("family", {**name, "name": "Rowan of the marsh"}, amends=between)
    keeper, root, *rest = book.entries()
    growing = Fold()
    growing.take([keeper, *rest])
    assert [(one.code, one.entry) for one in growing.standing().problems] == [("two_corrections", first)]
    growing.take([root])
    assert growing.standing() == fold(book.entries())
    assert [(one.code, one.entry) for one in growing.standing().problems] == [("two_corrections", first)]
    later = book.write("family", {**name, "name": "Rowan of the fen"}, amends=first)
    growing.take(book.entries()[-1:])
    assert [(one.code, one.entry) for one in growing.standing().problems] == [("two_corrections", later)]
