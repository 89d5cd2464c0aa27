"""Printing: tables that line up, and names that cannot steer a terminal."""

import json

from broodline.cli.printing import say, say_json, say_table, with_progress


def test_a_table_lines_up_with_numbers_to_the_right(capsys):
    say_table(("family", "eggs"), [("Rowan", 9), ("Hazel", 120), (None, "")])
    assert capsys.readouterr().out == "family  eggs\n------  ----\nRowan      9\nHazel    120\n\n"


def test_an_empty_table_has_its_headings(capsys):
    say_table(("family", "eggs"), [])
    assert capsys.readouterr().out == "family  eggs\n------  ----\n"


def test_a_name_cannot_steer_the_terminal(capsys):
    say("\x1b[2J\x9b1mRowan\nHazel")
    say_table(("family",), [("\x1b]0;title\x07Row\nan",)])
    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "\x9b" not in out
    assert "\x07" not in out
    assert out.startswith("�[2J�1mRowan\nHazel\n")
    assert "Row an" in out


def test_json_keeps_every_letter(capsys):
    say_json({"name": "\x1b[2Jé\n"})
    out = capsys.readouterr().out
    assert json.loads(out) == {"name": "\x1b[2Jé\n"}
    assert "\x1b" not in out


def test_progress_passes_everything_on_and_is_silent_where_nobody_watches(capsys):
    assert list(with_progress(range(3000), "lines")) == list(range(3000))
    assert capsys.readouterr().err == ""


def test_progress_is_told_on_a_terminal(capsys, monkeypatch):
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    assert list(with_progress(range(2500), "lines read")) == list(range(2500))
    assert capsys.readouterr().err == "\r1000 lines read\r2000 lines read\r2500 lines read\n"
