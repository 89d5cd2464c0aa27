"""`broodline paper`: a PDF where it was asked for."""

import json

from tests.book_writer import BookWriter
from tests.server.cli.commands import broodline
from tests.server.exchange.told_books import demo_book


def test_papers_are_written(demo_folder, tmp_path):
    setting = max(demo_book().settings)
    for words in (
        ["season", 2026],
        ["cards", setting],
        ["away"],
        ["matings", "--pens", 2],
        ["inspection", "--from", "2026-01-01"],
    ):
        file = tmp_path / f"{words[0]}.pdf"
        done = broodline("paper", *words, "-o", file, "--paper", "a4", "--data", demo_folder, "--json")
        assert (done.code, done.json) == (0, {"file": str(file), "lacking": []})
        assert file.read_bytes().startswith(b"%PDF")


def test_wrong_use_is_told(demo_folder, tmp_path):
    file = tmp_path / "x.pdf"
    for words in (
        ["season"],
        ["season", "spring"],
        ["cards", "nothing"],
        ["away", "--from", "soon"],
        ["matings", "--limit", "much"],
        ["poster"],
    ):
        assert broodline("paper", *words, "-o", file, "--data", demo_folder).code == 2
    assert not file.exists()


def test_a_letter_without_a_font_is_a_fault_unless_boxes_are_asked_for(tmp_path):
    book = BookWriter()
    book.write("bird", {"sex": "male", "name": "Bram 😀", "hatched_on": "2026-04-01", "webs": ["LO"]})
    lines = tmp_path / "book.jsonl"
    lines.write_text("\n".join(json.dumps(one) for one in book.documents), encoding="utf-8")
    data, file = tmp_path / "data", tmp_path / "marks.pdf"
    assert broodline("import", lines, "--data", data).code == 0
    refused = broodline("paper", "marks", 2026, "-o", file, "--data", data)
    assert refused.code == 1
    assert "😀 (U+1F600), in: Bram 😀." in refused.err
    assert "--boxes" in refused.err
    assert not file.exists()
    done = broodline("paper", "marks", 2026, "-o", file, "--data", data, "--boxes", "--json")
    assert (done.code, done.json) == (0, {"file": str(file), "lacking": ["😀"]})
