"""For all tests: nobody's own cache is read or written."""

import os


def pytest_configure() -> None:
    """The cache is off; tests of it name a folder of theirs."""
    os.environ["RIGMINT_CACHE"] = ""
