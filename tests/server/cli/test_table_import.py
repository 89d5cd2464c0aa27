"""`broodline import` of a table, as a keeper types it."""

import pytest

from tests.server.cli.commands import broodline
from tests.server.exchange.test_sheets_as_kept import COUNTS, several
from tests.server.exchange.test_sheets_in import FAMILIES, HATCHES


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "families.csv").write_text(FAMILIES)
    (tmp_path / "hatches.csv").write_text(HATCHES + "01/03/2025,Nobody,12,,,,,9,,,\n")
    assert broodline("import", tmp_path / "families.csv", "--data", tmp_path / "book").code == 0
    return tmp_path / "book"


def test_tried_taken_in_known_and_undone(folder, tmp_path):
    file = tmp_path / "hatches.csv"
    tried = broodline("import", file, "--dry-run", "--data", folder)
    assert tried.code == 1
    assert "hatches, row 5, family: There is no family named Nobody." in tried.err
    assert "Not read: Moon." in tried.out
    assert "2 set) would be added, 0 known already, 1 rows not taken." in tried.out
    assert broodline("report", "season", 2025, "--data", folder, "--json").json["settings"] == 0
    first = broodline("import", file, "--data", folder, "--json").json
    assert first["kinds"]["set"] == 2
    assert broodline("import", file, "--data", folder, "--json").json["known"] == first["added"]
    assert broodline("report", "season", 2025, "--data", folder, "--json").json["settings"] == 2
    undone = broodline("import", file, "--undo", "--data", folder)
    assert (undone.code, f"{first['added']} entries" in undone.out, "taken back" in undone.out) == (0, True, True)
    assert broodline("report", "season", 2025, "--data", folder, "--json").json["settings"] == 0
    assert broodline("check", "--data", folder).code == 0


def test_a_file_corrected_and_saved_over_is_taken_back_whole_without_its_options(folder, tmp_path):
    file = tmp_path / "own.csv"
    told = ("--species", "chicken", "--breed", "Marsh Speckle", "--data", folder, "--json")
    head, ash, elm = "Set,Family,Eggs,Hatched\n", "2025-03-01,Ash,24,15\n", "2025-03-01,Elm,20,n0ne\n"
    file.write_text(head + ash + elm)
    first = broodline("import", file, *told).json
    assert ([bad["number"] for bad in first["bad"]], first["kinds"]["set"]) == ([3], 1)
    file.write_text(head + ash + elm.replace("n0ne", "9"))
    second = broodline("import", file, *told).json
    assert (second["bad"], second["known"]) == ([], first["added"])
    assert broodline("report", "season", 2025, "--data", folder, "--json").json["settings"] == 1
    undone = broodline("import", file, "--undo", "--data", folder, "--json").json
    assert undone["added"] == first["added"] + second["added"] - 1  # one of them amends the setting
    assert broodline("report", "season", 2025, "--data", folder, "--json").json["settings"] == 0
    assert "Were they changed in the file since?" in broodline("import", file, "--undo", "--data", folder).out


def test_wrong_use_is_told(folder, tmp_path):
    file = tmp_path / "hatches.csv"
    for words in (["--column", "eggs"], ["--column", "eggs=Sun"], ["--species", "dodo"]):
        assert broodline("import", file, *words, "--data", folder).code == 2
    assert broodline("import", tmp_path / "none.csv", "--data", folder).code == 2
    (tmp_path / "book.jsonl").write_text("")
    assert broodline("import", tmp_path / "book.jsonl", "--undo", "--data", folder).code == 2


def test_a_trial_shows_days_in_full_and_one_sheet_of_a_workbook_can_be_told_of(folder, tmp_path):
    (tmp_path / "mine.xlsx").write_bytes(several())
    columns = [part for name, heading in COUNTS.items() for part in ("--column", f"{name}={heading}")]
    words = (
        "import",
        tmp_path / "mine.xlsx",
        "--sheet",
        "Counts 2025",
        "--kind",
        "hatches",
        *columns,
        "--data",
        folder,
    )
    tried = broodline(*words, "--dry-run")
    assert "2  Rowan  set on  03/04/2025  3 April 2025" in tried.out
    assert "--dates dmy (day first), --dates mdy (month first)" in tried.out
    assert "Sheets not read: Lines, Birds fed." in tried.out
    assert "4 March 2025" in broodline(*words, "--dry-run", "--dates", "mdy").out
    assert "read as" not in broodline(*words).out.split("Sheets", 1)[1]
    assert broodline("import", tmp_path / "mine.xlsx", "--sheet", "Eggs", "--data", folder).code == 2


def test_a_sum_below_the_rows_is_told_and_is_no_fault(folder, tmp_path):
    (tmp_path / "sums.csv").write_text("Set,Family,Eggs,Hatched\n2025-03-01,Rowan,24,15\nTotal,,24,15\n")
    tried = broodline("import", tmp_path / "sums.csv", "--dry-run", "--data", folder)
    assert (tried.code, "“Total” adds up other rows" in tried.err) == (0, True)
    assert "0 rows not taken." in tried.out
