"""`rigmint sheet`: the prep sheet as one self-contained page."""

from __future__ import annotations

import datetime
from pathlib import Path

import click

from rigmint.commands.group import CouldNot
from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_bytes, write_output
from rigmint.commands.version import find_version
from rigmint.library.content import hash_content
from rigmint.lint.check_file import judge_rig
from rigmint.lint.packs import load_packs
from rigmint.report.sheet.gather import Imprint, gather_sheet
from rigmint.report.sheet.pdf import NoPdf, print_pdf
from rigmint.report.sheet.render import render_sheet
from rigmint.study.studies import Studies
from rigmint.study.uses import gather_uses


@click.command("sheet", short_help="The prep sheet as one self-contained page.")
@click.argument("rig", type=click.Path(path_type=Path))
@as_option("html", "pdf")
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.option("--rev", metavar="TEXT", default="", help="A revision to print on the sheet, as the house counts them.")
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="The day that is printed, and that counts for what was accepted until a date. Default: by the clock.",
)
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
    rev: str,
    today: datetime.datetime | None,
) -> None:
    """The prep sheet of RIG: who has what, what to meter and plug, switch on, set, change and pull; with drawings.

    One page that needs no network: on paper, on a phone, in a pull request. As pdf with the extra `rigmint[pdf]`.
    """
    style = choose_style(plain=plain, out=out)
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        click.echo(render_unread((*loaded.faults, *read.faults), "text", style), err=True, nl=False)
        ctx.exit(2)
    setups = choose_setups(read.rig, setup)
    studies = Studies(read.rig, loaded.house)
    uses, failed = gather_uses(studies, setups)
    if failed:
        click.echo(render_unread(failed, "text", style), err=True, nl=False)
        ctx.exit(2)
    packs = load_packs()
    day = today.date() if today else datetime.date.today()
    judged = judge_rig(studies, packs, day, setups, read=read)
    warn_of((*loaded.faults, *packs.faults, *judged.unread), style)
    imprint = Imprint(find_version(), day.isoformat(), hash_content(read, loaded.catalogue), rev)
    page = render_sheet(gather_sheet(studies, judged, uses, imprint))
    if form == "html":
        write_output(page, out, style)
        return
    try:
        write_bytes(print_pdf(page), out)
    except NoPdf as error:
        raise CouldNot(str(error)) from error
