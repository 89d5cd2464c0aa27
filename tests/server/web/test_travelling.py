"""A bird's papers between two books, where its parents follow from pens and batches only."""

import io
import json
import zipfile
from datetime import UTC, date, datetime

import pytest

from broodline.book.birds import birds_of
from broodline.book.flock_checks import all_problems
from broodline.book.fold import fold
from broodline.book.wire import stored_entry
from broodline.exchange import travel
from broodline.exchange.travel import code_text, read_arrival
from broodline.reports.bird_sheet import bird_sheet
from broodline.reports.family import family_report
from broodline.reports.flock_pedigree import flock_of
from broodline.web.papers import Wanted
from broodline.web.travelling import going_of, travel_file
from tests.server.reports.pen_book import PenBook, chances

NOW = datetime(2027, 9, 1, 12, 0, tzinfo=UTC)
ON = date(2027, 9, 1)


def set_eggs(book, day, **more):
    lot = book.lot()
    book.set_eggs(book.box, [(lot, book.rowan, 12)], set_at=datetime.fromisoformat(f"{day}T09:00:00+00:00"), **more)
    return lot


@pytest.fixture
def home():
    """Una, of a brother and one of two sisters out of a penned family, none of whom names its parents."""
    book = PenBook()
    cock, hens = book.bird("male", name="Bram", family=book.rowan), book.birds("female", 2)
    book.pen([cock], [(hens[0], 0.75), (hens[1], 0.25)], "2025-01-01", "2025-12-31")
    lot = set_eggs(book, "2025-04-01")
    young = {"lots": [{"lot": lot}], "family": book.rowan, "hatched_on": "2025-04-22"}
    brother, sisters = book.bird("male", **young), [book.bird("female", **young) for _ in range(2)]
    book.write("bird", {"sex": "male", "name": "Finn", **young}, amends=brother)
    book.pen([brother], sisters, "2026-01-01")
    una = book.bird("female", name="Una", family=book.rowan, lots=[{"lot": set_eggs(book, "2026-04-01")}])
    book.write("weighed", {"birds": [{"bird": una, "mass_g": 1800}], "on": "2026-09-01"})
    return book, una


def going(book, bird):
    return going_of(book.standing(), [entry.canonical for entry in book.entries()], bird, NOW)


def taken(lines, own=()):
    """The other book after the bird came, and how it arrived."""
    arrived = read_arrival(b"\n".join(lines), fold(own), NOW, ON, "bought", "Gorse Bank")
    return fold([*own, *arrived.entries]), arrived


def test_parents_and_inbreeding_there_are_those_of_the_giver(home):
    book, una = home
    there, arrived = taken(going(book, una).lines)
    assert (arrived.bird, arrived.bad, all_problems(there)) == (una, [], ())
    here = book.standing()
    for side in (0, 1):
        said = chances(flock_of(there, "2027-09-01").birds[una].parents, side)
        assert said == pytest.approx(chances(flock_of(here, "2027-09-01").birds[una].parents, side))
    mine, theirs = ({one["bird"]: one for one in family_report(standing, NOW)["birds"]} for standing in (here, there))
    # By hand: brother and sister share a cock (1/4 of 1/2) and, in 0.75² + 0.25² of cases, a hen as well.
    assert theirs[una]["F"] == pytest.approx(0.125 + 0.125 * (0.75**2 + 0.25**2))
    for figure in ("F", "F_low", "F_high", "completeness"):
        assert theirs[una][figure] == pytest.approx(mine[una][figure])
    assert bird_sheet(there, una, NOW)["forebears"] == bird_sheet(here, una, NOW)["forebears"]
    assert {one.where for one in birds_of(there, None).values() if one.id != una} == {"gone"}
    assert len(birds_of(there, None)) == 7


def test_papers_hold_entries_of_the_book_and_one_that_tells_parents_after_each_birds_own(home):
    book, una = home
    lines = going(book, una).lines
    written = {entry.canonical for entry in book.entries()}
    assert lines == going(book, una).lines
    assert lines[0] == next(entry.canonical for entry in book.entries() if entry.id == una)
    told = json.loads(lines[1])
    assert (told["kind"], told["amends"], told["void"]) == ("bird", una, False)
    assert {**told["body"], "sires": 0, "dams": 0} == {**json.loads(lines[0])["body"], "sires": 0, "dams": 0}
    assert [list(one) for one in told["body"]["sires"]] == [["bird"]], "a sure one needs no share"
    assert [one["share"] for one in told["body"]["dams"]] == [0.5, 0.5]
    made = [json.loads(line) for line in lines if line not in written]
    assert len(made) == 4, "Una, her cock and the two hens"
    heads = {head.id for head in book.standing().heads["bird"]}
    assert {one["amends"] for one in made} <= heads
    assert {json.loads(line)["kind"] for line in lines} == {"bird", "family"}
    text = code_text(lines)
    assert text is not None
    assert text.encode().startswith(lines[0] + b"\n")


def test_taken_twice_it_came_once_and_home_again_nothing_changes(home):
    book, una = home
    lines = going(book, una).lines
    there, first = taken(lines)
    again = read_arrival(b"\n".join(lines), there, NOW, ON, "bought", "Gorse Bank")
    assert ([*again.bad], {entry.id for entry in again.entries} - {entry.id for entry in first.entries}) == ([], set())
    back = going_of(there, [entry.canonical for entry in first.entries], una, NOW).lines
    assert set(back) == set(lines), "what names its parents goes as it is"
    for papers in (lines, back):
        arrived = read_arrival(b"\n".join(papers), book.standing(), NOW, ON, "returned", None)
        assert [*arrived.bad] == []
        assert {entry.id for entry in arrived.entries} <= {entry.id for entry in book.entries()}


def test_a_later_correction_stands_before_parents_told_earlier(home):
    book, una = home
    first = going(book, una).lines
    body = {**book.documents[-2]["body"], "name": "Una the Grey"}
    book.write("bird", body, amends=una, id="01970000-0000-7000-8000-000000000001")
    lines = {*first, *going(book, una).lines}
    bird = birds_of(fold([stored_entry(line) for line in sorted(lines)]), None)[una]
    assert (bird.label, len(bird.body.dams or ())) == ("Una the Grey", 2)


def test_what_is_not_known_of_a_parent_is_not_known_there(home):
    """The cock went into the pen half way through the days of laying, after a cock's semen is spent."""
    book = PenBook()
    hen, cock = book.bird("female"), book.bird("male")
    book.pen([], [hen], "2026-01-01", "2026-04-04")
    book.pen([cock], [hen], "2026-04-05")
    chick = book.bird("female", lots=[{"lot": book.eggs("2026-04-01", "2026-04-10")}])
    there, _ = taken(going(book, chick).lines)
    assert all_problems(there) == ()
    flock = flock_of(there, "2027-09-01")
    assert flock.problems == ()
    assert chances(flock.birds[chick].parents, 0) == pytest.approx({cock: 0.6, None: 0.4})
    assert chances(flock.birds[chick].parents, 1) == {hen: pytest.approx(1)}


def test_a_bird_that_names_its_parents_keeps_its_papers_as_they_are():
    book = PenBook()
    cock, hen = book.bird("male"), book.bird("female")
    book.pen([book.bird("male")], [book.bird("female")], "2026-01-01")
    lots = [{"lot": book.eggs("2026-04-01")}]
    chick = book.bird("female", lots=lots, sires=[{"bird": cock}], dams=[{"bird": hen}])
    written = {entry.id: entry.canonical for entry in book.entries()}
    assert {*going(book, chick).lines} == {written[chick], written[cock], written[hen]}


def test_what_papers_cannot_hold_are_the_farthest_forebears_and_it_is_said(home, monkeypatch):
    book, una = home
    every = going(book, una)
    assert every.left_out == 0
    # Una 2 lines and the family 1; of her parents 3 + 2 + 2 with Finn's correction
    monkeypatch.setattr(travel, "MOST_LINES", 10)
    packed, kept = travel_file(book.standing(), [one.canonical for one in book.entries()], una, Wanted(NOW))
    assert (len(kept.lines), kept.left_out) == (10, 3)
    with zipfile.ZipFile(io.BytesIO(packed)) as opened:
        assert opened.read("bird.jsonl").splitlines() == [*kept.lines]
    there, _ = taken(kept.lines)
    found = {one["bird"]: one["F"] for one in family_report(there, NOW)["birds"]}
    assert found[una] == pytest.approx(0.125 + 0.125 * (0.75**2 + 0.25**2)), "kinship follows from the names alone"
