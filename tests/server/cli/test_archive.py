"""`broodline import` and `export`: good lines in, bad lines named, nothing twice."""

import json

import pytest

from broodline.book.wire import canonical_bytes
from broodline.cli.archive import LONGEST_LINE
from tests.server.cli.commands import broodline, document, write_lines


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "book"


def stored_ids(folder, tmp_path):
    out = tmp_path / "out.jsonl"
    assert broodline("export", out, "--data", folder).code == 0
    return [json.loads(line)["id"] for line in out.read_text().splitlines()]


def test_lines_go_in_in_their_order_and_a_second_import_adds_nothing(folder, tmp_path):
    lines = [document(n) for n in (3, 1, 2)]
    file = write_lines(tmp_path / "in.jsonl", *lines)
    first = broodline("import", file, "--data", folder, "--json")
    assert (first.code, first.json) == (0, {"added": 3, "known": 0, "dry_run": False, "bad": []})
    again = broodline("import", file, "--data", folder)
    assert again.code == 0
    assert "0 entries added, 3 known already, 0 lines not taken" in again.out
    assert stored_ids(folder, tmp_path) == [line["id"] for line in lines]


def test_each_bad_line_is_named_by_its_number_and_the_rest_goes_in(folder, tmp_path):
    file = write_lines(
        tmp_path / "in.jsonl",
        document(1),
        "not json",
        "",
        {**document(2), "at": "noon"},
        document(3),
        '{"id":1,"id":2}',
        {**document(4), "body": {"text": "x" * 9000}},
        "x" * (3 * LONGEST_LINE),
        document(1, "another content under a known id"),
        document(5),
    )
    done = broodline("import", file, "--data", folder, "--json")
    assert done.code == 1
    assert (done.json["added"], done.json["known"]) == (3, 0)
    assert [(bad["line"], bad["field"]) for bad in done.json["bad"]] == [
        (2, "$"),
        (4, "at"),
        (6, "id"),
        (7, "$"),
        (8, "$"),
        (9, "id"),
    ]
    assert all(bad["message"] and bad["remedy"] for bad in done.json["bad"])
    assert stored_ids(folder, tmp_path) == [document(n)["id"] for n in (1, 3, 5)]
    words = broodline("import", file, "--data", folder)
    assert words.code == 1
    assert "line 4, at:" in words.err


@pytest.mark.parametrize("name", ["hatch.xls", "HATCH.ODS"])
def test_a_table_of_an_old_kind_is_refused_in_words_and_not_read_as_lines(folder, tmp_path, name):
    file = write_lines(tmp_path / name, "date,family,set", "2025-03-01,Rowan,12")
    done = broodline("import", file, "--data", folder)
    assert done.code == 2
    assert ".xlsx or .csv" in done.err


def test_odd_meaning_is_no_bad_line(folder, tmp_path):
    odd = {**document(1), "kind": "moved", "body": {"moves": [{"lot": "nobody", "from": "set", "to": "x", "n": 50}]}}
    assert broodline("import", write_lines(tmp_path / "in.jsonl", odd), "--data", folder).code == 0


def test_a_dry_run_says_what_would_be_added_and_adds_nothing(folder, tmp_path):
    broodline("import", write_lines(tmp_path / "one.jsonl", document(1)), "--data", folder)
    lines = [document(n) for n in range(1, 260)]
    file = write_lines(tmp_path / "in.jsonl", *lines, document(2), document(2, "other"), "bad")
    dry = broodline("import", file, "--data", folder, "--dry-run", "--json")
    assert dry.code == 1
    assert (dry.json["added"], dry.json["known"], dry.json["dry_run"]) == (258, 2, True)
    assert [bad["line"] for bad in dry.json["bad"]] == [261, 262]
    assert len(stored_ids(folder, tmp_path)) == 1
    real = broodline("import", file, "--data", folder, "--json")
    assert (real.code, {**real.json, "dry_run": True}) == (1, dry.json)


def test_an_export_goes_in_elsewhere_as_the_same_book(folder, tmp_path):
    newer = {**document(2), "later": {"10": 1.5, "9": [None]}}
    broodline("import", write_lines(tmp_path / "in.jsonl", document(1), newer), "--data", folder)
    out = tmp_path / "out.jsonl"
    told = broodline("export", out, "--data", folder, "--json")
    assert told.json["entries"] == 2
    assert out.read_bytes().splitlines() == [canonical_bytes(document(1)), canonical_bytes(newer)]
    assert broodline("import", out, "--data", tmp_path / "elsewhere", "--json").json["added"] == 2
    assert broodline("import", out, "--data", folder, "--json").json == {
        "added": 0,
        "known": 2,
        "dry_run": False,
        "bad": [],
    }


def test_a_mark_at_the_start_and_windows_line_ends_do_no_harm(folder, tmp_path):
    file = tmp_path / "in.jsonl"
    file.write_bytes(b"\xef\xbb\xbf" + json.dumps(document(1)).encode() + b"\r\n" + json.dumps(document(2)).encode())
    assert broodline("import", file, "--data", folder, "--json").json["added"] == 2


@pytest.mark.parametrize("name", ["book.csv", "x.xls", "season.pdf"])
def test_an_export_under_an_ending_it_does_not_write_is_refused(folder, tmp_path, name):
    done = broodline("export", tmp_path / name, "--data", folder)
    assert (done.code, ".jsonl, .xlsx, .zip, or a folder" in done.err) == (2, True)
    assert not (tmp_path / name).exists()


def test_a_file_that_is_not_there_is_wrong_use(folder, tmp_path):
    done = broodline("import", tmp_path / "nothing.jsonl", "--data", folder)
    assert done.code == 2
    assert "nothing.jsonl" in done.err
    assert broodline("export", tmp_path / "no folder" / "out.jsonl", "--data", folder).code == 2
