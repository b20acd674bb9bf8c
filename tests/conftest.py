"""What all tests share. In CI a skipped test fails the run: there every tool must be present."""

from __future__ import annotations

import os

import pytest

from tests.kept import clear


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("CI") and reporter is not None and reporter.stats.get("skipped") and exitstatus == 0:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_unconfigure(config: pytest.Config) -> None:
    """The last process of a run, which is the one that shares the tests out, clears what the others kept."""
    if not hasattr(config, "workerinput") and (runs := config.pluginmanager.get_plugin("dsession")):
        clear(runs.nodemanager.testrunuid)
