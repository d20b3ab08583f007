"""`rigmint power`: what the wiring does."""

from __future__ import annotations

from pathlib import Path

import click

from rigmint.commands.one_rig import choose_setups, read_one_rig, render_unread, warn_of
from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.version import find_version
from rigmint.report.power import render_power
from rigmint.report.power_faults import render_faults_text
from rigmint.report.power_json import render_power_json
from rigmint.report.power_setup import PowerReport, gather_power
from rigmint.report.style import Style


@click.command("power", short_help="Voltage, current, drop, load and runtime, port by port and lead by lead.")
@click.argument("rig", type=click.Path(path_type=Path))
@as_option("text", "json")
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.option("--faults", is_flag=True, help="What goes down with each lead, conductor, source, link and device.")
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
    faults: bool,
) -> None:
    """Voltage, current, drop, load and runtime of RIG, port by port and lead by lead, in each setup.

    Three points: full batteries, typical, and the change, at which the batteries are low and the largest loads peak.
    With --faults what each single fault takes down instead, and in JSON besides.
    """
    style = choose_style(plain=plain, out=out)
    read, loaded = read_one_rig(rig, library)
    if read.rig is None:
        write_output(render_unread((*loaded.faults, *read.faults), form, style), out, style)
        ctx.exit(2)
    warn_of(loaded.faults, style)
    report = gather_power(read.rig, loaded.house, choose_setups(read.rig, setup), with_faults=faults)
    if report.failed:
        write_output(render_unread(report.failed, form, style), out, style)
        ctx.exit(2)
    write_output(_render(report, form, style), out, style)


def _render(report: PowerReport, form: str, style: Style) -> str:
    if form == "json":
        return render_power_json(find_version(), report)
    faults = {name: shown.faults for name, shown in report.setups.items() if shown.faults is not None}
    return render_faults_text(report.rig, faults, style.width) if faults else render_power(report, style)
