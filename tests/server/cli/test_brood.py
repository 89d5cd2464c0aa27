"""`report brood` and `report growth`: the same answer for programs and in a keeper's words and units."""

import re
from datetime import timedelta

import pytest

from tests.server.cli.commands import broodline, write_lines
from tests.server.reports.test_brood import OUT, Nest
from tests.server.reports.test_brood_kept import kept_nest
from tests.server.reports.test_brood_mixed import Mixed


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """Twelve Rowan chicks out on 22 March, one died on day 4, weighed at 21 days."""
    nest = Nest(temperature="F", mass="oz")
    nest.move("brooding", "died", days=4, cause="weak")
    birds = [{"mass_g": mass} for mass in (170.0, 180.0, 190.0)]
    nest.book.write("weighed", {"lot": nest.lot, "birds": birds, "sex": "female", "on": "2026-04-12"})
    folder = tmp_path_factory.mktemp("book")
    file = write_lines(folder / "in.jsonl", *nest.book.documents)
    assert broodline("import", file, "--data", folder).code == 0
    return folder, nest.lot


def report(book, *words):
    on = (OUT + timedelta(days=10)).date().isoformat()
    return broodline("report", *words, "--data", book[0], "--on", on)


def test_a_brood_in_a_keepers_words_and_units(book):
    words = report(book, "brood", book[1]).out
    assert "Rowan: 11 alive, hatched 2026-03-22, 10 days old." in words
    assert "85 to 90 °F under the heat source" in words
    assert "1 of 12; one death is no pattern" in words
    assert "Commercial flocks: at most 1 %" in words
    assert " lb" in words
    assert "That is for white-egg layers, brown-egg layers. All of this rests on figures from memory" in words
    assert "Fast growing meat birds in four weeks" in words
    assert "One source, shown 10 % either way for waste and breed; that is our judgement." in words
    assert "The sources differ. Part of this rests on figures from memory" in words
    assert " ft²" in words
    assert "Heat lamps start fires" in words
    assert "not yet checked against its source" in words
    for word in (book[1], "lot", "None", "null"):
        assert word not in words.split(), word


def test_a_brood_whose_counts_cannot_be_has_no_figures(tmp_path):
    nest = Nest(chicks=3)
    nest.move("hatched", "brooding", 2, days=0.6)
    file = write_lines(tmp_path / "in.jsonl", *nest.book.documents)
    assert broodline("import", file, "--data", tmp_path / "book").code == 0
    words = report((tmp_path / "book",), "brood", nest.lot).out
    assert "Rowan: how many live is not told, these counts cannot be" in words
    assert "First week, died or missing: Not told: these counts cannot be." in words
    assert "Feed today" not in words
    assert "correct the entry with the wrong number" in words


def told(folder, nest, on):
    """What the command line says of the nest's chicks on so many days after the hatch."""
    file = write_lines(folder / "in.jsonl", *nest.book.documents)
    assert broodline("import", file, "--data", folder / "book").code == 0
    day = (OUT + timedelta(days=on)).date().isoformat()
    answer = broodline("report", "brood", nest.lot, "--data", folder / "book", "--on", day)
    assert answer.code == 0, answer.err
    return answer.out


def test_a_brood_of_which_a_fox_took_every_chick(tmp_path):
    nest = Nest()
    nest.move("brooding", "died", 12, days=9, cause="predator_fox")
    words = told(tmp_path, nest, 12)
    assert "Rowan: 0 alive" in words
    assert "- None of 12 alive after day 9." in words


def test_before_the_hatch_a_brood_has_no_age_and_no_figures(tmp_path):
    nest = Nest()
    nest.move("brooding", "died", 12, days=9)
    assert told(tmp_path, nest, -30) == "Rowan: not hatched by then, but on 2026-03-22.\n"
    found = nest.report(-30)
    assert (found["feed"]["words"], found["survival"]["points"]) == ("They had not hatched by then.", [])


def test_a_brood_whose_counts_cannot_be_is_nowhere_in_number(tmp_path):
    nest = Nest()
    nest.move("hatched", "brooding", 28, days=3)
    words = told(tmp_path, nest, 9)
    assert "In Brooder one: how many is not told." in words
    assert "Fresh water for the chicks in Brooder one" in words
    for figure in ("28 in ", "12 in ", "12 chicks", "nobody entered", "In all:"):
        assert figure not in words, figure


def test_birds_kept_and_gone_since_in_words(tmp_path):
    words = told(tmp_path, kept_nest(), 90)
    assert "Rowan: 6 alive" in words
    assert "2 in Brooder one." in words
    assert "Of those kept, since then: 4 sold, 2 died." in words
    assert "Feed today" in words


def test_grown_birds_are_told_no_feed_and_no_room_of_chicks(tmp_path):
    nest = Nest()
    nest.move("brooding", "flock", 12, days=60)
    words = told(tmp_path, nest, 62)
    assert "Rowan: 12 alive" in words
    for heading in ("Heat:", "Feed and water:", "Room:"):
        assert heading not in words


def test_a_brood_as_json(book):
    answer = report(book, "brood", book[1], "--json").json
    shape = {
        "lot", "family", "hatched_at", "age_days", "stages", "survival", "first_week", "alarms", "heat", "space",
        "feed", "water_ml", "tasks", "problems", "computed_at", "entries",
    }  # fmt: skip
    assert shape <= answer.keys()
    assert {"low_c", "high_c", "where", "next"} <= answer["heat"].keys()
    assert (answer["first_week"]["k"], answer["first_week"]["n"]) == (1, 12)


def test_no_such_batch(book):
    assert report(book, "brood", "nobody").code == 2


def test_weights_in_words_and_as_json(book):
    words = report(book, "growth").out
    assert "6.3 oz" in words
    assert "100 %" in words, "all within 10 % of 180 g"
    assert "no growth curve. Weighed at 1 age; a curve needs at least 5." in words
    (group,) = report(book, "growth", "--json").json["groups"]
    assert (group["n"], group["mean_g"], group["age_days"], group["fit"]) == (3, 180, 21, None)


def test_who_lags_and_who_the_parents_can_be_in_words(tmp_path):
    """Hens of 800, 1000 and 1100 g: mean 967, a tenth below it is 870."""
    nest = Nest()
    cock = nest.book.write("bird", {"sex": "male", "name": "Tom"})
    hen = nest.book.write("bird", {"sex": "female", "name": "Ann"})
    pen = {"family": nest.book.documents[1]["id"], "since": "2026-01-01"}
    nest.book.write("penned", {**pen, "sires": [{"bird": cock}], "dams": [{"bird": hen}]})
    for name, mass in (("Bea", 800.0), ("Cis", 1000.0), ("Dot", 1100.0)):
        bird = nest.book.write("bird", {"sex": "female", "name": name, "lots": [{"lot": nest.lot}]})
        nest.book.write("weighed", {"birds": [{"bird": bird, "mass_g": mass}], "on": "2026-05-30"})
    book = tmp_path, nest.lot
    broodline("import", write_lines(tmp_path / "in.jsonl", *nest.book.documents), "--data", tmp_path)
    words = report(book, "growth").out
    assert "More than a tenth lighter than their own batch and sex: Bea." in words
    assert "83 %" in words
    assert "Tom and Ann: 100 %" in report(book, "brood", nest.lot).out


@pytest.mark.parametrize(
    ("zone", "days", "hatched"),
    [("America/Los_Angeles", 0.75, "2026-03-22"), ("Pacific/Auckland", 0.25, "2026-03-23")],
)
def test_days_are_those_of_the_holding_not_of_greenwich(tmp_path, zone, days, hatched):
    """19:00 on Sunday in Los Angeles, 03:00 on Monday in Auckland: in UTC it is the other day."""
    nest = Nest(chicks=1, zone=zone)
    nest.move("set", "hatched", 9, days=days)
    nest.move("hatched", "brooding", 9, days=days + 0.5, place=nest.place)
    file = write_lines(tmp_path / "in.jsonl", *nest.book.documents)
    assert broodline("import", file, "--data", tmp_path / "book").code == 0
    asked = ("--data", tmp_path / "book", "--on", "2026-05-01")
    assert f"hatched {hatched}, " in broodline("report", "brood", nest.lot, *asked).out
    tasks = broodline("report", "due", *asked, "--json").json["tasks"]
    words = broodline("report", "due", *asked).out
    assert any(task["due"] != task["at"][:10] for task in tasks)
    assert all(re.search(f"^{task['due']}( .overdue.)? +{re.escape(task['words'])}", words, re.M) for task in tasks)


def test_chicks_of_unknown_family_are_told_of_and_fed(tmp_path):
    mixed = Mixed(known=0, unknown=20)
    mixed.move("hatched", "brooding", 20, days=1, why="pulled", place=mixed.place)
    file = write_lines(tmp_path / "in.jsonl", *mixed.book.documents)
    assert broodline("import", file, "--data", tmp_path / "book").code == 0
    words = report((tmp_path / "book",), "brood", mixed.lots[0]).out
    assert "20 of family not known in Brooder one." in words
    assert "Of Hazel and Rowan together 20 more: room, feed and water are for those too." in words
    assert "Feed today" in words
