"""A file holds one idea and fits in one sitting."""

from tests.house.tree import own_files, sources, text_of

LONGEST_LINES = 300


def test_no_source_file_is_longer_than_300_lines():
    code = sources(".py", ".ts", ".tsx", ".css", ".mjs", ".cjs")
    assert len(code) > 30, "the list of files is wrong"
    too_long = {str(path): n for path in code if (n := len((text_of(path) or "").splitlines())) > LONGEST_LINES}
    assert too_long == {}


def test_the_builders_handbook_is_no_longer_than_300_lines():
    (handbook,) = [path for path in own_files() if path.name == "DEVELOPERS.md"]
    assert len((text_of(handbook) or "").splitlines()) <= LONGEST_LINES
