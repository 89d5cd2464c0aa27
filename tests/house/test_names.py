"""Files are nouns of the trade; a name that could stand on any file says nothing."""

import re
from pathlib import Path

from tests.house.tree import own_files, sources, text_of

EMPTY_WORDS = {
    "util", "utils", "helper", "helpers", "manager", "managers", "common", "misc", "shared", "core",
    "item", "items", "record", "records", "data", "info", "stuff",
}  # fmt: skip
FIXED_BY_STANDARDS = {"package.json", "datapackage.py", "test_datapackage.py"}
CLASS = re.compile(r"^\s*(?:export\s+)?(?:declare\s+)?(?:class|interface|type)\s+([A-Z]\w*)", re.MULTILINE)


def words_of(name: str) -> set[str]:
    """The words of a file's or class's name, whether snake_case, kebab-case or CamelCase."""
    return {word.lower() for word in re.findall(r"[A-Z]?[a-z]+|[A-Z]+(?![a-z])|\d+", name)}


def test_no_file_or_folder_has_an_empty_name():
    found = [
        str(path)
        for path in own_files()
        if path.name not in FIXED_BY_STANDARDS
        and any(words_of(Path(part).name.split(".")[0]) & EMPTY_WORDS for part in path.parts)
    ]
    assert found == []


def test_no_class_or_type_is_named_after_nothing():
    """Its last word is what it is; words before it may well be verbs, as in RecordOptions."""
    found = [
        f"{path}: {name}"
        for path in sources(".py", ".ts", ".tsx")
        for name in CLASS.findall(text_of(path) or "")
        if re.findall(r"[A-Z][a-z]*", name)[-1].lower() in EMPTY_WORDS
    ]
    assert found == []


def test_nothing_is_left_for_later_and_no_test_is_left_out():
    # Put together from halves, so that this file does not find itself.
    left = re.compile(
        "|".join(
            [
                "TO" + "DO",
                "FIX" + "ME",
                r"mark\." + "skip",
                "xf" + r"ail\(",
                r"\b(?:it|test|describe)\." + "(?:skip|todo|only)",
            ]
        )
    )
    found = [
        f"{path}:{number}"
        for path in sources(".py", ".ts", ".tsx", ".css", ".mjs")
        for number, line in enumerate((text_of(path) or "").splitlines(), 1)
        if left.search(line)
    ]
    assert found == []
