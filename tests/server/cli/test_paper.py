"""`broodline paper`: a PDF where it was asked for."""

import json

import pytest

from tests.server.cli.commands import broodline, write_lines
from tests.server.exchange.told_books import demo_book, demo_entries


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("told")
    file = write_lines(place / "in.jsonl", *(json.loads(entry.canonical) for entry in demo_entries()))
    assert broodline("import", file, "--data", place / "book").code == 0
    return place / "book"


def test_papers_are_written(folder, tmp_path):
    setting = max(demo_book().settings)
    for words in (
        ["season", 2026],
        ["cards", setting],
        ["away"],
        ["matings", "--pens", 2],
        ["inspection", "--from", "2026-01-01"],
    ):
        file = tmp_path / f"{words[0]}.pdf"
        done = broodline("paper", *words, "-o", file, "--paper", "a4", "--data", folder, "--json")
        assert (done.code, done.json) == (0, {"file": str(file), "lacking": []})
        assert file.read_bytes().startswith(b"%PDF")


def test_wrong_use_is_told(folder, tmp_path):
    file = tmp_path / "x.pdf"
    for words in (
        ["season"],
        ["season", "spring"],
        ["cards", "nothing"],
        ["away", "--from", "soon"],
        ["matings", "--limit", "much"],
        ["poster"],
    ):
        assert broodline("paper", *words, "-o", file, "--data", folder).code == 2
    assert not file.exists()
