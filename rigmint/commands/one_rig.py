"""What the commands that show one rig have in common: reading it, choosing setups, saying why it cannot be read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.faults import Fault, suggest
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.report.json import render_unread_json
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.text import render_faults
from rigmint.rig.rig import Rig


def read_one_rig(path: Path, library: Path | None) -> tuple[ReadRig, Library]:
    """The rig and its library: the one given, else the nearest above the rig."""
    loaded = load_library(library if library is not None else find_library_file(path))
    return read_rig(path, loaded), loaded


def warn_of(faults: Sequence[Fault], style: Style) -> None:
    """Say on standard error what is wrong with a library, where there is something to show all the same."""
    if faults:
        click.echo(render_faults(faults, Style(style.width)), err=True, nl=False)


def render_unread(faults: Sequence[Fault], form: str, style: Style) -> str:
    """Why nothing is shown, as text or JSON."""
    return render_unread_json(faults) if form == "json" else render_faults(faults, style)


def choose_setups(rig: Rig, setup: str | None) -> tuple[str, ...]:
    """The setup asked for, or all in the order of the file. Raises click.UsageError for one that is not there."""
    if setup is None:
        return tuple(rig.setups)
    if setup not in rig.setups:
        near = suggest(setup, rig.setups) or f": it has {', '.join(rig.setups)}"
        msg = f"the rig has no setup `{clean(setup)}`{near}"
        raise click.UsageError(msg)
    return (setup,)
