"""What may lie in the tree: our own sources, for any machine."""

import json
import re
import tomllib

import broodline
from tests.house.tree import ROOT, own_files, text_of

FOREIGN = re.compile(
    r"(^|/)(node_modules|dist|_pwa|__pycache__|\.venv|[^/]*\.egg-info)/"
    r"|\.(pyc|so|dll|exe|whl|tgz|gz|map|wasm|woff2?|ttf|otf)$|\.min\.(js|css)$"
)
PICTURES_AND_OLD_BOOKS = re.compile(r"\.(png|webp|jpe?g|svg|ico)$|^tests/old_books/")

# In halves, so that the tree holds neither a path of somebody's machine nor the name of a place packages come from.
MACHINE_PATHS = re.compile(
    "|".join("/" + name + "/[a-z.]" for name in ("wo" + "rk", "ro" + "ot", "ho" + "me", "Us" + "ers"))
)
PACKAGE_HOSTS = re.compile(
    "|".join(
        (
            "py" + r"pi\.org",
            "python" + r"hosted\.org",
            "registry" + r"\.(?:npm|yarn)",
            "npm" + r"js\.(?:org|com)",
            "deb" + r"\.debian\.org",
        )
    )
)


def lines_with(pattern: re.Pattern[str]) -> list[str]:
    return [
        f"{path}:{number}: {line.strip()[:80]}"
        for path in own_files()
        for number, line in enumerate((text_of(path) or "").splitlines(), 1)
        if pattern.search(line)
    ]


def test_nothing_compiled_or_by_others_is_kept_here():
    assert [str(path) for path in own_files() if FOREIGN.search(path.as_posix())] == []


def test_what_is_no_text_is_a_picture_or_an_old_book():
    found = [p.as_posix() for p in own_files() if text_of(p) is None]
    assert [name for name in found if not PICTURES_AND_OLD_BOOKS.search(name)] == []


def test_no_path_of_one_machine_is_written_down():
    assert lines_with(MACHINE_PATHS) == []


def test_no_place_that_packages_come_from_is_named():
    assert lines_with(PACKAGE_HOSTS) == []


def test_the_lock_file_says_what_to_install_but_not_from_where():
    lock = json.loads((ROOT / "pwa" / "package-lock.json").read_text())
    parts = {name: part for name, part in lock["packages"].items() if name}
    assert len(parts) > 50
    assert [name for name, part in parts.items() if "resolved" in part or "integrity" not in part] == []


def test_constraints_are_pinned_and_name_no_place():
    lines = (ROOT / "constraints.txt").read_text().splitlines()
    pinned = re.compile(r"^[a-z0-9][a-z0-9._-]*==[0-9][\w.]*( ; .+)?$")
    assert [line for line in lines if not pinned.match(line)] == []


def test_the_version_is_the_same_everywhere():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    phone = json.loads((ROOT / "pwa" / "package.json").read_text())
    assert {project["version"], phone["version"]} == {broodline.__version__}


def test_the_pictures_of_the_handbook_are_few_and_small_and_say_in_words_what_they_show():
    taken = {str(path): (ROOT / path).stat().st_size for path in own_files() if path.suffix == ".webp"}
    assert 1 <= len(taken) <= 8
    assert {path: size for path, size in taken.items() if size > 60_000} == {}
    shown = re.findall(r'<img src="([^"]+)" alt="([^"]{20,})"', (ROOT / "README.md").read_text())
    assert sorted(path for path, _ in shown) == sorted(taken)
