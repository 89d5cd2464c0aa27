"""A bird's travelling papers, and what they are in another book."""

import io
import zipfile
from datetime import date

import pytest

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.errors import EnvelopeError, NotFound
from broodline.exchange.travel import code_text, pack, read_arrival, travel_lines
from broodline.reports.inspection import inspection
from tests.book_writer import BookWriter
from tests.server.exchange.told_books import NOW

ON = date(2026, 4, 1)


@pytest.fixture
def home():
    """Una of Bram (corrected once) and Old Una; a family of their own, another family, and eggs."""
    writer = BookWriter()
    writer.keeper()
    rowan, hazel = writer.family("Rowan"), writer.family("Hazel")
    sire = writer.write("bird", {"name": "Brem", "sex": "male", "family": rowan})
    writer.write("bird", {"name": "Bram", "sex": "male", "family": rowan}, amends=sire)
    dam = writer.write("bird", {"name": "Old Una", "sex": "female", "family": rowan})
    writer.write("bird", {"name": "Stranger", "sex": "female", "family": hazel})
    una = writer.write(
        "bird", {"name": "Una", "sex": "female", "family": rowan, "sires": [{"bird": sire}], "dams": [{"bird": dam}]}
    )
    writer.write("weighed", {"birds": [{"bird": una, "mass_g": 1800}], "on": "2026-03-01"})
    writer.set_eggs(writer.incubator(), [(writer.lot(), rowan, 12)])
    return writer.entries(), una


def lines_of(home):
    entries, una = home
    return travel_lines(fold(entries), [entry.canonical for entry in entries], una)


def test_the_bird_its_forebears_and_their_family_go_whole_and_nothing_else(home):
    entries, una = home
    lines = lines_of(home)
    assert set(lines) <= {entry.canonical for entry in entries}
    going = [entry for entry in entries if entry.canonical in lines]
    names = sorted((entry.kind, entry.body["name"]) for entry in going)
    assert names == [("bird", "Bram"), ("bird", "Brem"), ("bird", "Old Una"), ("bird", "Una"), ("family", "Rowan")]
    assert una.encode() in lines[0]
    with pytest.raises(NotFound):
        travel_lines(fold(entries), [], "nobody")


def test_in_another_book_the_bird_came_and_its_forebears_were_never_there(home):
    _, una = home
    writer = BookWriter()
    writer.keeper()
    own = [entry._replace(id=entry.id.replace("0195", "0196", 1)) for entry in writer.entries()]
    packed = pack(lines_of(home), b"%PDF paper")
    with zipfile.ZipFile(io.BytesIO(packed)) as opened:
        assert opened.namelist() == ["bird.pdf", "bird.jsonl"]
    arrived = read_arrival(packed, fold(own), NOW, ON, "bought", "Gorse Bank")
    assert (arrived.bird, arrived.bad) == (una, [])
    standing = fold([*own, *arrived.entries])
    assert standing.problems == ()
    birds = {one.label: one for one in birds_of(standing, None).values()}
    assert {label: one.where for label, one in birds.items()} == {"Una": "here", "Bram": "gone", "Old Una": "gone"}
    assert birds["Una"].body.sires[0].bird == birds["Bram"].id  # type: ignore[index]
    told = inspection(standing, date(2026, 1, 1), date(2026, 12, 31))
    assert [(row["what"], row["from"]) for row in told["came"]] == [("Una", "Gorse Bank")]
    assert (told["left"], told["deaths"]) == ([], [])
    again = read_arrival(packed, standing, NOW, ON, "bought", "Gorse Bank")
    assert {entry.id for entry in again.entries} <= {entry.id for entry in arrived.entries}


def test_lines_alone_are_read_too_and_other_kinds_are_left_out_and_told(home):
    entries, una = home
    weighed = next(entry.canonical for entry in entries if entry.kind == "weighed")
    content = b"\n".join([*lines_of(home), weighed, b"no json"])
    arrived = read_arrival(content, fold([]), NOW, ON, "given", None)
    assert arrived.bird == una
    assert [(line.number, line.field) for line in arrived.bad] == [(6, "kind"), (7, "$")]
    assert all(entry.kind != "weighed" for entry in arrived.entries)


@pytest.mark.parametrize("content", [b"", b"no", b"PK\x03\x04broken", pack([], b"")])
def test_what_is_no_papers_is_refused(content):
    with pytest.raises(EnvelopeError):
        read_arrival(content, fold([]), NOW, ON, "bought", None)


def test_the_code_on_the_paper_holds_whole_lines(home):
    lines = lines_of(home)
    text = code_text(lines)
    assert text is not None
    assert text.encode().splitlines() == lines[: text.count("\n")]
    assert code_text([b"x" * 5000]) is None
