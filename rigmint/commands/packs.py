"""`rigmint packs`: the installed packs and their rules."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.options import out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.lint.packs import load_packs
from rigmint.report.packs import render_packs


@click.command("packs", short_help="The installed packs and their rules.")
@out_option()
@plain_option()
@click.pass_context
def command(ctx: click.Context, *, out: Path | None, plain: bool) -> None:
    """The installed packs and their rules. Status 2 where a pack is installed and cannot be used."""
    packs = load_packs()
    style = choose_style(plain=plain, out=out)
    write_output(render_packs(packs, style), out, style)
    if packs.faults:
        ctx.exit(2)
