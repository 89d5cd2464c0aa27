"""`broodline paper`: a PDF where it was asked for."""

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
