"""The book as JSON lines: what goes out comes back byte for byte, and bad lines are told by their number."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from broodline.exchange.archive import BadLine, GoodLine, read_lines, write_line
from tests.book_writer import BookWriter
from tests.seed.told import Told

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
NUMBERS = st.integers(-(2**53) + 1, 2**53 - 1) | st.floats(0.001, 1e14) | st.just(-0.0)
BODIES = st.dictionaries(
    TEXTS,
    st.recursive(
        st.none() | st.booleans() | NUMBERS | TEXTS,
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
        max_leaves=6,
    ),
    max_size=4,
)


def lines_of(archive: bytes) -> list[bytes]:
    return archive.splitlines(keepends=True)


def test_the_whole_scenario_goes_out_and_comes_back_byte_for_byte():
    entries = Told(date(2026, 6, 10)).entries
    archive = b"".join(write_line(entry.canonical) for entry in entries)
    back = list(read_lines(lines_of(archive)))
    assert [line.number for line in back] == list(range(1, len(entries) + 1))
    assert [line.entry for line in back if isinstance(line, GoodLine)] == entries


@given(st.lists(BODIES, min_size=1, max_size=4))
def test_out_then_in_then_out_is_the_same_bytes(bodies):
    book = BookWriter()
    for body in bodies:
        book.write("a kind of later", body)
    archive = b"".join(write_line(entry.canonical) for entry in book.entries())
    assert archive.count(b"\n") == len(bodies), "one entry a line, whatever stands in it"
    back = [line.entry for line in read_lines(lines_of(archive)) if isinstance(line, GoodLine)]
    assert b"".join(write_line(entry.canonical) for entry in back) == archive


def test_bad_lines_are_told_by_number_and_the_good_ones_still_come():
    book = BookWriter()
    book.keeper()
    book.family("Rowan")
    first, second = (write_line(entry.canonical) for entry in book.entries())
    read = list(
        read_lines([b"\xef\xbb\xbf" + first, b"\r\n", b"{not json}\n", b"\xff\xfe\n", b"[]\n", second[:-1] + b"\r\n"])
    )
    assert [(line.number, type(line)) for line in read] == [
        (1, GoodLine),
        (3, BadLine),
        (4, BadLine),
        (5, BadLine),
        (6, GoodLine),
    ]
    assert all(line.message and line.remedy for line in read if isinstance(line, BadLine))


@given(st.lists(st.binary(max_size=60), max_size=5))
def test_any_bytes_are_read_without_raising(lines):
    assert all(isinstance(line, BadLine) for line in read_lines(lines))
