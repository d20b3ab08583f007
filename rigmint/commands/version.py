"""The installed version of rigmint."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError, version


def find_version() -> str:
    """From the installed distribution; `unknown` where rigmint is run from a folder without being installed."""
    try:
        return version("rigmint")
    except PackageNotFoundError:
        return "unknown"
