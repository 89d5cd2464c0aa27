"""The examples in docstrings run, and a module of the trade has at least one."""

import doctest
import importlib
import pkgutil

import pytest

import broodline.book
import broodline.exchange
import broodline.reports
import broodline.trade

PURE = (broodline.trade, broodline.book, broodline.reports, broodline.exchange)
MODULES = [found.name for storey in PURE for found in pkgutil.walk_packages(storey.__path__, f"{storey.__name__}.")]
WITHOUT_FUNCTIONS_TO_SHOW = {"broodline.trade.tables"}


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    module = importlib.import_module(name)
    result = doctest.testmod(module, optionflags=doctest.NORMALIZE_WHITESPACE)
    assert result.failed == 0
    if name.startswith("broodline.trade.") and name not in WITHOUT_FUNCTIONS_TO_SHOW:
        assert result.attempted > 0, "a module of the trade shows one example that runs"
