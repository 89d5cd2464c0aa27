"""The phone's book is the server's: the same entries, bodies, times and values give the same answer, text for text.

The two are written in two languages by the same rules; whatever is found here, one of them has wrong.
"""

import json
from random import Random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from broodline.book.fold import fold
from broodline.book.heads import read_body
from broodline.book.kinds import KINDS
from broodline.book.moments import moment_ms
from broodline.book.standing import standing_json
from broodline.book.wire import canonical_bytes, read_entry
from broodline.errors import EnvelopeError
from tests.server.book.odd_books import JUNK, MOMENTS, TRAPS, OddBook, odd_book
from tests.server.book.phone import phone_book

SMALL_NOTE = {
    "id": "01950000-0000-7000-8000-000000000001", "v": 1, "kind": "note", "device": "phone-1",
    "at": "2026-03-01T08:00:00Z", "zone": "UTC", "skew_ms": None, "amends": None, "void": False,
    "body": {"text": "Dry night"},
}  # fmt: skip
REFUSED = '"refused"'
BOOKS = 300


@pytest.fixture(scope="module")
def phone(tmp_path_factory):
    with phone_book(tmp_path_factory.mktemp("phone")) as book:
        yield book


def text_of(value):
    return canonical_bytes(value).decode()


def server_folds(entries):
    return text_of(standing_json(fold(map(read_entry, entries))))


def smallest(entries, differs):
    """The entries without all that the difference does not need, so that the failure can be read."""
    for entry in list(entries):
        without = [other for other in entries if other is not entry]
        if differs(without):
            entries = without
    return entries


def test_any_entries_add_up_to_the_same_standing(phone):
    def differs(entries):
        return phone.answer("fold", entries=entries) != server_folds(entries)

    for seed in range(BOOKS):
        book = odd_book(seed)
        if differs(book):
            book = smallest(book, differs)
            assert phone.answer("fold", entries=book) == server_folds(book), f"seed {seed}: {json.dumps(book)}"


def test_any_body_fits_or_fails_at_the_same_field(phone):
    writer = OddBook(Random(1), odd=0.03)
    fitting = 0
    for _ in range(60):
        for kind in KINDS:
            body = json.loads(canonical_bytes(writer.body(kind)))
            expected: dict[str, object]
            try:
                read, more = read_body(kind, body)
                shown = read.model_dump(by_alias=True, exclude_none=True)
                expected = {"body": shown, "more": more}
                fitting += 1
            except ValidationError as fault:
                expected = {"misfit": min(str(error["loc"][0]) if error["loc"] else "" for error in fault.errors())}
            assert phone.answer("body", kind=kind, body=body) == text_of(expected), (kind, body)
    assert 0.2 < fitting / (60 * len(KINDS)) < 0.9, "both sorts must be tried"


def objects_in(value):
    """A body and all its parts; dictionaries whose keys are anyone's are none."""
    if isinstance(value, dict) and not value.keys() <= set(TRAPS):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from objects_in(inner)


def test_fields_of_a_newer_app_are_seen_at_any_depth(phone):
    """Bodies that fit, of every kind; then one more field in each, or in one of its parts."""
    writer = OddBook(Random(2), odd=0.0)
    seen = set()
    for kind in [*KINDS] * 12:
        body = json.loads(canonical_bytes(writer.body(kind)))
        for part in objects_in(body):
            if phone.answer("body", kind=kind, body=body).startswith('{"misfit"'):
                continue
            for more in (False, True):
                if more:
                    part["newer"] = None
                assert read_body(kind, body)[1] is more, (kind, body)
                assert json.loads(phone.answer("body", kind=kind, body=body))["more"] is more, (kind, body)
            del part["newer"]
            seen.add((kind, part is body))
    assert {kind for kind, whole in seen if whole} == set(KINDS)
    assert {kind for kind, whole in seen if not whole} >= {"set", "moved", "penned", "bird", "weighed"}


@pytest.mark.parametrize(
    "odd", [*JUNK, "x" * 100, "x" * 101, "\U0001f600" * 100, "\ud800", 2**53, 1e-5, *MOMENTS, "gone"]
)
@pytest.mark.parametrize("field", sorted(SMALL_NOTE))
def test_any_envelope_is_read_or_refused_alike(phone, field, odd):
    entry = {**SMALL_NOTE, field: odd}
    if odd == "gone":
        del entry[field]
    try:
        expected = read_entry(entry).canonical.decode()
    except EnvelopeError:
        expected = REFUSED
    assert phone.answer("envelope", value=entry) == expected


@pytest.mark.parametrize("filling", ["x", "é", "€", "\U0001f600", "\x01"])
def test_an_entry_may_take_8192_bytes_and_no_more(phone, filling):
    entry = {**SMALL_NOTE, "body": {"text": ""}}
    room = 8192 - len(canonical_bytes(entry))
    each = len(canonical_bytes(filling)) - 2
    text = filling * (room // each) + "x" * (room % each)
    entry["body"] = {"text": text}
    assert len(read_entry(entry).canonical) == 8192
    assert phone.answer("envelope", value=entry) == text_of(entry)
    entry["body"] = {"text": text + "x"}
    assert phone.answer("envelope", value=entry) == REFUSED
    with pytest.raises(EnvelopeError):
        read_entry(entry)


any_json = st.recursive(
    st.none()
    | st.booleans()
    | st.text()
    | st.integers(-(2**54), 2**54)
    | st.floats()
    | st.floats(-1e16, 1e16)
    | st.sampled_from([1e-4, 1e15, 1e21, -0.0, 2.0**53, "\ud800", "\udc00\ud800", "\U0010ffff"]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
)


@settings(max_examples=300)
@given(value=any_json)
@example(value={"\U0001f600": 1, "\ufb33": 2, "10": 3, "9": 4, "__proto__": {"x": 1}})
def test_any_value_has_the_same_canonical_text_or_none(phone, value):
    finite = json.loads(json.dumps(value), parse_constant=str)  # NaN and infinities do not travel as JSON
    try:
        expected = text_of(finite)
    except EnvelopeError:
        expected = REFUSED
    assert phone.answer("canonical", value=finite) == expected


near_moments = st.sampled_from(MOMENTS) | st.from_regex(
    r"\A[0-9]{4}-[01][0-9]-[0-3][0-9]T[0-2][0-9]:[0-6][0-9](:[0-6][0-9](\.[0-9]{1,10})?)?(Z|[+-][0-2][0-9]:[0-6][0-9])\Z"
)


@settings(max_examples=300)
@given(text=near_moments)
def test_any_time_is_the_same_millisecond_or_none(phone, text):
    try:
        expected = moment_ms(text)
    except ValueError:
        expected = None
    assert phone.answer("moment", text=text) == text_of(expected)
