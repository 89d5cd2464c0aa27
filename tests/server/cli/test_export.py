"""`broodline export`: the ending of the file says what it is."""

import io
import zipfile

import openpyxl

from tests.server.cli.commands import broodline
from tests.server.exchange.told_books import demo_entries


def test_lines_workbook_zip_and_folder(demo_folder, tmp_path):
    lines, sheets, packed, place = (tmp_path / name for name in ("b.jsonl", "b.xlsx", "b.zip", "b"))
    for file in (lines, sheets, packed, place):
        done = broodline("export", file, "--data", demo_folder, "--json")
        assert (done.code, done.json["entries"]) == (0, len(demo_entries()))
    with zipfile.ZipFile(packed) as opened:
        names = opened.namelist()
        assert {name: opened.read(name) for name in names if name.endswith((".csv", ".jsonl"))} == {
            file.name: file.read_bytes() for file in place.iterdir() if file.suffix in (".csv", ".jsonl")
        }
    assert {file.name for file in place.iterdir()} == set(names)
    assert (place / "book.jsonl").read_bytes() == lines.read_bytes()
    assert openpyxl.load_workbook(io.BytesIO(sheets.read_bytes())).sheetnames[0] == "Settings"


def test_a_season_is_a_workbook_and_nothing_else(demo_folder, tmp_path):
    file = tmp_path / "s.xlsx"
    assert broodline("export", file, "--year", 2026, "--data", demo_folder).code == 0
    assert openpyxl.load_workbook(file).sheetnames[0] == "Families 2026"
    refused = broodline("export", tmp_path / "s.zip", "--year", 2026, "--data", demo_folder)
    assert refused.code == 2
    assert ".xlsx" in refused.err
    assert not (tmp_path / "s.zip").exists()


def test_a_place_that_cannot_be_written_is_told_and_nothing_is_left(demo_folder, tmp_path):
    refused = broodline("export", tmp_path / "nowhere" / "s.xlsx", "--data", demo_folder)
    assert refused.code == 2
    assert "cannot be written" in refused.err
