"""Code that is not rigmint's own, of packs and of house checks: what it does to the process is kept from the others."""

from __future__ import annotations

import sys
from contextlib import AbstractContextManager, redirect_stdout
from typing import TextIO


def keep_off_output() -> AbstractContextManager[TextIO]:
    """While it holds, what is printed goes to standard error, so that a report in JSON or SARIF stays one."""
    return redirect_stdout(sys.stderr)


def describe_error(error: BaseException) -> str:
    """The kind of an error and its words; those of one that cannot even say them are left out."""
    try:
        words = str(error)
    except Exception:
        words = ""
    return f"{type(error).__name__}: {words}" if words else type(error).__name__
