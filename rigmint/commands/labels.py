"""`rigmint labels`: what is printed on the tape at each end of each lead."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.report.labels import list_labels, render_labels
from rigmint.study.studies import Studies
from rigmint.study.uses import gather_uses


@click.command("labels", short_help="Lead labels as CSV for a label printer.")
@click.argument("rig", type=click.Path(path_type=Path))
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.pass_context
def command(
    ctx: click.Context,
    *,
    rig: Path,
    out: Path | None,
    setup: str | None,
    library: Path | None,
    plain: bool,
) -> None:
    """Labels of the leads of RIG as CSV, one row an end: lead, end, two lines of text, tape colour, voltage class.

    The colour is what the rig or the lead itself says, else that of the voltage class (`labels:` in the library file).
    """
    style = choose_style(plain=plain, out=out)
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        write_output(render_unread((*loaded.faults, *read.faults), "text", style), out, style)
        ctx.exit(2)
    warn_of(loaded.faults, style)
    uses, failed = gather_uses(Studies(read.rig, loaded.house), choose_setups(read.rig, setup))
    if failed:
        write_output(render_unread(failed, "text", style), out, style)
        ctx.exit(2)
    write_output(render_labels(list_labels(read.rig, uses, loaded.house)), out, style)
