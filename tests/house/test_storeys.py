"""The house plan: which storeys there are, the law at each door, and no back doors."""

import ast

import pytest

from tests.house.tree import PACKAGE, PHONE, PHONE_STOREYS, SERVER_STOREYS, sources, text_of


@pytest.mark.parametrize("storey", SERVER_STOREYS)
def test_each_server_storey_has_its_law_at_the_door_and_nothing_else(storey):
    door = ast.parse((PACKAGE / storey / "__init__.py").read_text())
    law = ast.get_docstring(door) or ""
    assert "ay import" in law or "mports nothing" in law, "the law says what may be imported"
    assert len(door.body) == 1, "a door lets nobody through: no imports, no names"


def test_the_server_has_these_storeys_and_no_others():
    folders = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    assert folders == set(SERVER_STOREYS)
    assert {path.name for path in PACKAGE.glob("*.py")} <= {"__init__.py", "__main__.py", "errors.py", "settings.py"}


def test_the_phone_has_these_storeys_and_no_others():
    folders = {path.name for path in PHONE.iterdir() if path.is_dir() and any(path.iterdir())}
    assert folders == set(PHONE_STOREYS)
    assert [path.name for path in PHONE.iterdir() if path.is_file()] == []


def test_no_import_hides_inside_a_function():
    found = []
    for path in sources(".py"):
        if path.parts[0] != "server":
            continue
        for outer in ast.walk(ast.parse(text_of(path) or "")):
            if isinstance(outer, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
                inner = [node for node in ast.walk(outer) if isinstance(node, ast.Import | ast.ImportFrom)]
                found += [f"{path}:{node.lineno}" for node in inner]
    assert found == []


def test_no_folder_of_the_phone_has_a_barrel():
    assert [str(path) for path in sources(".ts", ".tsx") if path.stem == "index"] == []


def test_every_module_says_what_it_holds():
    modules = [path for path in sources(".py") if path.parts[0] == "server"]
    assert [str(path) for path in modules if not ast.get_docstring(ast.parse(text_of(path) or ""))] == []
