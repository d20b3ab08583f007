"""The pytest plugin of rigmint: options only, until a run names the folder of a pack.

pytest imports this in every run where rigmint is installed, so it imports nothing of rigmint by itself. Named are
folders that hold the pyproject.toml of a pack, in the settings of pytest or on the command line:

    [tool.pytest.ini_options]
    rigmint_packs = ["."]
"""

from __future__ import annotations

from pathlib import Path

import pytest

OPTION, SETTING = "--rigmint-pack", "rigmint_packs"


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option and the setting."""
    says = "folder of a rigmint pack, with its pyproject.toml, that is held to what every pack must hold to"
    group = parser.getgroup("rigmint")
    group.addoption(OPTION, action="append", default=[], metavar="FOLDER", help=says)
    parser.addini(SETTING, type="paths", default=[], help=f"each a {says}")


def pytest_configure(config: pytest.Config) -> None:
    """Take part only where a pack is named."""
    asked = [Path(config.invocation_params.dir, name) for name in config.getoption(OPTION)]
    stated: list[Path] = config.getini(SETTING)
    if asked or stated:
        from rigmint.testing.pack_items import PackCollecting  # which imports more than others' runs need

        config.pluginmanager.register(PackCollecting(config, asked, stated), "rigmint-packs")
