"""The egg store: by hand over the shared vectors, and against an oracle that takes egg by egg from a shelf."""

import json
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.egg_store import egg_store
from tests.book_writer import BookWriter
from tests.server.oracles.store_egg_by_egg import shelf

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "egg_store.json").read_text(encoding="utf-8"))["cases"]
NOW = datetime.fromisoformat("2026-03-20T12:00:00+00:00")
DAYS = [(date(2026, 3, 1) + timedelta(days=day)).isoformat() for day in range(8)]
HENS = ["hen-1", "hen-2"]

day = st.sampled_from(DAYS)
few = st.integers(1, 6)
gathered = st.tuples(day, st.integers(0, 5), st.sampled_from([None, None, *HENS]))
sold = st.tuples(day, few)
batch = st.tuples(day, few, st.none() | day, st.none() | day, st.lists(st.sampled_from(HENS), max_size=2))


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_by_hand(case):
    entries = [read_entry(entry) for entry in case["in"]["entries"]]
    assert egg_store(fold(entries), datetime.fromisoformat(case["in"]["now"])) == case["out"]


@settings(max_examples=150, deadline=None)
@given(st.lists(gathered, max_size=6), st.lists(sold, max_size=4), st.lists(batch, max_size=4), st.randoms())
def test_egg_by_egg(laid, left, batches, chance):
    book = BookWriter()
    book.keeper()
    family, box = book.family("Rowan"), book.incubator()
    kept, outs, sets = [], [], []
    for on, n, hen in laid:
        more = {"dam": hen} if hen else {}
        entry = book.write("gathered", {"family": family, "on": on, "n": n + 1, "kept": n, **more})
        kept.append((on, entry, n, hen))
    for on, n in left:
        outs.append((on, book.write("eggs_out", {"family": family, "on": on, "n": n, "how": "sold"}), n))
    for on, n, first, last, dams in batches:
        lot = {"lot": book.lot(), "family": family, "n": n}
        lot |= {name: value for name, value in {"laid_from": first, "laid_to": last}.items() if value}
        lot |= {"dams": [{"bird": hen} for hen in dams]} if dams else {}
        body = {"place": box, "species": "chicken", "set_at": f"{on}T09:00:00Z", "lots": [lot]}
        sets.append({"day": on, "entry": book.write("set", body), "n": n, "first": first, "last": last, "dams": dams})
    entries = book.entries()
    chance.shuffle(entries)
    store = egg_store(fold(entries), NOW)
    there, ways = shelf(kept, outs, sets)
    if not laid and not left:
        assert store["families"] == []
        return
    (found,) = store["families"]
    by_day: dict[str, int] = {}
    for parcel in found["parcels"]:
        by_day[parcel["on"]] = by_day.get(parcel["on"], 0) + parcel["n"]
    assert by_day == there
    assert {way: found[way] for way in ways} == ways
    assert found["n"] == found["kept"] - found["out"] - found["set"]
