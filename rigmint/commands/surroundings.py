"""What a text looks like where it goes: the terminal's width, colour, letters. Imports next to nothing."""

from __future__ import annotations

import os
import sys

_DRAWN = "├─●┤"
_WIDTH_ASIDE = 80
"""Columns of a terminal that does not say."""


def look_at_output(*, plain: bool, is_file: bool = False) -> tuple[int | None, bool, bool]:
    """Columns (None where it is no terminal), whether to colour, whether to draw with ASCII characters alone."""
    is_ascii = plain or (not is_file and not _prints(_DRAWN))
    if is_file or not sys.stdout.isatty():
        return None, False, is_ascii
    is_bare = plain or bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    return _count_columns(), not is_bare, is_ascii


def encode_for_output(text: str) -> str:
    """The text with escapes for what standard output's encoding does not have."""
    encoding = sys.stdout.encoding or "utf-8"
    return text.encode(encoding, "backslashreplace").decode(encoding)


def open_missing_streams() -> None:
    """Where a caller closed standard output or error, what goes there is lost, and nothing else is different."""
    if sys.stdout is None:
        sys.stdout = os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8")
    if sys.stderr is None:
        sys.stderr = os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8")


def say_unwritten(error: OSError) -> str:
    """Why an output could not be written, such as a disk that is full."""
    return f"Error: the output could not be written whole: {(error.strerror or type(error).__name__).lower()}."


def drop_output() -> None:
    """Once the reader has gone away, or the disk is full: what is still buffered would raise again when Python closes
    the stream."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _count_columns() -> int:
    """As the standard library counts them, which imports much for it."""
    stated = os.environ.get("COLUMNS", "")
    if stated.isdecimal() and int(stated) > 0:
        return int(stated)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno() if sys.__stdout__ else 1).columns or _WIDTH_ASIDE
    except (ValueError, OSError):
        return _WIDTH_ASIDE


def _prints(letters: str) -> bool:
    """Whether standard output's encoding has these characters."""
    try:
        letters.encode(sys.stdout.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
