"""`rigmint draw`: the wiring drawing."""

from __future__ import annotations

import datetime
from pathlib import Path

import click

from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.lint.check_file import judge_rig
from rigmint.lint.packs import load_packs
from rigmint.report.draw.drawing import draw_layer
from rigmint.study.layers import Layer
from rigmint.study.studies import Studies
from rigmint.study.uses import gather_uses

_ALL = "all"


@click.command("draw", short_help="The wiring drawing as SVG, one layer or all.")
@click.argument("rig", type=click.Path(path_type=Path))
@click.option(
    "--layer",
    type=click.Choice([*(layer.value for layer in Layer), _ALL]),
    default=_ALL,
    show_default=True,
    help="What the leads that are drawn are for.",
)
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="The day that counts for findings that were accepted until a date. Default: by the clock.",
)
@click.pass_context
def command(
    ctx: click.Context,
    *,
    rig: Path,
    layer: str,
    out: Path | None,
    setup: str | None,
    library: Path | None,
    plain: bool,
    today: datetime.datetime | None,
) -> None:
    """Draw RIG as SVG: items as boxes by what they ride on, leads with their labels, volts and findings.

    Without --setup, what is there in any setup; leads and items that are not in all of them say in which they are.
    """
    style = choose_style(plain=plain, out=out)
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        write_output(render_unread((*loaded.faults, *read.faults), "text", style), out, style)
        ctx.exit(2)
    setups = choose_setups(read.rig, setup)
    studies = Studies(read.rig, loaded.house)
    uses, failed = gather_uses(studies, setups)
    if failed:
        write_output(render_unread(failed, "text", style), out, style)
        ctx.exit(2)
    packs = load_packs()
    day = today.date() if today else datetime.date.today()
    judged = judge_rig(studies, packs, day, setups, read=read)
    unjudged = (*packs.faults, *judged.unread)
    warn_of((*loaded.faults, *unjudged), style)
    chosen = None if layer == _ALL else Layer(layer)
    write_output(draw_layer(read.rig, uses, judged.findings, chosen), out, style)
    if unjudged:  # findings may be missing from the drawing
        ctx.exit(2)
