"""What the phone mirrors is tied to the server's module by cases that both test runners read."""

import re
from pathlib import Path

import pytest

from tests.house.tree import PACKAGE, PHONE, ROOT

# The cases of a mirrored module lie in the file of tests/vectors/ by its own name, but for these.
OF_THE_FOLD = ("checks", "founding", "heads", "marks", "moments", "moves", "problems", "standing", "trees")
OF_THE_BROODS = ("hatch_day", "whereabouts")
OF_THE_FLOCK = ("birds", "flock_checks", "flock_days", "hatch_ages")
TIED_BY = (
    {"trade/air": "climate", "book/wire": "canonical"}
    | {f"book/{name}": "fold" for name in OF_THE_FOLD}
    | {f"book/{name}": "broods" for name in OF_THE_BROODS}
    | {"book/out_of_shell": "whereabouts"}
    | {f"book/{name}": "flock_checks" for name in OF_THE_FLOCK}
    | {"book/gone_birds": "tied", "book/tied_sets": "tied"}
)
# The server answers what is due, stored and read in reports/; the phone, which has no such storey, in book/.
TIED_ACROSS = {f"reports/{name}": name for name in ("agenda", "egg_store", "readings", "weighings")}
# Pens put together by hand are reckoned on the screen, by the server's table; the days of pens in the phone's book.
TIED_ACROSS |= {"reports/mating_pens": "pairing", "reports/pens": "pen_stays"}
# What those are made of goes through the same cases; the chores by other names than the server's.
TIED_ACROSS |= {f"reports/{name}": "agenda" for name in ("brood_course", "brood_kit", "cared", "shells")}
TIED_ACROSS |= {
    f"reports/{name}": "agenda" for name in ("agenda_air", "agenda_apart", "agenda_marks", "brood_tasks", "plan_tasks")
}
TIED_ACROSS |= {"reports/growth": "weights"}  # whose curves are the server's alone
# What rates are counted from goes through their cases; test_mirror.py asks both sides of odd books too.
TIED_ACROSS |= {f"reports/{name}": "rates" for name in ("rates", "egg_counts", "first_week")}
# Both sides only read the same table, or the same generated schema: there is nothing to drift.
READ_FROM_ONE_FILE = {"trade/sources", "trade/species", "book/stages", "book/kinds"}


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


def ties() -> dict[str, str]:
    """Mirrored module -> the file whose cases go through it on both sides."""
    alike = {name: TIED_BY.get(name, name.split("/")[1]) for name in mirrored() - READ_FROM_ONE_FILE}
    return alike | TIED_ACROSS


@pytest.mark.parametrize("module", sorted(ties()))
def test_both_test_runners_read_the_cases_of_a_mirrored_module(module):
    vectors = ties()[module]
    assert (ROOT / "tests" / "vectors" / f"{vectors}.json").is_file()
    assert readers(ROOT / "tests" / "server", "test_*.py", f'"{vectors}.json"') != []
    assert readers(ROOT / "tests" / "pwa", "*.test.ts", f'readVectors("{vectors}")') != []


def test_no_module_of_the_reports_is_mirrored_without_a_tie():
    """By name; growth stands in trade/ on both sides; which weights count, in reports/growth and book/weights."""
    phone = {path.stem.replace("-", "_") for path in (PHONE / "book").glob("*.ts")}
    alike = {f"reports/{path.stem}" for path in (PACKAGE / "reports").glob("*.py") if path.stem in phone}
    assert alike - ties().keys() == set()


def test_whatever_says_that_it_is_mirrored_is_tied_and_the_other_is_there():
    """By its first lines, on either side, whatever the other is called."""
    says = re.compile(
        r"[Mm]irror(?:s|ed in)\W(?:\W*that part of )?[^.]*?(?:pwa/src|server/broodline)/([a-z]+/[a-z_-]+)[.](?:ts|py)"
    )
    found = 0
    known = ties().keys() | READ_FROM_ONE_FILE | {"reports/season_year"}
    for path in PACKAGE.rglob("*.py"):
        if other := says.search(" ".join(path.read_text()[:1500].split())):
            found += 1
            assert f"{path.parent.name}/{path.stem}" in known, path
            assert (PHONE / f"{other[1]}.ts").is_file(), path
    for path in PHONE.rglob("*.ts"):
        if other := says.search(" ".join(path.read_text()[:1500].replace(" * ", " ").split())):
            found += 1
            assert other[1] in known, path
            assert (PACKAGE / f"{other[1]}.py").is_file(), path
    assert found > 50


def test_no_cases_lie_unread():
    files = {path.stem for path in (ROOT / "tests" / "vectors").glob("*.json")}
    assert files == set(ties().values())
