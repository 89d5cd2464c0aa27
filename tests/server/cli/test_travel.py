"""`broodline travel` and `broodline society`, as keepers type them on two holdings."""

import csv
import io
import json
import zipfile

import pytest

from broodline.book.birds import birds_of
from tests.server.cli.commands import broodline
from tests.server.exchange.told_books import demo_book


def test_a_bird_goes_and_comes(demo_folder, tmp_path):
    bird = next(one for one in birds_of(demo_book(), None).values() if one.label == "green A60")
    papers, elsewhere = tmp_path / "una.zip", tmp_path / "elsewhere"
    given = broodline("travel", "give", bird.id, "-o", papers, "--data", demo_folder, "--json")
    with zipfile.ZipFile(papers) as opened:
        lines = [json.loads(line) for line in opened.read("bird.jsonl").splitlines()]
        assert opened.read("bird.pdf").startswith(b"%PDF")
    assert (given.code, given.json["entries"], given.json["left_out"]) == (0, len(lines), 0)
    assert {line["kind"] for line in lines} == {"bird", "family"}
    known = {line["id"] for line in lines if line["kind"] == "bird" and line["amends"] is None}
    words = ("--on", "2026-11-25", "--from", "Gorse Bank", "--data", elsewhere, "--json")
    assert broodline("travel", "take", papers, "--dry-run", *words).json["added"] == len(lines) + len(known)
    assert broodline("travel", "take", papers, *words).json["added"] == len(lines) + len(known)
    again = broodline("travel", "take", papers, *words)
    # its forebears have left for good, and nobody came or left a second time
    assert (again.code, again.json["added"], again.json["known"]) == (0, 0, len(lines))
    told = broodline("report", "family", "--data", elsewhere, "--json").json
    there = {one["bird"]: one for one in told["birds"]}
    here = broodline("report", "family", "--data", demo_folder, "--json").json["birds"]
    mine = next(one for one in here if one["bird"] == bird.id)
    assert there.keys() == known
    assert mine["F"] > 0.1
    assert there[bird.id]["F"] == pytest.approx(mine["F"], abs=0.01), "as far as chances side by side can tell"
    home = broodline("travel", "take", papers, "--how", "returned", "--data", demo_folder, "--json")
    assert (home.code, home.json["added"], home.json["bad"]) == (0, 0, []), "at home its papers change nothing"
    assert broodline("travel", "give", "nobody", "-o", papers, "--data", demo_folder).code == 2
    assert broodline("travel", "take", tmp_path / "none.zip", "--data", elsewhere).code == 2
    assert broodline("travel", "take", papers, "--on", "soon", "--data", elsewhere).code == 2


def test_a_return_is_a_table_of_the_season(demo_folder, tmp_path):
    file = tmp_path / "return.csv"
    assert broodline("society", 2026, "-o", file, "--data", demo_folder, "--json").json["rows"] == 2
    rows = list(csv.DictReader(io.StringIO(file.read_text(), newline="")))
    assert [(row["species"], row["breed"], row["lines"]) for row in rows] == [
        ("chicken", "Marsh Speckle", "4"),
        ("duck", "Brook Grey", "1"),
    ]
    # set in the story: 38 + 80 + 26 + 46 eggs of chickens, 16 of ducks
    assert [row["eggs"] for row in rows] == ["190", "16"]
