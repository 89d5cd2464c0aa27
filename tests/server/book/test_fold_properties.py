"""What holds for every set of entries (the invariants of an append-only book), searched by Hypothesis."""

import json
import random
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.book.kinds import KINDS
from broodline.book.stages import STAGES
from broodline.book.standing import standing_json
from broodline.book.wire import canonical_bytes, read_entry
from tests.book_writer import BookWriter, entry_id, lot_id
from tests.server.oracles.every_egg_an_object import count_eggs_one_by_one

odd = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 60) | st.floats(0.0001, 50) | st.text(max_size=4),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=6,
)
lots = st.integers(1, 4).map(lot_id)
stage = st.sampled_from(STAGES) | st.just("fledged")
move = st.fixed_dictionaries(
    {"from": stage, "to": stage, "n": st.integers(1, 12)},
    optional={"lot": lots, "among": st.lists(lots, min_size=1, max_size=3)},
)
body = st.one_of(
    st.fixed_dictionaries({"moves": st.lists(move, max_size=3)}).map(lambda found: ("moved", found)),
    st.fixed_dictionaries(
        {"setting": st.integers(1, 9).map(entry_id), "lot": lots, "what": st.sampled_from(["candled", "hatch"])},
        optional={"live": st.integers(0, 9), "day": st.integers(0, 30)},
    ).map(lambda found: ("looked", found)),
    st.fixed_dictionaries(
        {
            "place": st.integers(1, 9).map(entry_id),
            "species": st.just("chicken"),
            "set_at": st.just("2026-03-01T08:00:00Z"),
            "lots": st.lists(
                st.fixed_dictionaries({"lot": lots, "family": st.just(entry_id(1)), "n": st.integers(1, 9)}),
                max_size=3,
            ),
        }
    ).map(lambda found: ("set", found)),
    st.tuples(st.sampled_from([*KINDS, "moon_phase"]), st.dictionaries(st.text(max_size=6), odd, max_size=4)),
)


@st.composite
def books(draw):
    writer = BookWriter()
    for kind, found in draw(st.lists(body, max_size=14)):
        amends = draw(st.none() | st.integers(1, 16).map(entry_id))
        void = amends is not None and draw(st.booleans())
        writer.write(kind, found, amends=amends, void=void, v=draw(st.sampled_from([1, 1, 1, 2])))
    return writer.entries()


@settings(max_examples=300)
@given(books(), st.integers(0, 2**32))
def test_order_and_doubles_change_nothing_and_nothing_raises(entries, seed):
    once = canonical_bytes(standing_json(fold(entries)))
    chance = random.Random(seed)
    again = entries + chance.choices(entries, k=len(entries))
    chance.shuffle(again)
    assert canonical_bytes(standing_json(fold(again))) == once


@settings(max_examples=300)
@given(books())
def test_moves_conserve_what_was_set(entries):
    standing = fold(entries)
    for lot in standing.lots.values():
        assert sum(lot.stages.values()) == lot.n
    for setting in standing.settings.values():
        assert sum(setting.stages.values()) == sum(standing.lots[lot].n for lot in setting.lots)


@settings(max_examples=300)
@given(books(), st.integers(0, 2**32))
def test_clocks_decide_no_count(entries, seed):
    """Every clock shows another year, in an order that has nothing to do with that of the ids."""
    years = random.Random(seed).sample(range(1900, 2100), len(entries))
    later = []
    for year, entry in zip(years, entries, strict=True):
        document = {**parse(entry), "at": f"{year}-01-01T00:00:00Z", "skew_ms": (year - 2000) * 10**9}
        later.append(read_entry(document))
    before, after = fold(entries), fold(later)
    assert before.root_of == after.root_of
    assert {kind: [head.id for head in heads] for kind, heads in before.heads.items()} == {
        kind: [head.id for head in heads] for kind, heads in after.heads.items()
    }
    assert {name: lot.stages for name, lot in before.lots.items()} == {
        name: lot.stages for name, lot in after.lots.items()
    }


@settings(max_examples=300)
@given(books())
def test_each_tree_gives_at_most_one_head(entries):
    standing = fold(entries)
    heads = Counter(standing.root_of[head.id] for kind in standing.heads.values() for head in kind)
    assert all(times == 1 for times in heads.values())


@settings(max_examples=300)
@given(books())
def test_counting_every_egg_as_an_object_gives_the_same_stages(entries):
    counted = count_eggs_one_by_one([parse(entry) for entry in entries])
    folded = {name: dict(lot.stages) for name, lot in fold(entries).lots.items()}
    assert folded == counted


def parse(entry):
    return json.loads(entry.canonical)
