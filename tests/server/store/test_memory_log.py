"""The log in memory passes the suite."""

import itertools

import pytest
from hypothesis import settings

from broodline.store.memory_log import MemoryLog
from tests.server.store.log_machine import LogMachine
from tests.server.store.log_suite import HOLDING, OTHER, LogSuite


class MemoryBench:
    def __init__(self):
        epochs = itertools.count(1)
        self.log = MemoryLog(lambda: f"epoch-{next(epochs)}")
        self.log.found(HOLDING)
        self.log.found(OTHER)

    def reopen(self):
        pass

    def restore(self, snapshot):
        self.log.restore(snapshot)

    def clashes(self, holding):
        return self.log.clashes(holding)

    def close(self):
        pass


class TestMemoryLog(LogSuite):
    @pytest.fixture
    def bench(self):
        return MemoryBench()


class MemoryLogMachine(LogMachine):
    open_bench = MemoryBench


TestMemoryLogMachine = MemoryLogMachine.TestCase
TestMemoryLogMachine.settings = settings(max_examples=40, stateful_step_count=20, deadline=None)
