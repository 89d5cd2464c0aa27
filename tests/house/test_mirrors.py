"""What the phone mirrors is tied to the server's module by cases that both test runners read."""

from pathlib import Path

import pytest

from tests.house.tree import PACKAGE, PHONE, ROOT

# Mirrored module -> the file in tests/vectors/ whose cases go through it on both sides.
TIED_BY = {
    "trade/calendar": "calendar",
    "trade/proportions": "proportions",
    "book/wire": "canonical",
    "book/fold": "fold",
    "book/checks": "fold",
    "book/founding": "fold",
    "book/heads": "fold",
    "book/moments": "fold",
    "book/moves": "fold",
    "book/problems": "fold",
    "book/standing": "fold",
    "book/trees": "fold",
}
# The server answers what is due in reports/; the phone, which has no such storey, in book/.
TIED_ACROSS = {"reports/agenda": "agenda"}
# Both sides only read the same table, or the same generated schema: there is nothing to drift.
READ_FROM_ONE_FILE = {"trade/sources", "trade/species", "book/stages", "book/kinds"}

VECTORS = sorted({*TIED_BY.values(), *TIED_ACROSS.values()})


def mirrored() -> set[str]:
    """Modules of trade/ and book/ that stand on both sides by the same name."""
    server = {
        f"{path.parent.name}/{path.stem}" for storey in ("trade", "book") for path in (PACKAGE / storey).glob("*.py")
    }
    phone = {
        f"{path.parent.name}/{path.stem}" for storey in ("trade", "book") for path in (PHONE / storey).glob("*.ts")
    }
    return server & {name.replace("-", "_") for name in phone}


def readers(folder: Path, pattern: str, words: str) -> list[str]:
    return [path.name for path in folder.rglob(pattern) if words in path.read_text()]


def test_every_mirrored_module_is_tied_or_read_from_one_file():
    assert mirrored() == set(TIED_BY) | READ_FROM_ONE_FILE


@pytest.mark.parametrize("vectors", VECTORS)
def test_both_test_runners_read_the_cases(vectors):
    assert (ROOT / "tests" / "vectors" / f"{vectors}.json").is_file()
    assert readers(ROOT / "tests" / "server", "test_*.py", f'"{vectors}.json"') != []
    assert readers(ROOT / "tests" / "pwa", "*.test.ts", f'readVectors("{vectors}")') != []


def test_no_cases_lie_unread():
    files = {path.stem for path in (ROOT / "tests" / "vectors").glob("*.json")}
    assert sorted(files) == VECTORS
