"""For all tests: nobody's own cache is read or written; at the end it is said how much was tried."""

from __future__ import annotations

import os

import pytest

from tests.counts import TRIED


def pytest_configure() -> None:
    """The cache is off; tests of it name a folder of theirs."""
    os.environ["RIGMINT_CACHE"] = ""


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The counts of inputs."""
    for what, number in sorted(TRIED.items()):
        terminalreporter.write_line(f"tried: {number} {what}")
