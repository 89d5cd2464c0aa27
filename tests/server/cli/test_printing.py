"""Printing: tables that line up, and names that cannot steer a terminal."""

import json
import os
import subprocess
import sys
from contextlib import suppress
from io import BytesIO, TextIOWrapper

import pytest

from broodline.cli.printing import say, say_json, say_table, warn, with_progress


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


def test_what_holds_words_apart_or_joins_pictures_is_kept_and_what_turns_the_writing_is_not(capsys):
    """The marks that turn the direction: Unicode Standard Annex 9; they can make a name read as another."""
    kept = "10\u00a0kg \u202f Zwerg\u00adhuhn \U0001f469\u200d\U0001f33e"
    say(kept + " a\u202eb\u2066c")
    assert capsys.readouterr().out == kept + " a\ufffdb\ufffdc\n"


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "utf-8"])
def test_a_terminal_of_few_letters_gets_its_code_and_its_tables(tmp_path, encoding):
    """Python's own name for the letters of a terminal: PYTHONIOENCODING (docs.python.org/3/using/cmdline.html)."""
    (tmp_path / "address.txt").write_text("http://h\u00fchner.example \n", encoding="utf-8")

    def run(*words):
        return subprocess.run(
            [sys.executable, "-m", "broodline", *words, "--data", str(tmp_path)],
            env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
            capture_output=True,
            timeout=60,
            check=False,
        )

    paired = run("pair")
    assert (paired.returncode, paired.stderr) == (0, b"")
    assert b"Pairing code: " in paired.stdout
    assert ("\u2580".encode() in paired.stdout) is (encoding == "utf-8"), "a picture of question marks is none"
    assert b"????" not in paired.stdout
    broken = run("devices", "rename", "x", "\u00e9\U0001f423", "--json")
    assert (broken.returncode, b"Traceback" in broken.stderr) == (2, False)


def test_json_for_a_terminal_of_few_letters_loses_none(monkeypatch):
    narrow = TextIOWrapper(BytesIO(), encoding="cp1252")
    monkeypatch.setattr(sys, "stdout", narrow)
    say_json({"name": "\u0141uk\u00e9"})
    assert json.loads(narrow.buffer.getvalue()) == {"name": "\u0141uk\u00e9"}


def test_a_line_beside_the_answer_that_cannot_be_written_stops_nothing(monkeypatch):
    full = open("/dev/full", "w")  # noqa: SIM115 (closing it fails too: what it still holds cannot be written)
    with monkeypatch.context() as patch:
        patch.setattr(sys, "stderr", full)
        for _ in range(3):
            warn("not sent")
    with suppress(OSError):
        full.close()


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
