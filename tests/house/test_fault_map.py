"""The maps of faults name tests that exist, and leave out no failure mode and no invariant."""

import re

import pytest

from tests.house.tree import ROOT

MAPS = ("tests/faults/README.md", "tests/browser/README.md")
FAILURES, INVARIANTS = 15, 23
NAMED = re.compile(r"`([\w./-]+\.(?:py|tsx?))::([^`]+)`")


def rows() -> dict[str, str]:
    lines = (ROOT / MAPS[0]).read_text().splitlines()
    return {found[1]: line for line in lines if (found := re.match(r"\| ([A-Z]\d+) \|", line))}


def exists(file: str, name: str) -> bool:
    """Whether a file below tests/ declares a test of that name (in TypeScript: whose title holds it)."""
    path = ROOT / "tests" / file
    if not path.is_file():
        return False
    text = path.read_text()
    if file.endswith(".py"):
        return re.search(rf"^\s*(?:async )?(?:def|class) {re.escape(name)}\b", text, re.MULTILINE) is not None
    titles = re.findall(r"""\b(?:it|test|describe)(?:\.each\(.*?\))?\(\s*(["'`])(.+?)\1""", text, re.DOTALL)
    return any(name in title for _, title in titles)


@pytest.mark.parametrize("path", MAPS)
def test_every_test_that_a_map_names_exists(path):
    named = NAMED.findall((ROOT / path).read_text())
    assert len(named) > 20
    assert [f"{file}::{name}" for file, name in named if not exists(file, name)] == []


def test_a_name_that_is_gone_would_be_found():
    assert exists("house/test_fault_map.py", "test_a_name_that_is_gone_would_be_found")
    assert not exists("house/test_fault_map.py", "test_a_name_that_is")
    assert not exists("house/test_nowhere.py", "test_a_name_that_is_gone_would_be_found")
    assert not exists("pwa/sync/rounds.test.ts", "a title that nobody wrote")


def test_no_failure_and_no_invariant_is_left_out():
    wanted = [f"F{n}" for n in range(1, FAILURES + 1)] + [f"I{n}" for n in range(1, INVARIANTS + 1)]
    assert [one for one in wanted if one not in rows()] == []
    assert [one for one, row in rows().items() if not NAMED.search(row)] == []


def test_every_failure_tells_what_was_taken_out_to_see_its_test_fail():
    taken_out = {one: row.rstrip("| ").rsplit(" | ", 1)[-1] for one, row in rows().items() if one.startswith("F")}
    assert [one for one, words in taken_out.items() if "`" in words and "::" in words] == []
    assert all(len(words) > 8 for words in taken_out.values())
