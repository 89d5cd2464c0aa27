"""A bird's travelling papers, and what they are in another book."""

import io
import json
import zipfile
from datetime import date, timedelta

import pytest

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.errors import EnvelopeError, NotFound
from broodline.exchange.travel import MOST_LINES, code_text, pack, read_arrival, travel_lines
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
    return travel_lines(fold(entries), [entry.canonical for entry in entries], una).lines


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


def line(document, number, **more):
    """A line that is like another entry, under an id of its own."""
    return json.dumps({**document, "id": f"01970000-0000-7000-8000-{number:012x}", **more}).encode()


@pytest.fixture
def mine():
    """My own book: Old Tom, and the family Elder."""
    writer = BookWriter()
    writer.keeper()
    return writer, writer.write("bird", {"name": "Old Tom", "sex": "male"}), writer.family("Elder")


def test_papers_of_a_stranger_change_no_bird_and_no_family_of_mine(mine):
    writer, tom, elder = mine
    bird, family = writer.documents[1], writer.documents[2]
    content = b"\n".join(
        [
            line(bird, 1, body={"name": "Chick", "sex": "female"}),
            line(bird, 2, amends=tom, void=True, body={}),
            line(family, 3, amends=elder, body={**family["body"], "name": "Stolen"}),
            line(bird, 4, amends="01970000-0000-7000-8000-000000000002", body={"name": "Tim", "sex": "male"}),
            line(bird, 5, amends="01970000-0000-7000-8000-000000000001", body={"name": "Chick", "sex": "male"}),
        ]
    )
    arrived = read_arrival(content, fold(writer.entries()), NOW, ON, "bought", "Whin Cottage")
    assert [(one.number, one.field) for one in arrived.bad] == [(2, "amends"), (3, "amends"), (4, "amends")]
    assert "Old Tom" in arrived.bad[0].message
    assert "Elder" in arrived.bad[1].message
    standing = fold([*writer.entries(), *arrived.entries])
    birds = {one.label: (one.where, one.body.sex) for one in birds_of(standing, None).values()}
    assert birds == {"Old Tom": ("here", "male"), "Chick": ("here", "male")}, "its own correction counts"
    assert [one.name for one in standing.families.values()] == ["Elder"]


@pytest.mark.parametrize(("ending", "came"), [(None, 0), ("died", 0), ("culled", 0), ("sold", 1), ("lent", 1)])
def test_papers_read_again_tell_of_no_second_coming_and_wake_no_dead(home, ending, came):
    papers = b"\n".join(lines_of(home))
    first = read_arrival(papers, fold([]), NOW, ON, "bought", "Gorse Bank")
    own = BookWriter()
    if ending is not None:
        body = {"bird": first.bird, "on": "2026-04-02", "how": ending}
        own.write("left", body, id="01960000-0000-7000-8000-000000000001")
    standing = fold([*first.entries, *own.entries()])
    again = read_arrival(papers, standing, NOW, ON + timedelta(days=2), "returned", "Gorse Bank")
    new = [entry.kind for entry in again.entries if entry.id not in standing.root_of]
    assert new == ["came"] * came


def test_a_forebear_that_is_joined_with_my_own_bird_stays_where_it_is(mine):
    writer, tom, _ = mine
    bird = writer.documents[1]
    sire, chick = line(bird, 1, body={"name": "Tom", "sex": "male"}), "01970000-0000-7000-8000-000000000001"
    papers = b"\n".join([line(bird, 2, body={"name": "Chick", "sex": "female", "sires": [{"bird": chick}]}), sire])
    writer.documents.append(json.loads(sire))
    writer.write("same", {"bird": chick, "as": tom})
    arrived = read_arrival(papers, fold(writer.entries()), NOW, ON, "bought", "Whin Cottage")
    standing = fold([*writer.entries(), *arrived.entries])
    where = {one.label: one.where for one in birds_of(standing, None).values()}
    assert where == {"Old Tom": "here", "Chick": "here"}


def test_a_bird_with_two_ids_goes_as_one(home):
    entries, una = home
    writer = BookWriter(documents=[json.loads(entry.canonical) for entry in entries])
    other = writer.write("bird", {"name": "Una", "sex": "female"})
    writer.write("same", {"bird": una, "as": other})
    lines = travel_lines(fold(writer.entries()), [entry.canonical for entry in writer.entries()], una).lines
    arrived = read_arrival(b"\n".join(lines), fold([]), NOW, ON, "bought", None)
    labels = [one.label for one in birds_of(fold(arrived.entries), None).values()]
    assert sorted(labels) == ["Bram", "Old Una", "Una"]


def test_papers_longer_than_any_birds_are_refused_and_not_cut(mine):
    writer, _, _ = mine
    content = b"\n".join(line(writer.documents[1], number) for number in range(MOST_LINES + 1))
    for papers in (content, pack(content.splitlines(), b""), pack([content + b" " * 4_200_000], b"")):
        with pytest.raises(EnvelopeError):
            read_arrival(papers, fold([]), NOW, ON, "bought", None)
