"""Where text goes: the terminal or a file, in the terminal's width, with colour only where a person looks at it."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import click

from rigmint.report.style import MAX_WIDTH, Style, bound_width

_DRAWN = "├─●┤"


def choose_style(*, plain: bool, out: Path | None = None) -> Style:
    """Colour on a terminal only, never with `--plain`, `NO_COLOR` or into a file; lines and dots where they print."""
    is_ascii = plain or (out is None and not _prints(_DRAWN))
    if out is not None or not sys.stdout.isatty():
        return Style(MAX_WIDTH, colour=False, is_ascii=is_ascii)
    is_bare = plain or bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    return Style(bound_width(shutil.get_terminal_size().columns), colour=not is_bare, is_ascii=is_ascii)


def _prints(letters: str) -> bool:
    """Whether standard output's encoding has these characters."""
    try:
        letters.encode(sys.stdout.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def write_output(text: str, out: Path | None, style: Style) -> None:
    """Write a whole text. A reader that goes away is no error. Raises click.ClickException for a file that fails."""
    if out is None:
        _print(text, style)
        return
    try:
        out.write_text(text, encoding="utf-8", errors="backslashreplace", newline="\n")
    except OSError as error:
        msg = f"{out} cannot be written: {(error.strerror or type(error).__name__).lower()}"
        raise click.ClickException(msg) from error


def write_bytes(content: bytes, out: Path | None) -> None:
    """Write what is no text. Raises click.ClickException for a file that fails, and where a terminal would show it."""
    if out is None and sys.stdout.isatty():
        msg = "this form is no text: name a file with --out"
        raise click.ClickException(msg)
    if out is None:
        sys.stdout.buffer.write(content)
        return
    try:
        out.write_bytes(content)
    except OSError as error:
        msg = f"{out} cannot be written: {(error.strerror or type(error).__name__).lower()}"
        raise click.ClickException(msg) from error


def _print(text: str, style: Style) -> None:
    encoding = sys.stdout.encoding or "utf-8"
    printable = text.encode(encoding, "backslashreplace").decode(encoding)
    try:
        click.echo(printable, nl=False, color=style.colour)
        sys.stdout.flush()
    except BrokenPipeError:
        # What is still buffered would raise again when Python closes the stream at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
