"""The demo's book in a data folder, taken in once for all tests that only read it."""

import json

import pytest

from tests.server.cli.commands import broodline, write_lines
from tests.server.exchange.told_books import demo_entries


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("told")
    file = write_lines(place / "in.jsonl", *(json.loads(entry.canonical) for entry in demo_entries()))
    assert broodline("import", file, "--data", place / "book").code == 0
    return place / "book"
