"""`rigmint parts check`: whether part files are plausible, beyond what their format asks."""

from __future__ import annotations

import datetime
from pathlib import Path

import click

from rigmint.commands.options import as_option, library_option, out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.lint.packs import PackSet
from rigmint.lint.parts.check_parts import check_part_files
from rigmint.lint.results import Report
from rigmint.report.style import Style


@click.command("check", short_help="Check part files.")
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path), metavar="[PATH ...]")
@click.option("--installed", is_flag=True, help="The parts that rigmint and other installed packages bring.")
@as_option("text", "json", "sarif")
@out_option()
@library_option()
@plain_option()
@click.pass_context
def command(
    ctx: click.Context,
    *,
    paths: tuple[Path, ...],
    installed: bool,
    form: str,
    out: Path | None,
    library: Path | None,
    plain: bool,
) -> None:
    """Check part files, or folders of them, for what is hardly meant so: volts that contradict each other, contacts
    that are overrated, rails that nothing feeds, controls that reach nothing. Without a PATH, the library's own.

    Status 0: nothing at or above the grade at which the library fails. 1: findings at or above it. 2: it could not be
    checked.
    """
    if paths and installed:
        msg = "`--installed` checks the parts that installed packages bring; leave it out where a PATH is named"
        raise click.UsageError(msg)
    report = check_part_files(paths, library=library, installed=installed, today=datetime.date.today().isoformat())
    style = choose_style(plain=plain, out=out)
    write_output(_render(report, form, style), out, style)
    ctx.exit(report.status(strict=False))


def _render(report: Report, form: str, style: Style) -> str:
    if form == "json":
        from rigmint.report.json import render_check_json

        return render_check_json(report)
    if form == "sarif":
        from rigmint.report.sarif import render_sarif

        return render_sarif(report, PackSet((), ()), strict=False)
    from rigmint.report.text import render_part_report

    return render_part_report(report, style)
