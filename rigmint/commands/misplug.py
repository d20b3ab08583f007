"""`rigmint misplug`: every plug that fits a wrong socket."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.version import find_version
from rigmint.report.misplug import render_misplug
from rigmint.report.misplug_json import render_misplug_json
from rigmint.study.misplug.study import study_misplugs
from rigmint.study.studies import Studies


@click.command("misplug", short_help="Every plug that fits a wrong socket, and what it would do.")
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
    """Every plug of RIG that fits a wrong socket, and what it would do there: what burns first.

    Each end in every other socket that takes it, each lead swapped for another of the rig, its case and the library,
    each lead turned round, each plug forced in. What one slip within reach can do comes before what takes a bench.
    """
    style = choose_style(plain=plain, out=out)
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        write_output(render_unread((*loaded.faults, *read.faults), form, style), out, style)
        ctx.exit(2)
    warn_of(loaded.faults, style)
    setups = choose_setups(read.rig, setup)
    study = study_misplugs(Studies(read.rig, loaded.house), setups, loaded.catalogue.list_leads())
    if form == "json":
        text = render_misplug_json(find_version(), read.rig, study)
    else:
        text = render_misplug(read.rig, study, setups, style)
    write_output(text, out, style)
