"""The fold, with counts worked out by hand, and the vectors it shares with the phone."""

import json
from datetime import timedelta
from pathlib import Path

import pytest

from broodline.book.fold import fold
from broodline.book.standing import standing_json
from broodline.book.wire import canonical_bytes, read_entry
from tests.book_writer import START, BookWriter, entry_id, lot_id

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "fold.json").read_text())["cases"]


@pytest.mark.parametrize("case", [pytest.param(case, id=case["name"]) for case in VECTORS])
def test_vector(case):
    standing = standing_json(fold(map(read_entry, case["in"])))
    assert canonical_bytes(standing) == canonical_bytes(case["out"])


@pytest.fixture
def book():
    """Rowan and Hazel, ten eggs each, in one setting."""
    writer = BookWriter()
    writer.keeper()
    families = [writer.family("Rowan"), writer.family("Hazel")]
    place = writer.incubator()
    lots = [writer.lot(), writer.lot()]
    setting = writer.set_eggs(place, [(lots[0], families[0], 10), (lots[1], families[1], 10)])
    return writer, lots, setting


def stages(writer, lot):
    return fold(writer.entries()).lots[lot].stages


def codes(writer):
    return [found.code for found in fold(writer.entries()).problems]


def test_eggs_move_and_none_is_lost(book):
    writer, (rowan, hazel), setting = book
    writer.move(rowan, "set", "clear", 2)
    writer.move(rowan, "set", "locked", 7)
    writer.move(rowan, "locked", "hatched", 6)
    writer.move(rowan, "hatched", "brooding", 5)
    writer.move(rowan, "hatched", "died", 1, cause="weak")
    assert stages(writer, rowan) == {"set": 1, "clear": 2, "locked": 1, "brooding": 5, "died": 1}
    assert stages(writer, hazel) == {"set": 10}
    assert fold(writer.entries()).settings[setting].stages == {
        "set": 11,
        "clear": 2,
        "locked": 1,
        "brooding": 5,
        "died": 1,
    }
    assert codes(writer) == []


def test_a_correction_replaces_in_full_and_the_last_head_counts(book):
    writer, (rowan, _), _ = book
    first = writer.move(rowan, "set", "clear", 5)
    second = writer.write("moved", {"moves": [{"lot": rowan, "from": "set", "to": "blood_ring", "n": 1}]}, amends=first)
    assert stages(writer, rowan) == {"set": 9, "blood_ring": 1}
    writer.take_back(second)
    assert stages(writer, rowan) == {"set": 10}


def test_a_correction_that_arrives_before_its_target_counts_alone_and_later_replaces_it(book):
    writer, (rowan, _), _ = book
    first = writer.move(rowan, "set", "clear", 5)
    writer.write("moved", {"moves": [{"lot": rowan, "from": "set", "to": "clear", "n": 1}]}, amends=first)
    entries = writer.entries()
    without = [entry for entry in entries if entry.id != first]
    assert fold(without).lots[rowan].stages == {"set": 9, "clear": 1}
    assert fold(entries).lots[rowan].stages == {"set": 9, "clear": 1}


def test_odd_moves_are_kept_and_reported_never_refused(book):
    writer, (rowan, hazel), _ = book
    writer.move(rowan, "set", "clear", 50)
    writer.move(hazel, "clear", "brooding", 2)
    assert stages(writer, rowan) == {"set": -40, "clear": 50}
    assert codes(writer) == ["below_zero", "below_zero", "move_not_allowed"]
    found = fold(writer.entries()).problems[0]
    assert found.message == "Rowan: 40 more went out of 'in the setter' than were there."
    assert found.entry == writer.documents[-2]["id"]
    assert found.remedy


def test_a_move_of_unknown_family_counts_in_the_total_and_stands_open_beside_each(book):
    writer, (rowan, hazel), setting = book
    writer.write("moved", {"moves": [{"among": [rowan, hazel], "from": "set", "to": "hatched", "n": 3}]})
    standing = fold(writer.entries())
    assert standing.settings[setting].stages == {"set": 17, "hatched": 3}
    for lot in (rowan, hazel):
        assert standing.lots[lot].stages == {"set": 10}
        assert standing.lots[lot].open == {"hatched": 3}
    whole = {"moves": [{"lot": rowan, "from": "set", "to": "hatched", "n": 3}]}
    writer.write("moved", whole, amends=writer.documents[-1]["id"])
    standing = fold(writer.entries())
    assert standing.lots[rowan].stages == {"set": 7, "hatched": 3}
    assert standing.lots[hazel].open == {}


def test_missing_chicks_are_those_lost_from_sight_and_not_found(book):
    writer, (rowan, _), _ = book
    writer.move(rowan, "set", "unaccounted", 1)
    writer.move(rowan, "set", "hatched", 9)
    writer.move(rowan, "hatched", "unaccounted", 4)
    assert fold(writer.entries()).lots[rowan].missing == 4
    writer.move(rowan, "unaccounted", "brooding", 1)
    lot = fold(writer.entries()).lots[rowan]
    assert (lot.missing, lot.stages["unaccounted"]) == (3, 4)
    writer.move(rowan, "unaccounted", "set", 3)
    assert fold(writer.entries()).lots[rowan].missing == 1


def test_a_house_move_changes_no_count(book):
    writer, (rowan, _), _ = book
    brooder = writer.write("place", {"name": "Brooder one", "role": "brooder"})
    writer.move(rowan, "set", "hatched", 4)
    writer.move(rowan, "hatched", "hatched", 4, place=brooder)
    assert stages(writer, rowan) == {"set": 6, "hatched": 4}
    assert codes(writer) == []


def test_looks_of_one_lot_and_day_add_up_and_a_day_is_found_where_none_was_written(book):
    writer, (rowan, _), setting = book
    for _ in range(8):
        writer.look(setting, rowan, day=7, live=1)
    writer.look(setting, rowan, live=2, unsure=1, at=START + timedelta(days=7, minutes=5))
    writer.look(setting, rowan, live=7, at=START + timedelta(days=14, minutes=-1))
    assert fold(writer.entries()).lots[rowan].seen("candled") == {7: (10, 1, 0), 13: (7, 0, 0)}


def test_the_earliest_lockdown_stands(book):
    writer, _, setting = book
    writer.write("locked", {"setting": setting}, at=START + timedelta(days=19))
    earliest = START + timedelta(days=18)
    writer.write("locked", {"setting": setting}, at=earliest)
    assert fold(writer.entries()).settings[setting].locked_at_ms == int(earliest.timestamp() * 1000)


def test_a_skew_over_two_minutes_sets_the_time_right(book):
    writer, _, setting = book
    writer.write("locked", {"setting": setting}, at=START, skew_ms=120_000)
    assert fold(writer.entries()).settings[setting].locked_at_ms == int(START.timestamp() * 1000)
    writer.write("locked", {"setting": setting}, at=START, skew_ms=-120_001)
    assert fold(writer.entries()).settings[setting].locked_at_ms == int(START.timestamp() * 1000) - 120_001


def test_counts_that_differ_are_problems_until_settled_or_agreed(book):
    writer, (rowan, hazel), _ = book
    wrong = writer.write("counted", {"lot": rowan, "stage": "set", "n": 9, "ledger": 10})
    assert codes(writer) == ["count_differs"]
    writer.move(rowan, "set", "cracked", 1, settles=wrong)
    assert codes(writer) == []
    writer.write("counted", {"lot": hazel, "stage": "set", "n": 11, "ledger": 10})
    assert codes(writer) == ["count_differs"]
    writer.write("counted", {"lot": hazel, "stage": "set", "n": 10, "ledger": 10})
    assert codes(writer) == []


def test_without_a_keeper_the_plain_defaults_stand():
    keeper = fold([]).keeper
    assert (keeper.zone, keeper.temperature, keeper.mass, keeper.season_starts) == ("UTC", "C", "g", 1)


def test_of_several_keepers_the_greatest_head_stands(book):
    writer, _, _ = book
    writer.keeper("Pacific/Auckland", season_starts=7)
    standing = fold(writer.entries())
    assert standing.keeper.zone == "Pacific/Auckland"
    assert [found.code for found in standing.problems] == ["several_keepers"]


def test_one_bird_under_several_ids_goes_by_the_smallest():
    writer = BookWriter()
    birds = [writer.write("bird", {"sex": "female"}) for _ in range(4)]
    writer.write("same", {"bird": birds[3], "as": birds[2]})
    writer.write("same", {"bird": birds[1], "as": birds[2]})
    assert fold(writer.entries()).same_bird == {birds[1]: birds[1], birds[2]: birds[1], birds[3]: birds[1]}


def test_chicks_that_came_are_a_lot_without_a_setting(book):
    writer, _, _ = book
    body = {"lot": lot_id(9), "n": 12, "on": "2026-05-01", "how": "bought", "stage": "growing"}
    writer.write("came", body)
    lot = fold(writer.entries()).lots[lot_id(9)]
    assert (lot.setting, lot.came, lot.stages) == (None, True, {"growing": 12})
    assert codes(writer) == []


def test_a_name_that_is_not_in_the_book_is_a_problem_and_blocks_nothing(book):
    writer, (rowan, _), _ = book
    writer.write("gathered", {"family": entry_id(500), "on": "2026-03-01", "n": 4, "kept": 4})
    writer.move(rowan, "set", "clear", 1)
    assert codes(writer) == ["unknown_family"]
    assert stages(writer, rowan) == {"set": 9, "clear": 1}
