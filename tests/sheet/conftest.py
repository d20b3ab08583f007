"""A real browser for the sheet, where Debian's is installed."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser

NEEDED = "RIGMINT_NEED_BROWSER"
"""Set in the environment, a browser that is missing is a failure and no reason to skip."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium, driven without a window."""
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        if os.environ.get(NEEDED):
            pytest.fail("Chromium is not installed")
        pytest.skip("Chromium is not installed")
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def axe() -> str:
    """The script of axe-core, which the environment names; npm brings it (`npm pack axe-core`)."""
    path = os.environ.get("RIGMINT_AXE")
    if not path:
        if os.environ.get(NEEDED):
            pytest.fail("RIGMINT_AXE names no axe-core script")
        pytest.skip("RIGMINT_AXE names no axe-core script")
    return Path(path).read_text(encoding="utf-8")
