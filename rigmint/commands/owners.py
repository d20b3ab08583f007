"""`rigmint owners`: who has what."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.version import find_version
from rigmint.report.json import render_owners_json
from rigmint.report.owners import render_owners
from rigmint.study.dial_speed import study_dial_speeds
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
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        write_output(render_unread((*loaded.faults, *read.faults), form, style), out, style)
        ctx.exit(2)
    warn_of(loaded.faults, style)
    setups = {
        name: study_hands(read.rig, read.rig.setups[name], loaded.house) for name in choose_setups(read.rig, setup)
    }
    if form == "json":
        text = render_owners_json(find_version(), read.file, setups)
    else:
        dials = {name: study_dial_speeds(read.rig, read.rig.setups[name], hands) for name, hands in setups.items()}
        text = render_owners(read.file, setups, style, dials)
    write_output(text, out, style)
