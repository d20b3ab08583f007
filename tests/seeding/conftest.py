"""Prints what fault seeding counted at the end of the test run."""

from __future__ import annotations

import pytest

COUNTED = pytest.StashKey[list[str]]()


@pytest.fixture(scope="session")
def counted(pytestconfig: pytest.Config) -> list[str]:
    """Lines for the end of the run."""
    return pytestconfig.stash.setdefault(COUNTED, [])


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """The counts, whatever the tests made of them."""
    lines = config.stash.get(COUNTED, [])
    if lines:
        terminalreporter.section("fault seeding")
        for line in lines:
            terminalreporter.write_line(line)
