"""`rigmint owners`: who has what."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.version import find_version
from rigmint.library.build_rig import read_rig
from rigmint.library.faults import Fault, suggest
from rigmint.library.library_file import find_library_file, load_library
from rigmint.report.json import render_owners_json, render_unread_json
from rigmint.report.owners import render_owners
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.text import render_faults
from rigmint.rig.rig import Rig
from rigmint.study.study_hands import study_hands


@click.command("owners", short_help="Who can move each axis in each setup, by which path, how far.")
@click.argument("rig", type=click.Path(path_type=Path))
@as_option("text", "json")
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.pass_context
def command(
    ctx: click.Context,
    *,
    rig: Path,
    form: str,
    out: Path | None,
    setup: str | None,
    library: Path | None,
    plain: bool,
) -> None:
    """Who can move each axis of RIG in each setup, by which path, how far; and what stops the others."""
    style = choose_style(plain=plain, out=out)
    loaded = load_library(library if library is not None else find_library_file(rig))
    read = read_rig(rig, loaded)
    if read.rig is None:
        write_output(_render_unread((*loaded.faults, *read.faults), form, style), out, style)
        ctx.exit(2)
    if loaded.faults:
        click.echo(render_faults(loaded.faults, Style(style.width)), err=True, nl=False)
    setups = {
        name: study_hands(read.rig, read.rig.setups[name], loaded.house) for name in _choose_setups(read.rig, setup)
    }
    if form == "json":
        text = render_owners_json(find_version(), read.file, setups)
    else:
        text = render_owners(read.file, setups, style)
    write_output(text, out, style)


def _render_unread(faults: Sequence[Fault], form: str, style: Style) -> str:
    return render_unread_json(faults) if form == "json" else render_faults(faults, style)


def _choose_setups(rig: Rig, setup: str | None) -> tuple[str, ...]:
    if setup is None:
        return tuple(rig.setups)
    if setup not in rig.setups:
        near = suggest(setup, rig.setups) or f": it has {', '.join(rig.setups)}"
        msg = f"the rig has no setup `{clean(setup)}`{near}"
        raise click.UsageError(msg)
    return (setup,)
