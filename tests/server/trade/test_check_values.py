"""README.md beside this file names the test of each published check value: none is left out, every test is there."""

import re
from pathlib import Path

import pytest

SERVER = Path(__file__).parents[1]
SECTIONS = (Path(__file__).parent / "README.md").read_text(encoding="utf-8").split("\n## ")[1:]
INCUBATION, BROODING, STATISTICS, BREEDING = SECTIONS
ROW = re.compile(r"^\| (?P<values>[0-9a-z][^|]*) \| (?P<test>(?:trade|reports)/\S+) \|$", re.MULTILINE)


def numbers(half: str) -> set[int]:
    """The check values at the beginning of the rows: "6", "1-4", "13, 14"."""
    found: set[int] = set()
    for row in ROW.finditer(half):
        begin = re.match(r"\d+(-\d+)?(, \d+)* ", row["values"])
        for first, last in re.findall(r"(\d+)(?:-(\d+))?", begin[0] if begin else ""):
            found.update(range(int(first), int(last or first) + 1))
    return found


@pytest.mark.parametrize("named", sorted({row["test"] for half in SECTIONS for row in ROW.finditer(half)}))
def test_every_named_test_is_there(named: str) -> None:
    file, _, function = named.partition("::")
    assert f"def {function}(" in (SERVER / file).read_text(encoding="utf-8")


def test_no_value_is_left_out() -> None:
    assert numbers(INCUBATION) == set(range(1, 35))
    assert numbers(BROODING) == set(range(4, 31))
    assert numbers(STATISTICS) == set(range(22, 35))
    assert numbers(BREEDING) == {*range(1, 22), 36}
