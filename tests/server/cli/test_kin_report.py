"""`broodline report family` and `flock`, as a keeper reads them."""

from datetime import UTC, datetime

import pytest

from tests.server.cli.commands import broodline, write_lines
from tests.server.reports.pen_book import PenBook


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """Bram with two hens, a cockerel and a pullet of that pen, and their pullet; Bram is dead."""
    writer = PenBook()
    cock = writer.bird("male", name="Bram", family=writer.rowan)
    writer.pen([cock], writer.birds("female", 2), "2026-01-01")
    lot = writer.eggs("2026-04-01", "2026-04-07")
    son = writer.bird("male", name="Teasel", family=writer.rowan, lots=[{"lot": lot}])
    daughter = writer.bird("female", name="Tansy", family=writer.rowan, lots=[{"lot": lot}])
    writer.bird("female", name="Vetch", family=writer.rowan, sires=[{"bird": son}], dams=[{"bird": daughter}])
    writer.write("left", {"bird": cock, "on": "2026-05-01", "how": "died"})
    writer.write("left", {"bird": son, "on": "2026-06-01", "how": "died"})
    writer.write("left", {"bird": daughter, "on": "2026-06-01", "how": "lent"})
    folder = tmp_path_factory.mktemp("book")
    assert broodline("import", write_lines(folder / "in.jsonl", *writer.documents), "--data", folder).code == 0
    return folder


def told(book, report, *more):
    return broodline("report", report, "--data", book, "--on", "2026-09-01", *more)


def test_birds_with_their_range_and_what_is_unknown(book):
    lines = told(book, "family").out.splitlines()
    vetch = next(line for line in lines if line.startswith("Vetch"))
    assert "18.8 % (12.5 to 25.0)" in vetch
    bram = next(line for line in lines if line.startswith("Bram"))
    assert "gone" in bram
    assert "unknown" in bram
    assert "0.0 %" not in bram, "nothing known is not: not inbred"
    tansy = next(line for line in lines if line.startswith("Tansy"))
    assert "lent" in tansy
    assert "0.0 %" in tansy
    assert any("without a cock and a hen" in line for line in lines)


def test_the_flock_of_an_earlier_day(book):
    """One cock, four hens: 4 x 1 x 4 / 5."""
    words = broodline("report", "family", "--data", book, "--on", "2026-05-15").out
    assert "Effective size 3.2; inbreeding rises by 15.6 % a generation." in words


def test_birds_as_json(book):
    answer = told(book, "family", "--json").json
    assert {bird["label"]: bird["F"] for bird in answer["birds"]}["Vetch"] == 0.1875


def test_the_flock_in_words(book):
    words = told(book, "flock").out
    assert "Marsh Speckle" in words
    assert "0 cocks and 4 hens: gene diversity" in words
    assert "%, of the variety of a large stock of unrelated birds." in words
    assert "founders' variety" not in words, "founders themselves are told 1 - mean kinship, under 100 % of a few"
    assert "Bram lives on in 2 birds only" in words


def test_an_empty_book(tmp_path):
    assert "No bird is in the book yet." in broodline("report", "family", "--data", tmp_path).out
    assert "No living bird" in broodline("report", "flock", "--data", tmp_path).out


def test_pens_for_next_season_in_words(tmp_path):
    writer = PenBook()
    for name, family in (("Bram", writer.rowan), ("Teasel", writer.family("Hazel"))):
        cock, hen = writer.bird("male", name=name, family=family), writer.bird("female", name=f"{name}'s mate")
        young = writer.bird(
            "female", name=f"{name}'s pullet", family=family, sires=[{"bird": cock}], dams=[{"bird": hen}]
        )
        writer.write("left", {"bird": hen, "on": "2026-06-01", "how": "died"})
        assert young
    writer.bird("male", name="Quill", breed="Brook Grey")
    writer.bird("female", name="Reed", breed="Brook Grey")
    file = write_lines(tmp_path / "in.jsonl", *writer.documents)
    assert broodline("import", file, "--data", tmp_path).code == 0
    words = told(tmp_path, "matings", "--pens", "2", "--hens", "1").out
    assert "Pen 1 (Hazel's hens, cock of Rowan): Bram\n  with Teasel's pullet" in words
    assert "All pens: inbreeding on average not known; mated at random 25.0 %" in words
    assert "(2 of 4 matings: not known), at worst 25.0 %." in words
    unknown = told(tmp_path, "matings", "--breed", "Brook Grey").out
    assert "All pens: inbreeding not known, of these pens and of any other" in unknown
    assert "0.0 %" not in unknown
    assert "Rowan's cock Bram goes to Hazel." in words
    assert "not all their forebears are written down" in words
    assert "do not follow these moves: do the one or the other" in told(tmp_path, "matings", "--pens", "1").out
    moved = told(tmp_path, "matings").out
    assert "The pens follow these moves." in moved
    assert "With hens of all families mixed the least would be 0.0 % (--no-moves)." not in moved, "it is not known"
    assert "In each pen of the plan every cock and every hen is taken to count alike." in moved
    assert "families mixed" not in told(tmp_path, "matings", "--no-moves").out
    none = told(tmp_path, "matings", "--pens", "3").out
    assert "No plan fits these limits.\n- 3 pens of 1 need 3 cocks; there are 2." in none
    kin = told(tmp_path, "matings", "--pens", "2", "--hens", "1", "--apart", "--json").json
    assert kin["mean_F"] is None
    assert told(tmp_path, "matings", "--pens", "0").code == 2
    own = told(tmp_path, "matings", "--pens", "2", "--hens", "1", "--must", "Bram:Bram's pullet").out
    assert "Pen 1 (Rowan's hens, cock of Rowan): Bram\n  with Bram's pullet" in own
    apart = told(tmp_path, "matings", "--pens", "2", "--hens", "1", "--never", "Bram:teasel's pullet").out
    assert "with Bram's pullet\n  chicks' inbreeding 25.0 %" in apart
    assert told(tmp_path, "matings", "--never", "Bram").code == 2


def test_eggs_to_set_in_words(book):
    words = told(book, "plan", "--pullets", "3", "--cockerels", "1", "--chance", "80").out
    assert "eggs for 3 pullets and 1 cockerel\n" in words
    assert "% chance that every wish comes true." in words
    assert "2026-09-01: set " in words
    assert "Half of the chicks are taken to be pullets." in words
    assert "  Eggs of the pen of " in words
    assert "No family in the book is called Nobody" in told(book, "plan", "--family", "Nobody").out
    assert told(book, "plan", "--pullets", "many").code == 2
    many = told(book, "plan", "--pullets", "100", "--cockerels", "100", "--chance", "99.9").out
    assert "do not give the chance" in many


def test_young_birds_to_keep_in_words(book, tmp_path):
    """Vetch alone is young and never stood in a pen; Teasel is dead and Tansy lent."""
    words = told(book, "choose", "--hens", "1").out
    assert "Keep 0 cockerels and 1 pullet of 1 young bird;" in words
    vetch = next(line for line in words.splitlines() if line.startswith("Vetch"))
    assert "not weighed" in vetch
    assert "keep:" in vetch
    assert told(book, "choose", "--cocks", "many").code == 2


@pytest.mark.parametrize(
    ("mass", "heavy", "light"),
    [
        ("g", "900 g, 100 g above the mean of 3; passes on +56 g", "700 g, 100 g below the mean of 3; passes on -56 g"),
        ("oz", "31.7 oz, 3.5 oz above the mean of 3; passes on +2.0 oz", "24.7 oz, 3.5 oz below the mean of 3"),
    ],
)
def test_a_weight_in_words_says_how_far_it_is_from_which_mean(tmp_path, mass, heavy, light):
    """Of 100 g above, 0.56 is passed on at 8 weeks: the heritability read for test_choosing. 1 oz is 28.35 g."""
    writer = PenBook()
    writer.keeper(mass=mass)
    hatch = writer.eggs()
    writer.move(hatch, "set", "hatched", 12, at=datetime(2026, 5, 1, 9, tzinfo=UTC))
    for name, grams in (("light", 700), ("heavy", 900), ("middle", 800)):
        cockerel = writer.bird("male", name=name, family=writer.rowan, hatched_on="2026-05-01", lots=[{"lot": hatch}])
        birds = [{"bird": cockerel, "mass_g": grams}]
        writer.write("weighed", {"lot": hatch, "birds": birds, "sex": "male", "on": "2026-06-26"})
    file = write_lines(tmp_path / "in.jsonl", *writer.documents)
    assert broodline("import", file, "--data", tmp_path).code == 0
    words = told(tmp_path, "choose").out
    assert heavy in words
    assert light in words
