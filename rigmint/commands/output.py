"""Where text goes: the terminal or a file, in the terminal's width, with colour only where a person looks at it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from rigmint.commands.surroundings import drop_output, encode_for_output, look_at_output
from rigmint.report.safe import clean
from rigmint.report.style import MAX_WIDTH, Style, bound_width


def choose_style(*, plain: bool, out: Path | None = None) -> Style:
    """Colour on a terminal only, never with `--plain`, `NO_COLOR` or into a file; lines and dots where they print."""
    columns, colour, is_ascii = look_at_output(plain=plain, is_file=out is not None)
    return Style(MAX_WIDTH if columns is None else bound_width(columns), colour=colour, is_ascii=is_ascii)


def write_output(text: str, out: Path | None, style: Style) -> None:
    """Write a whole text. A reader that goes away is no error. Raises click.ClickException for a file that fails."""
    if out is None:
        _print(text, style)
        return
    _put(out, text.encode("utf-8", "backslashreplace"))


def write_bytes(content: bytes, out: Path | None) -> None:
    """Write what is no text. Raises click.ClickException for a file that fails, and where a terminal would show it."""
    if out is None and sys.stdout.isatty():
        msg = "this form is no text: name a file with --out"
        raise click.ClickException(msg)
    if out is None:
        sys.stdout.buffer.write(content)
        return
    _put(out, content)


def _put(out: Path, content: bytes) -> None:
    """A file that cannot be written whole stays as it was."""
    from rigmint.library.write_file import put_file

    try:
        put_file(out, content)
    except OSError as error:
        msg = clean(f"{out} cannot be written: {(error.strerror or type(error).__name__).lower()}")
        raise click.ClickException(msg) from error


def _print(text: str, style: Style) -> None:
    try:
        click.echo(encode_for_output(text), nl=False, color=style.colour)
        sys.stdout.flush()
    except BrokenPipeError:
        drop_output()
