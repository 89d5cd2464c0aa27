"""`broodline travel` and `broodline society`, as keepers type them on two holdings."""

import csv
import io
import json
import zipfile

from broodline.book.birds import birds_of
from tests.server.cli.commands import broodline
from tests.server.exchange.told_books import demo_book


def test_a_bird_goes_and_comes(demo_folder, tmp_path):
    bird = next(one for one in birds_of(demo_book(), None).values() if one.label == "green A60")
    papers, elsewhere = tmp_path / "una.zip", tmp_path / "elsewhere"
    given = broodline("travel", "give", bird.id, "-o", papers, "--data", demo_folder, "--json")
    assert (given.code, given.json["entries"]) == (0, 2)
    with zipfile.ZipFile(papers) as opened:
        kinds = [json.loads(line)["kind"] for line in opened.read("bird.jsonl").splitlines()]
        assert opened.read("bird.pdf").startswith(b"%PDF")
    assert sorted(kinds) == ["bird", "family"]
    words = ("--on", "2026-11-25", "--from", "Gorse Bank", "--data", elsewhere, "--json")
    assert broodline("travel", "take", papers, "--dry-run", *words).json["added"] == 3
    assert broodline("travel", "take", papers, *words).json["added"] == 3
    assert broodline("travel", "take", papers, *words).json["known"] == 2, "it came once, and is here"
    told = broodline("report", "family", "--data", elsewhere, "--json").json
    assert [one["label"] for one in told["birds"]] == ["green A60"]
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
