"""The examples in the docstrings of trade/ and reports/ run and print what they say."""

import doctest
import importlib
import pkgutil
from types import ModuleType

import pytest

import broodline.reports
import broodline.trade


def modules() -> list[str]:
    return [
        found.name
        for storey in (broodline.trade, broodline.reports)
        for found in pkgutil.iter_modules(storey.__path__, f"{storey.__name__}.")
    ]


@pytest.mark.parametrize("name", modules())
def test_examples(name: str) -> None:
    module: ModuleType = importlib.import_module(name)
    assert doctest.testmod(module).failed == 0
