"""What the project offers is named in its handbook: kinds, tables, modules, commands and routes."""

import re
from argparse import ArgumentParser, _SubParsersAction
from collections.abc import Iterator
from typing import cast

from starlette.routing import Route

from broodline.book.kinds import KINDS
from broodline.cli.main import command_line
from broodline.web.app import route_table
from broodline.web.desk import Desk
from tests.house.tree import PACKAGE, PHONE, PHONE_STOREYS, ROOT, SERVER_STOREYS, own_files

HANDBOOK = (ROOT / "DEVELOPERS.md").read_text()
BOTH = HANDBOOK + (ROOT / "README.md").read_text()


def codemap() -> dict[str, set[str]]:
    """Storey -> the names its line in the codemap lists, as "server/broodline/book" or "pwa/src/book"."""
    chapter = HANDBOOK.split("\n## Codemap\n")[1].split("\n## ")[0]
    paragraphs = re.findall(r"^\*\*([^*]+)/\*\* (.+?)(?=\n\n|\n\*\*|\Z)", chapter, re.MULTILINE | re.DOTALL)
    names = {storey: re.findall(r"`([^`]+)`", words) for storey, words in paragraphs}
    return {storey: {name for name in found if not name.endswith("/")} for storey, found in names.items()}


def modules_in(storey: str) -> set[str]:
    """Own source files directly in a storey, without their endings."""
    found = (path for path in own_files() if path.parent.as_posix() == storey)
    return {path.stem for path in found if path.suffix in {".py", ".ts", ".tsx"}} - {"__init__"}


def test_the_codemap_has_every_storey_and_names_nothing_that_is_gone():
    storeys = [f"{PACKAGE.relative_to(ROOT).as_posix()}/{name}" for name in SERVER_STOREYS]
    storeys += [f"{PHONE.relative_to(ROOT).as_posix()}/{name}" for name in PHONE_STOREYS]
    written = codemap()
    assert set(written) == set(storeys)
    assert {storey: gone for storey, names in written.items() if (gone := names - modules_in(storey))} == {}


def test_every_kind_of_entry_is_named():
    assert [kind for kind in KINDS if f"`{kind}`" not in HANDBOOK] == []


def test_every_table_is_named():
    tables = sorted(path.stem for path in (PACKAGE / "trade" / "tables").glob("*.json"))
    assert len(tables) > 1
    assert [name for name in tables if f"`{name}.json`" not in HANDBOOK] == []


def commands_of(parser: ArgumentParser, before: str) -> Iterator[str]:
    """Every command a parser knows, with the words before it."""
    below = [action for action in parser._actions if isinstance(action, _SubParsersAction)]
    for action in below:
        for name, inner in action.choices.items():
            yield f"{before} {name}"
            yield from commands_of(inner, f"{before} {name}")


def test_every_command_is_named():
    commands = list(commands_of(command_line([]), "broodline"))
    assert "broodline serve" in commands
    assert [command for command in commands if f"`{command}" not in BOTH] == []


def test_every_route_is_named():
    """As the table of web/app.py writes it, without the type of a parameter: `/api/v1/devices/{id}`."""
    routes = [route for route in route_table(cast(Desk, None)) if isinstance(route, Route)]
    assert len(routes) > 5
    written = {re.sub(r":\w+}", "}", route.path) for route in routes}
    assert sorted(path for path in written if f"`{path}`" not in HANDBOOK) == []
