"""Canonical bytes against tests/vectors/canonical.json, and the rules of the envelope."""

import json
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from broodline.book.canonical import canonical_entries
from broodline.book.wire import (
    LARGEST_ENTRY_BYTES,
    canonical_bytes,
    content_hash,
    load_json,
    parse_json,
    read_entry,
    stored_entry,
)
from broodline.errors import EnvelopeError
from tests.book_writer import BookWriter

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "canonical.json").read_text())
MADE = {
    "lone high surrogate": "\ud800",
    "lone low surrogate key": {"\udc00": 1},
    "NaN": float("nan"),
    "Infinity": float("inf"),
    "undefined": object(),
}


def named(cases):
    return [pytest.param(case, id=case["name"]) for case in cases]


@pytest.mark.parametrize("case", named(VECTORS["cases"]))
def test_canonical_form(case):
    value = MADE[case["made"]] if "made" in case else case["in"]
    if case.get("refused"):
        with pytest.raises(EnvelopeError):
            canonical_bytes(value)
    else:
        assert canonical_bytes(value).decode() == case["out"]
        assert content_hash(canonical_bytes(value)) == case["sha256"]


def test_a_key_that_is_no_text_has_no_canonical_form():
    """JSON cannot hold one; a program's own value can."""
    with pytest.raises(EnvelopeError, match="key"):
        canonical_bytes({1: "one"})


@pytest.mark.parametrize("case", named(VECTORS["texts"]))
def test_hostile_text_is_refused(case):
    with pytest.raises(EnvelopeError):
        parse_json(case["text"].encode())


def test_bytes_that_are_no_text_or_far_too_deep_are_refused():
    for raw in (b'"\xff"', b"\xef\xbb\xbf{}", b"[" * 100_000 + b"]" * 100_000):
        with pytest.raises(EnvelopeError):
            parse_json(raw)


numbers = st.one_of(
    st.integers(-(2**53) + 1, 2**53 - 1),
    st.floats(0.0001, 1e15, exclude_max=True),
    st.floats(-1e15, -0.0001, exclude_min=True),
)
values = st.recursive(
    st.none() | st.booleans() | numbers | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


@given(values)
def test_canonical_form_reads_back_to_itself(value):
    once = canonical_bytes(value)
    assert canonical_bytes(parse_json(once)) == once


def document(**changed):
    writer = BookWriter()
    writer.write("note", {"text": "first pip"})
    return {**writer.documents[0], **changed}


def test_an_entry_keeps_every_byte_it_came_with():
    entry = read_entry(document(future={"b": 1.0, "a": [True]}))
    assert b'"future":{"a":[true],"b":1}' in entry.canonical
    assert stored_entry(entry.canonical) == entry
    assert entry.sha256 == content_hash(entry.canonical)


@settings(max_examples=300)
@given(values)
def test_a_stored_entry_is_read_back_as_json_reads_it_and_taken_the_quick_way_when_it_is_sent_again(value):
    """Python's json is the other opinion on what pydantic's reader and writer make of canonical bytes."""
    raw = canonical_bytes(document(body={"part": value}))
    entry = stored_entry(raw)
    assert repr(entry.body) == repr(json.loads(raw)["body"])  # also whether 1 is a number, true, or 1.0
    assert read_quickly(raw) == entry


@pytest.mark.parametrize("field", ["id", "v", "kind", "device", "at", "zone", "skew_ms", "amends", "void", "body"])
def test_a_missing_field_is_named(field):
    entry = document()
    del entry[field]
    with pytest.raises(EnvelopeError) as fault:
        read_entry(entry)
    assert fault.value.field == field
    assert fault.value.remedy


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("id", "0195"),
        ("id", "01950000-0000-7000-8000-00000000000A"),
        ("id", "01950000-0000-4000-8000-000000000001"),
        ("id", 7),
        ("v", 0),
        ("v", "1"),
        ("v", True),
        ("v", 1.5),
        ("kind", ""),
        ("kind", 3),
        ("device", ""),
        ("device", "d" * 101),
        ("zone", None),
        ("at", "2026-03-08 19:40:12Z"),
        ("at", "2026-02-30T10:00:00Z"),
        ("at", "2026-03-08T19:40:12+01:00"),
        ("at", "0000-03-08T19:40:12Z"),
        ("at", "٢٠٢٦-03-08T19:40:12Z"),
        ("skew_ms", "0"),
        ("skew_ms", False),
        ("skew_ms", 0.5),
        ("amends", "none"),
        ("amends", ""),
        ("void", 0),
        ("void", None),
        ("body", []),
        ("body", None),
    ],
)
def test_a_field_of_the_wrong_shape_is_named(field, value):
    with pytest.raises(EnvelopeError) as fault:
        read_entry(document(**{field: value}))
    assert fault.value.field == field


def test_an_entry_that_is_no_object_is_refused():
    no_objects: tuple[object, ...] = (None, [], "entry", 3)
    for value in no_objects:
        with pytest.raises(EnvelopeError):
            read_entry(value)


def test_an_entry_may_take_8192_bytes_and_not_one_more():
    room = LARGEST_ENTRY_BYTES - len(read_entry(document(body={"text": ""})).canonical)
    assert len(read_entry(document(body={"text": "x" * room})).canonical) == LARGEST_ENTRY_BYTES
    with pytest.raises(EnvelopeError, match="8193 bytes"):
        read_entry(document(body={"text": "x" * (room + 1)}))


def test_whole_floats_are_whole_numbers():
    entry = read_entry(document(v=1.0, skew_ms=-120.0))
    assert (entry.v, entry.skew_ms) == (1, -120)
    assert isinstance(entry.v, int)


# Texts rather than values: 1.0, -0, 1e2 and escapes are ways of writing what Python would write otherwise.
odd_texts = st.sampled_from(
    [
        "1.0",
        "-0",
        "-0.0",
        "1e2",
        "1E-2",
        "0.00001",
        "1e400",
        "9007199254740991",
        "9007199254740993",
        "123456789012345",
        "12345678901234567890",
        "NaN",
        '"\\ud800"',
        '"\\uD83D\\uDC23"',
        '"\\u0041"',
        '"ü 🐣"',
        "null",
        "true",
        '{"a":1,"a":2}',
    ]
)
texts = st.recursive(
    odd_texts,
    lambda parts: (
        st.lists(parts, max_size=3).map(lambda held: "[" + ",".join(held) + "]")
        | st.lists(parts, max_size=3).map(lambda held: "{" + ",".join(f'"{n}":{p}' for n, p in enumerate(held)) + "}")
    ),
)


def read_quickly(raw):
    try:
        entries = canonical_entries(b"<" + raw + b">", b"<", b">")
    except EnvelopeError:
        return None
    return None if entries is None else entries[0]


def read_slowly(raw):
    try:
        return read_entry(load_json(raw))
    except EnvelopeError:
        return None


@settings(max_examples=400)
@given(texts, st.integers(0, 40), st.booleans())
@example('{"b":1,"a":2}', 0, True)
@example('{"b":[{"d":1,"c":2}]}', 0, True)
def test_the_quick_way_takes_canonical_entries_and_no_others(text, depth, tight):
    """What it takes is what the other way takes, byte for byte: entries that already are in canonical form."""
    raw = (
        json.dumps({**document(), "body": {"part": "HERE"}}, sort_keys=True, separators=(",", ":") if tight else None)
        .replace('"HERE"', "[" * depth + text + "]" * depth)
        .encode()
    )
    quick, slow = read_quickly(raw), read_slowly(raw)
    assert quick == (slow if slow is not None and slow.canonical == raw else None)


@pytest.mark.parametrize("field", [*document(), "newer"])
@pytest.mark.parametrize("odd", [None, 0, 1.0, 2**53, 1.5, "x", "", True, [], {"b": 1, "a": {}}, "\x7f", "/\n"])
def test_the_quick_way_reads_or_leaves_each_field_alike(field, odd):
    raw = json.dumps({**document(), field: odd}, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    quick, slow = read_quickly(raw), read_slowly(raw)
    if field == "newer":
        assert quick is None  # fields of a newer app go the longer way
    else:
        assert quick == (slow if slow is not None and slow.canonical == raw else None)


def test_what_phones_send_is_read_the_quick_way():
    raw = read_entry(document()).canonical
    assert read_quickly(raw) == read_entry(document())
    assert read_quickly("é🐣".join(raw.decode().split("Europe")).encode()) is not None


def test_entries_stand_one_after_another_or_not_at_all():
    one, other = read_entry(document()), read_entry(document(void=True))
    texts = one.canonical, other.canonical
    assert canonical_entries(b"[" + b",".join(texts) + b"]", b"[", b"]") == [one, other]
    for text in (b"[" + b", ".join(texts) + b"]", b"[" + b"".join(texts) + b"]", b"[3]", b'["text"]', b"[,]", b"(])"):
        assert canonical_entries(text, b"[", b"]") is None
    assert canonical_entries(b"[]", b"[", b"]") == []
